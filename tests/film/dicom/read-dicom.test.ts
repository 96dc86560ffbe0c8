import { describe, expect, it } from 'vitest';
import { expectDcmtk, itWithDcmtk, throughDcmtk } from '../dcmtk.ts';
import { dataSet, dicomFile, type Element, type FilmOptions, filmElements, SYNTAX } from '../dicom-file.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';

const values12 = [0, 1, 2047, 2048, 4094, 4095];

const film = (options: FilmOptions, syntax?: string) => openFilm(dicomFile(filmElements(options), syntax));

describe('native encodings (PS3.5 Annex A)', () => {
  it.each([
    ['implicit little endian', SYNTAX.implicit],
    ['explicit little endian', SYNTAX.explicit],
    ['deflated', SYNTAX.deflated],
    ['explicit big endian', SYNTAX.bigEndian],
  ])('%s keeps the values', async (_, syntax) => {
    const read = await film({ samples: values12 }, syntax);
    expect(storedValues(read)).toEqual(values12);
    expect([read.storedMin, read.storedMax]).toEqual([0, 4095]);
    expect(read.facts.transferSyntaxUid).toBe(syntax);
  });

  it.each([
    ['OB', SYNTAX.bigEndian],
    ['OW', SYNTAX.explicit],
  ])('8-bit pixels in %s under %s keep their order', async (vr, syntax) => {
    const bytes = Uint8Array.of(1, 2, 3, 4, 5, 6);
    const pixelData: Element = { tag: '7fe0,0010', vr, value: bytes };
    const read = await film({ bitsAllocated: 8, bitsStored: 8, pixelData }, syntax);
    expect(storedValues(read)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  itWithDcmtk.each([
    { words: 'one picture of an even number', rows: 2, frames: 1 },
    { words: 'one of an odd number', rows: 1, frames: 1 },
    { words: 'three of an odd number, so that words lie across them', rows: 1, frames: 3 },
  ])('8-bit pixels in big endian words come out as dcmtk wrote them: $words', async ({ rows, frames }) => {
    expectDcmtk();
    const all = Array.from({ length: 3 * rows * frames }, (_, i) => i + 1);
    const value = Uint8Array.from([...all, ...(all.length % 2 === 1 ? [0] : [])]);
    const little = dicomFile(
      filmElements({
        rows,
        columns: 3,
        bitsAllocated: 8,
        bitsStored: 8,
        pixelData: { tag: '7fe0,0010', vr: 'OW', value },
        extra: [{ tag: '0028,0008', vr: 'IS', value: String(frames) }],
      }),
      SYNTAX.implicit,
    );
    const big = throughDcmtk('dcmconv', ['+tb'], little);
    for (let frame = 0; frame < frames; frame += 1) {
      const stored = storedValues(await openFilm(big, frame));
      expect(stored).toEqual(all.slice(3 * rows * frame, 3 * rows * (frame + 1)));
    }
  });

  it.each([
    ['implicit', dataSet(filmElements({ samples: values12 }), false, false)],
    ['explicit', dataSet(filmElements({ samples: values12 }), false, true)],
    ['explicit big endian', dataSet(filmElements({ samples: values12 }), true, true)],
    ['with a meta header', dicomFile(filmElements({ samples: values12 }), SYNTAX.implicit).subarray(132)],
  ])('reads a file without preamble, %s, and says so', async (_, bytes) => {
    const read = await openFilm(bytes);
    expect(storedValues(read)).toEqual(values12);
    expect(read.facts.notes).toContain('The file has no DICOM preamble; it was read from its first element.');
  });

  it('is not misled by implicit pixel data that begins like the item of a sequence', async () => {
    // FE FF 00 E0 is the item tag (FFFE,E000) in little endian.
    const samples = [0xfffe, 0xe000, 4, 0, 1, 2];
    const read = await film({ samples, bitsStored: 16 }, SYNTAX.implicit);
    expect(storedValues(read)).toEqual(samples);
  });
});

describe('bits stored, high bit and sign (PS3.5 8.1.1)', () => {
  it.each([8, 9, 10, 11, 12, 13, 14, 15, 16])('keeps the whole range of %i bits', async (bitsStored) => {
    const greatest = 2 ** bitsStored - 1;
    const read = await film({ bitsStored, samples: [0, 1, greatest - 1, greatest, 2, 3] });
    expect(storedValues(read)).toEqual([0, 1, greatest - 1, greatest, 2, 3]);
  });

  it('masks overlay bits above the bits stored, and never shows them', async () => {
    // 12 bits stored; bits 12 and 15 hold an overlay. 0x9005 & 0x0FFF = 5.
    const read = await film({ samples: [0x9005, 0x1000, 0x8fff, 7, 8, 9] });
    expect(storedValues(read)).toEqual([5, 0, 0xfff, 7, 8, 9]);
  });

  it('cuts 12 bits below high bit 15', async () => {
    // 0xABC7 >> 4 = 0xABC.
    const read = await film({ highBit: 15, samples: [0xabc7, 0x0010, 0xffff, 0, 0x1230, 0x000f] });
    expect(storedValues(read)).toEqual([0xabc, 1, 0xfff, 0, 0x123, 0]);
  });

  it('extends the sign from the highest bit stored, whatever lies above it', async () => {
    // 12 bits, two's complement: 0x800 = −2048, 0xFFF = −1; 0x1801 has an overlay bit above 0x801 = −2047.
    const read = await film({ signed: true, samples: [0x800, 0xfff, 0, 0x7ff, 0x1801, 0xf001] });
    expect(storedValues(read)).toEqual([-2048, -1, 0, 2047, -2047, 1]);
    expect(read.levels[0]!.pixels).toBeInstanceOf(Int16Array);
  });

  it('reads signed 8-bit values', async () => {
    const read = await film({ bitsAllocated: 8, signed: true, samples: [128, 255, 0, 127, 1, 254] });
    expect(storedValues(read)).toEqual([-128, -1, 0, 127, 1, -2]);
  });

  it('keeps none of the file’s bytes beside the pixels', async () => {
    const read = await film({ bitsAllocated: 8, samples: [1, 2, 3, 4, 5, 6] });
    expect(read.levels[0]!.pixels.buffer.byteLength).toBe(6);
  });
});

describe('what is refused, with its numbers', () => {
  it('pixel data shorter than rows and columns need', async () => {
    expect(await refusalOf(dicomFile(filmElements({ samples: [1, 2, 3] })))).toEqual({
      kind: 'truncated',
      expectedBytes: 12,
      foundBytes: 6,
    });
  });

  it('notes pixel data that is longer', async () => {
    const read = await film({ samples: [1, 2, 3, 4, 5, 6, 7, 8] });
    expect(storedValues(read)).toEqual([1, 2, 3, 4, 5, 6]);
    expect(read.facts.notes.join(' ')).toMatch(/4 bytes longer than its rows and columns need/);
  });

  it.each(['0028,0010', '0028,0011', '0028,0100', '0028,0101', '0028,0103', '0028,0004'])(
    'a film without %s, naming it',
    async (tag) => {
      expect(await refusalOf(dicomFile(filmElements({ without: [tag] })))).toMatchObject({
        kind: 'missing-attribute',
        tag: `(${tag})`,
      });
    },
  );

  itWithDcmtk('a picture compressed by dcmtk of another size than the header says', async () => {
    expectDcmtk();
    const coded = throughDcmtk('dcmcjpeg', ['+e1'], dicomFile(filmElements({ rows: 16, columns: 16 })));
    // (0028,0010) Rows US 2 bytes: 16 becomes 17.
    const at = coded.findIndex((_, i) =>
      [0x28, 0, 0x10, 0, 0x55, 0x53, 2, 0, 16].every((byte, k) => coded[i + k] === byte),
    );
    coded[at + 8] = 17;
    expect(await refusalOf(coded)).toMatchObject({
      kind: 'damaged',
      detail: expect.stringContaining('16 × 16'),
    });
  });

  it('a compression that is not read, by name', async () => {
    const pixelData: Element = {
      tag: '7fe0,0010',
      vr: 'OB',
      value: { fragments: [Uint8Array.of(0, 0, 1, 0xb3)] },
    };
    expect(await refusalOf(dicomFile(filmElements({ pixelData }), '1.2.840.10008.1.2.4.102'))).toMatchObject({
      kind: 'unsupported-transfer-syntax',
      name: 'MPEG-4 AVC/H.264 High Profile',
    });
  });

  it('a CT slice, as not a radiograph', async () => {
    const sopClass = '1.2.840.10008.5.1.4.1.1.2';
    expect(await refusalOf(dicomFile(filmElements({ sopClass })))).toEqual({
      kind: 'not-a-film',
      looksLike: 'a DICOM CT slice',
    });
  });

  it('a structured report, which has no pixels', async () => {
    const sopClass = '1.2.840.10008.5.1.4.1.1.88.33';
    expect(await refusalOf(dicomFile(filmElements({ sopClass, pixelData: null })))).toEqual({
      kind: 'no-pixel-data',
      sopClassName: 'structured report',
    });
  });
});
