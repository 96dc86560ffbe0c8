import dicomParser from 'dicom-parser';
import { describe, expect } from 'vitest';
import { decodedSamples, expectDcmtk, itWithDcmtk, throughDcmtk } from '../dcmtk.ts';
import { dicomFile, type Element, filmElements, inFragments, SYNTAX } from '../dicom-file.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';
import { colourJpeg } from '../picture/jpegs.ts';

describe('compressed by dcmtk, read back here', () => {
  const rows = 24;
  const columns = 33;
  // A ramp with a ripple: neighbours are alike, as in a film, and every bit plane is used.
  const samples = Array.from(
    { length: rows * columns },
    (_, i) => (Math.round(2000 + 1500 * Math.sin(i / 40)) + (i % 7)) & 0xfff,
  );

  itWithDcmtk.each([
    ['dcmcrle', []],
    ['dcmcjpeg', ['+e1']],
    ['dcmcjpeg', ['+el', '+sv', '4']],
    ['dcmcjpls', ['+el']],
  ] as const)('%s %j, 12 bits: exact', async (tool, options) => {
    expectDcmtk();
    const coded = throughDcmtk(tool, options, dicomFile(filmElements({ rows, columns, samples })));
    expect(storedValues(await openFilm(coded))).toEqual(samples);
  });

  itWithDcmtk.each([1, 2, 3, 4, 5, 6, 7])('JPEG Lossless with predictor %i: exact', async (predictor) => {
    expectDcmtk();
    const coded = throughDcmtk(
      'dcmcjpeg',
      ['+el', '+sv', String(predictor)],
      dicomFile(filmElements({ rows, columns, samples })),
    );
    expect(storedValues(await openFilm(coded))).toEqual(samples);
  });

  itWithDcmtk('JPEG Extended of 12 bits: within 2 of dcmdjpeg', async () => {
    expectDcmtk();
    const coded = throughDcmtk(
      'dcmcjpeg',
      ['+ee', '+bt'],
      dicomFile(filmElements({ rows, columns, samples })),
    );
    const read = await openFilm(coded);
    expect(read.facts.transferSyntaxUid).toBe('1.2.840.10008.1.2.4.51');
    expect(read.facts.lossy).toBe(true);
    const reference = decodedSamples(throughDcmtk('dcmdjpeg', [], coded), 2);
    storedValues(read).forEach((value, i) => {
      expect(Math.abs(value - reference[i]!)).toBeLessThanOrEqual(2);
    });
  });

  itWithDcmtk(
    'JPEG Lossless of dcmtk that stops half way, though it ends as it should: refused',
    async () => {
      expectDcmtk();
      const coded = throughDcmtk('dcmcjpeg', ['+e1'], dicomFile(filmElements({ rows, columns, samples })));
      const parsed = dicomParser.parseDicom(coded);
      const stream = dicomParser.readEncapsulatedPixelDataFromFragments(
        parsed,
        parsed.elements.x7fe00010!,
        0,
      );
      const half = Uint8Array.from([...stream.subarray(0, stream.length / 2), 0xff, 0xd9]);
      const pixelData = inFragments(half);
      expect(
        await refusalOf(dicomFile(filmElements({ rows, columns, pixelData }), SYNTAX.jpegLossless)),
      ).toEqual({
        kind: 'damaged',
        format: 'dicom',
        detail: 'its JPEG stream is broken: a marker stands in the middle of it',
      });
    },
  );

  itWithDcmtk(
    'JPEG Baseline whose header says RGB and whose stream does not: as dcmtk reads it',
    async () => {
      expectDcmtk();
      // The stream without its JFIF marker, 18 bytes after the start of image.
      const stream = Uint8Array.from([0xff, 0xd8, ...colourJpeg().subarray(20)]);
      const pixelData = inFragments(stream);
      const colour = { rows: 12, columns: 16, bitsAllocated: 8, samplesPerPixel: 3, pixelData };
      const planar: Element = { tag: '0028,0006', vr: 'US', value: [0] };
      const file = dicomFile(
        filmElements({ ...colour, photometric: 'RGB', extra: [planar] }),
        SYNTAX.jpegBaseline,
      );
      const reference = decodedSamples(throughDcmtk('dcmdjpeg', [], file), 1);
      storedValues(await openFilm(file)).forEach((grey, i) => {
        const [red, green, blue] = reference.slice(3 * i, 3 * i + 3) as [number, number, number];
        expect(Math.abs(grey - (0.299 * red + 0.587 * green + 0.114 * blue))).toBeLessThanOrEqual(1);
      });
    },
  );

  itWithDcmtk.each([
    ['dcmcrle', []],
    ['dcmcjpls', ['+el', '+il']],
    ['dcmcjpls', ['+el', '+is']],
    ['dcmcjpls', ['+el', '+in']],
  ] as const)('%s %j of colour: the same greys as uncompressed', async (tool, options) => {
    expectDcmtk();
    const colour = {
      rows,
      columns,
      bitsAllocated: 8,
      photometric: 'RGB',
      samplesPerPixel: 3,
      samples: Array.from({ length: 3 * rows * columns }, (_, i) => (i * 7) & 255),
      extra: [{ tag: '0028,0006', vr: 'US', value: [0] } as Element],
    };
    const file = dicomFile(filmElements(colour));
    expect(storedValues(await openFilm(throughDcmtk(tool, options, file)))).toEqual(
      storedValues(await openFilm(file)),
    );
  });
});
