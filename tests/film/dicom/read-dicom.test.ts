import { deflateRawSync } from 'node:zlib';
import dicomParser from 'dicom-parser';
import { describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../../src/cli/node-film-tools.ts';
import { readFilm } from '../../../src/film/read-film.ts';
import { decodedSamples, expectDcmtk, itWithDcmtk, throughDcmtk } from '../dcmtk.ts';
import { dataSet, dicomFile, type Element, type FilmOptions, filmElements, SYNTAX } from '../dicom-file.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';
import { colourJpeg } from '../picture/jpegs.ts';

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

describe('colour becomes luminance', () => {
  // 0.299 R + 0.587 G + 0.114 B by hand: red 76.245, green 149.685, blue 29.07, and grey 100 stays 100.
  const colours = [255, 0, 0, 0, 255, 0, 0, 0, 255, 100, 100, 100, 0, 0, 0, 255, 255, 255];
  const greys = [76, 150, 29, 100, 0, 255];
  const planes = [0, 1, 2].flatMap((plane) => colours.filter((_, i) => i % 3 === plane));
  const rgb = { bitsAllocated: 8, photometric: 'RGB', samplesPerPixel: 3 } as const;
  const planar = (value: number): Element => ({ tag: '0028,0006', vr: 'US', value: [value] });

  it('from RGB by pixel and by plane', async () => {
    const byPixel = await film({ ...rgb, samples: colours, extra: [planar(0)] });
    const byPlane = await film({ ...rgb, samples: planes, extra: [planar(1)] });
    expect(storedValues(byPixel)).toEqual(greys);
    expect(storedValues(byPlane)).toEqual(greys);
    expect(byPixel.facts.wasColour).toBe(true);
  });

  it('from RGB of 16 bits', async () => {
    // 65,535 × 0.299 = 19,594.97.
    const samples = [65535, 0, 0, ...new Array(15).fill(0)];
    const read = await film({ ...rgb, bitsAllocated: 16, bitsStored: 16, samples, extra: [planar(0)] });
    expect(storedValues(read)[0]).toBe(19595);
  });

  it('from YBR_FULL, which keeps it first, and from YBR_FULL_422, two pixels to a pair', async () => {
    const full = await film({
      ...rgb,
      photometric: 'YBR_FULL',
      samples: [10, 1, 2, 20, 3, 4, 30, 5, 6, 40, 7, 8, 50, 9, 10, 60, 11, 12],
    });
    expect(storedValues(full)).toEqual([10, 20, 30, 40, 50, 60]);
    const half = await film({
      ...rgb,
      rows: 1,
      columns: 4,
      photometric: 'YBR_FULL_422',
      samples: [10, 20, 128, 128, 30, 40, 128, 128],
    });
    expect(storedValues(half)).toEqual([10, 20, 30, 40]);
  });

  it('from YBR_FULL_422 in deflated frames, whose pixels are native ones (PS3.5 8.2.16)', async () => {
    const fragments = [deflateRawSync(Uint8Array.of(10, 20, 128, 128, 30, 40, 128, 128))];
    const half = await film(
      {
        ...rgb,
        rows: 1,
        columns: 4,
        photometric: 'YBR_FULL_422',
        pixelData: { tag: '7fe0,0010', vr: 'OB', value: { fragments } },
      },
      '1.2.840.10008.1.2.8.1',
    );
    expect(storedValues(half)).toEqual([10, 20, 30, 40]);
  });

  it('from YBR_PARTIAL_422, whose black is 16 and white 235 (PS3.3 C.7.6.3.1.2)', async () => {
    const read = await film({
      ...rgb,
      rows: 1,
      columns: 4,
      photometric: 'YBR_PARTIAL_422',
      samples: [16, 235, 128, 128, 0, 255, 128, 128],
    });
    expect(storedValues(read)).toEqual([0, 255, 0, 255]);
  });

  it('from a palette, with its first index and entries beyond its ends', async () => {
    const table = (tag: Element['tag'], entries: number[]): Element => ({ tag, vr: 'OW', value: entries });
    const descriptor = (tag: Element['tag']): Element => ({ tag, vr: 'US', value: [3, 10, 16] });
    const read = await film({
      bitsAllocated: 8,
      photometric: 'PALETTE COLOR',
      samples: [9, 10, 11, 12, 13, 10],
      extra: [
        descriptor('0028,1101'),
        descriptor('0028,1102'),
        descriptor('0028,1103'),
        table('0028,1201', [65535, 1000, 0]),
        table('0028,1202', [0, 1000, 65535]),
        table('0028,1203', [0, 1000, 0]),
      ],
    });
    // 65,535 × 0.299 = 19,594.97; × 0.587 = 38,469.05.
    expect(storedValues(read)).toEqual([19595, 19595, 1000, 38469, 38469, 19595]);
    expect(read.grey.bitsStored).toBe(16);
  });
});

describe('a palette in implicit VR', () => {
  it('begins at an index above 32,767, which is not negative', async () => {
    const colours = (['1', '2', '3'] as const).flatMap((end): Element[] => [
      { tag: `0028,110${end}`, vr: 'US', value: [2, 40_000, 16] },
      { tag: `0028,120${end}`, vr: 'OW', value: [11, 22] },
    ]);
    const options = { photometric: 'PALETTE COLOR', bitsStored: 16, extra: colours };
    const samples = [40_000, 40_001, 39_999, 65_535, 0, 40_001];
    expect(storedValues(await film({ ...options, samples }, SYNTAX.implicit))).toEqual([
      11, 22, 11, 22, 11, 22,
    ]);
  });
});

describe('several frames', () => {
  const frames = (count: string): Element => ({ tag: '0028,0008', vr: 'IS', value: count });
  const samples = [1, 2, 3, 4, 5, 6, 11, 12, 13, 14, 15, 16];

  it('gives the frame asked for, and says how many there are', async () => {
    const file = dicomFile(filmElements({ samples, extra: [frames('2')] }));
    expect(storedValues(await openFilm(file, 0))).toEqual([1, 2, 3, 4, 5, 6]);
    const second = await openFilm(file, 1);
    expect(storedValues(second)).toEqual([11, 12, 13, 14, 15, 16]);
    expect(second.frame).toEqual({ index: 1, count: 2 });
    await expect(openFilm(file, 2)).rejects.toThrow(RangeError);
  });

  it('says nothing of frames where there is one', async () => {
    expect((await film({})).frame).toBeUndefined();
  });

  const rows = 64;
  const columns = 64;
  const noise = Array.from({ length: 2 * rows * columns }, (_, i) => (i * 37) % 4096);
  const halves = [noise.slice(0, rows * columns), noise.slice(rows * columns)];

  // +fs 1: fragments of at most 1 kB, of which a frame of this noise needs several.
  itWithDcmtk.each([
    ['with an offset table', ['+e1', '+fs', '1', '+ot']],
    ['without one, by the end of each stream', ['+e1', '+fs', '1', '-ot']],
  ])('finds frames that dcmtk put in pieces, %s', async (_, options) => {
    expectDcmtk();
    const native = dicomFile(filmElements({ rows, columns, samples: noise, extra: [frames('2')] }));
    const coded = throughDcmtk('dcmcjpeg', options, native);
    expect(storedValues(await openFilm(coded, 0))).toEqual(halves[0]);
    expect(storedValues(await openFilm(coded, 1))).toEqual(halves[1]);
  });

  it('reads deflated frames (PS3.5 8.2.16), in pieces, by the offset table', async () => {
    const streams = halves.map((half) => deflateRawSync(Uint16Array.from(half)));
    const [first, second] = streams as [Buffer, Buffer];
    const cut = 2 * Math.floor(first.length / 4);
    const fragments = [first.subarray(0, cut), first.subarray(cut), second];
    // PS3.5 A.4: offsets count from the first fragment's item tag; an item is its 8-byte head and even bytes.
    const even = (length: number) => length + (length % 2);
    const offsets = [0, 16 + cut + even(first.length - cut)];
    const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments, offsets } };
    const file = dicomFile(
      filmElements({ rows, columns, pixelData, extra: [frames('2')] }),
      '1.2.840.10008.1.2.8.1',
    );
    expect(storedValues(await openFilm(file, 0))).toEqual(halves[0]);
    expect(storedValues(await openFilm(file, 1))).toEqual(halves[1]);
  });

  // PS3.5 A.4: one offset for each frame, that of the item its first fragment lies in.
  it.each([
    ['names a place where none begins', [0, 11]],
    ['names fewer places than pictures', [0]],
  ])('refuses pieces whose table %s', async (_, offsets) => {
    const fragments = [1, 2, 3].map((byte) => Uint8Array.of(byte, byte));
    const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments, offsets } };
    const file = dicomFile(filmElements({ pixelData, extra: [frames('2')] }), SYNTAX.rle);
    const refused = { kind: 'damaged', detail: expect.stringMatching(/table of its pictures does not fit/) };
    for (const frame of [0, 1]) {
      expect(await readFilm(file, nodeFilmTools, frame)).toMatchObject({ ok: false, error: refused });
    }
  });

  it('refuses pieces that nothing tells apart', async () => {
    const fragments = [1, 2, 3].map((byte) => Uint8Array.of(byte, byte));
    const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments } };
    const file = dicomFile(filmElements({ pixelData, extra: [frames('2')] }), SYNTAX.rle);
    expect(await refusalOf(file)).toMatchObject({
      kind: 'damaged',
      detail: expect.stringMatching(/no table says where each begins/),
    });
  });
});

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
      const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments: [half] } };
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
      const pixelData: Element = { tag: '7fe0,0010', vr: 'OB', value: { fragments: [stream] } };
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
