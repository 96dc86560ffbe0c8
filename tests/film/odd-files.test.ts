import { describe, expect, it } from 'vitest';
import { expectDcmtk, itWithDcmtk, throughDcmtk } from './dcmtk.ts';
import { type Element, type FilmOptions, filmFile, inFragments, SYNTAX } from './dicom-file.ts';
import { openFilm, storedValues } from './open.ts';
import { curv, greyProfile } from './picture/icc-file.ts';
import { greyJpeg, inPieces } from './picture/jpegs.ts';

const ascii = (text: string) => new TextEncoder().encode(text);

describe('files that are odd and opened, with what was odd', () => {
  const decimal = (tag: Element['tag'], value: string): Element => ({ tag, vr: 'DS', value });

  it.each([
    ['a zero spacing', decimal('0028,0030', '0\\0')],
    ['a negative spacing', decimal('0018,1164', '-0.1\\0.1')],
  ])('%s: no millimetres, and a sentence', async (_, element) => {
    const { spacing } = await openFilm(filmFile({ extra: [element] }));
    expect(spacing.kind).toBe('ratio');
    expect(spacing.conflicts).toHaveLength(1);
  });

  it.each([
    ['a rescale of no number', decimal('0028,1053', 'one'), /rescale slope or intercept is no number/],
    ['a slope of 0', decimal('0028,1053', '0'), /rescale slope/],
    [
      'a window of width 0',
      [decimal('0028,1050', '100'), decimal('0028,1051', '0')],
      /Window 1 of the file cannot be used/,
    ],
    [
      'a VOI function nobody knows',
      { tag: '0028,1056', vr: 'CS', value: 'CUBIC' } as Element,
      /“CUBIC” is not known/,
    ],
    [
      'a photometric interpretation and a shape that do not go together',
      { tag: '2050,0020', vr: 'CS', value: 'INVERSE' } as Element,
      /MONOCHROME2 and INVERSE, which do not go together/,
    ],
    [
      'raw detector data',
      { tag: '0008,0068', vr: 'CS', value: 'FOR PROCESSING' } as Element,
      /raw detector data/,
    ],
    ['an overlay', { tag: '6000,0010', vr: 'US', value: [2] } as Element, /drawing laid over the film/],
    [
      'two sides',
      [
        { tag: '0020,0060', vr: 'CS', value: 'L' },
        { tag: '0020,0062', vr: 'CS', value: 'R' },
      ] as Element[],
      /says side R and its series says L/,
    ],
    ['an unknown kind of object', { tag: '0008,0016', vr: 'UI', value: '1.2.3' } as Element, /1\.2\.3/],
    [
      'a mammogram',
      { tag: '0008,0016', vr: 'UI', value: '1.2.840.10008.5.1.4.1.1.1.2' } as Element,
      /says it is a DICOM mammogram, not a film/,
    ],
    [
      'an intra-oral film',
      { tag: '0008,0016', vr: 'UI', value: '1.2.840.10008.5.1.4.1.1.1.3' } as Element,
      /says it is a DICOM intra-oral radiograph/,
    ],
  ])('%s', async (_, extra, note) => {
    const film = await openFilm(filmFile({ extra: [extra].flat() }));
    expect(film.facts.notes.join(' ')).toMatch(note);
  });

  it('damage after the picture', async () => {
    const film = await openFilm(
      Uint8Array.from([...filmFile({}), 0xfc, 0xff, 0xfc, 0xff, 0x4f, 0x42, 0, 0, 9, 9, 9, 9]),
    );
    expect(film.facts.notes.join(' ')).toMatch(/damaged after its picture/);
  });

  const PROFILE = greyProfile(curv(461));
  it.each([
    ['whole', inPieces(greyJpeg(), PROFILE, [2, 1])],
    ['with a piece missing', inPieces(greyJpeg(), PROFILE, [1, 3], 3)],
    ['with its first piece missing', inPieces(greyJpeg(), PROFILE, [2, 3], 3)],
    [
      'of pieces that each count differently',
      inPieces(inPieces(greyJpeg(), PROFILE, [1], 2), PROFILE, [2], 3),
    ],
    ['with a piece twice', inPieces(greyJpeg(), PROFILE, [1, 2, 2], 2)],
    ['that is no profile', inPieces(greyJpeg(), Uint8Array.from([1, 2, 3]), [1])],
  ])('a colour profile in the JPEG of a DICOM file, %s: left out, and said', async (_, jpeg) => {
    const options: FilmOptions = { rows: 12, columns: 16, bitsAllocated: 8 };
    const film = await openFilm(filmFile({ ...options, pixelData: inFragments(jpeg) }, SYNTAX.jpegBaseline));
    const plain = await openFilm(
      filmFile({ ...options, pixelData: inFragments(greyJpeg()) }, SYNTAX.jpegBaseline),
    );
    expect(storedValues(film)).toEqual(storedValues(plain));
    expect(film.facts.notes.join(' ')).toMatch(/holds a colour profile \(ICC\), which was not applied/);
    expect(plain.facts.notes.join(' ')).not.toMatch(/profile/);
  });

  itWithDcmtk('a label that names another JPEG process than the stream of dcmtk', async () => {
    expectDcmtk();
    const lossless = throughDcmtk('dcmcjpeg', ['+e1'], filmFile({ rows: 16, columns: 16, bitsStored: 8 }));
    // 1.2.840.10008.1.2.4.70 becomes ...4.50.
    const at = lossless.findIndex((_, i) => ascii('.4.70').every((byte, k) => lossless[i + k] === byte));
    lossless[at + 3] = 0x35;
    const native = await openFilm(filmFile({ rows: 16, columns: 16, bitsStored: 8 }));
    expect(storedValues(await openFilm(lossless))).toEqual(storedValues(native));
  });
});
