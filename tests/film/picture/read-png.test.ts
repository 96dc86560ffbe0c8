import { describe, expect, it } from 'vitest';
import { openFilm, refusalOf, storedValues } from '../open.ts';
import { greyAt } from './jpegs.ts';
import { interlacedPng, type PngParts, pngFile } from './png-file.ts';

const size = { columns: 3, rows: 2 } as const;

const cases: readonly [name: string, parts: PngParts, expected: number[], wasColour: boolean][] = [
  [
    'grey of 8 bits',
    {
      ...size,
      depth: 8,
      colourType: 0,
      lines: [
        [0, 1, 2],
        [253, 254, 255],
      ],
    },
    [0, 1, 2, 253, 254, 255],
    false,
  ],
  [
    'grey of 16 bits, kept whole',
    {
      ...size,
      depth: 16,
      colourType: 0,
      lines: [
        [0, 0, 0, 1, 1, 0],
        [255, 255, 128, 0, 0, 255],
      ],
    },
    [0, 1, 256, 65_535, 32_768, 255],
    false,
  ],
  // Fewer bits are spread over 8: 1 of 1 → 255; 1 of 3 → 85; 1 of 15 → 17.
  [
    'grey of 1 bit',
    { ...size, depth: 1, colourType: 0, lines: [[0b10100000], [0b01000000]] },
    [255, 0, 255, 0, 255, 0],
    false,
  ],
  [
    'grey of 2 bits',
    { ...size, depth: 2, colourType: 0, lines: [[0b00011000], [0b11000100]] },
    [0, 85, 170, 255, 0, 85],
    false,
  ],
  [
    'grey of 4 bits',
    {
      ...size,
      depth: 4,
      colourType: 0,
      lines: [
        [0x01, 0x20],
        [0xfe, 0xd0],
      ],
    },
    [0, 17, 34, 255, 238, 221],
    false,
  ],
  [
    // 0.299 · 255 = 76.2; 0.587 · 255 = 149.7; 0.114 · 255 = 29.1.
    'colour',
    {
      ...size,
      depth: 8,
      colourType: 2,
      lines: [
        [255, 0, 0, 0, 255, 0, 0, 0, 255],
        [7, 7, 7, 0, 0, 0, 255, 255, 255],
      ],
    },
    [76, 150, 29, 7, 0, 255],
    true,
  ],
  [
    'colour of equal channels, which is no colour',
    {
      ...size,
      depth: 8,
      colourType: 2,
      lines: [
        [1, 1, 1, 2, 2, 2, 3, 3, 3],
        [4, 4, 4, 5, 5, 5, 6, 6, 6],
      ],
    },
    [1, 2, 3, 4, 5, 6],
    false,
  ],
  [
    // 65,535 · 0.299 = 19,594.97.
    'colour of 16 bits',
    {
      columns: 1,
      rows: 2,
      depth: 16,
      colourType: 2,
      lines: [
        [255, 255, 0, 0, 0, 0],
        [1, 0, 1, 0, 1, 0],
      ],
    },
    [19_595, 256],
    true,
  ],
  [
    // Over black: 200 · 128 / 255 = 100.4.
    'grey with alpha, laid over black',
    {
      ...size,
      depth: 8,
      colourType: 4,
      lines: [
        [200, 255, 200, 128, 200, 0],
        [1, 255, 2, 255, 3, 255],
      ],
    },
    [200, 100, 0, 1, 2, 3],
    false,
  ],
  [
    'colour with alpha, laid over black',
    { columns: 2, rows: 1, depth: 8, colourType: 6, lines: [[255, 0, 0, 255, 255, 255, 255, 128]] },
    [76, 128],
    true,
  ],
  [
    'a palette with a transparent entry',
    {
      ...size,
      depth: 8,
      colourType: 3,
      lines: [
        [0, 1, 2],
        [2, 1, 0],
      ],
      extra: [
        ['PLTE', [255, 0, 0, 100, 100, 100, 255, 255, 255]],
        ['tRNS', [255, 255, 0]],
      ],
    },
    [76, 100, 0, 0, 100, 76],
    true,
  ],
  [
    'a palette of 2 bits',
    {
      ...size,
      depth: 2,
      colourType: 3,
      lines: [[0b00011000], [0b10010000]],
      extra: [['PLTE', [10, 10, 10, 20, 20, 20, 30, 30, 30]]],
    },
    [10, 20, 30, 30, 20, 10],
    false,
  ],
  [
    'grey with one transparent value',
    {
      ...size,
      depth: 8,
      colourType: 0,
      lines: [
        [50, 60, 70],
        [70, 60, 50],
      ],
      extra: [['tRNS', [0, 60]]],
    },
    [50, 0, 70, 70, 0, 50],
    false,
  ],
];

describe('PNG pictures', () => {
  it.each(cases)('%s', async (_, parts, expected, wasColour) => {
    const film = await openFilm(pngFile(parts));
    expect([film.columns, film.rows]).toEqual([parts.columns, parts.rows]);
    expect(storedValues(film)).toEqual(expected);
    expect(film.facts).toMatchObject({ format: 'png', wasColour });
    expect(film.grey.bitsStored).toBe(parts.depth === 16 ? 16 : 8);
  });

  it('interlaced', async () => {
    const film = await openFilm(interlacedPng());
    expect(storedValues(film)).toEqual(
      Array.from({ length: 16 * 12 }, (_, i) => greyAt(i % 16, Math.floor(i / 16))),
    );
  });

  it('ignores a printing density, and says so', async () => {
    const density: PngParts['extra'] = [['pHYs', [0, 0, 0x0b, 0x13, 0, 0, 0x0b, 0x13, 1]]];
    const film = await openFilm(
      pngFile({
        ...size,
        depth: 8,
        colourType: 0,
        lines: [
          [1, 2, 3],
          [4, 5, 6],
        ],
        extra: density,
      }),
    );
    expect(film.spacing).toMatchObject({ kind: 'ratio', origin: 'assumed-square' });
    expect(film.facts.notes.join(' ')).toMatch(/density for printing/);
  });

  it('is not stopped by a chunk that has nothing to do with its pixels', async () => {
    // A colour profile whose compressed data is none.
    const profile: PngParts['extra'] = [['iCCP', [0x61, 0, 0, 1, 2, 3, 4]]];
    const lines = [
      [1, 2, 3],
      [4, 5, 6],
    ];
    const film = await openFilm(pngFile({ ...size, depth: 8, colourType: 0, lines, extra: profile }));
    expect(storedValues(film)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('stops data that swells beyond the picture it is for', async () => {
    // 2 MB of zeros in one row of a picture of 3 × 2.
    const lines = [new Array<number>(2_000_000).fill(0)];
    expect(await refusalOf(pngFile({ ...size, depth: 8, colourType: 0, lines }))).toMatchObject({
      kind: 'damaged',
      detail: 'its data holds more than its size',
    });
  });

  const good = pngFile({
    ...size,
    depth: 8,
    colourType: 0,
    lines: [
      [1, 2, 3],
      [4, 5, 6],
    ],
  });
  const changed = (at: number, value: number) => {
    const bytes = good.slice();
    bytes[at] = value;
    return bytes;
  };
  const UNREADABLE = 'its data stops too early or does not fit its checksums';
  it.each([
    ['cut short', good.subarray(0, good.length - 20), { kind: 'damaged', detail: UNREADABLE }],
    ['only its signature', good.subarray(0, 8), { kind: 'damaged', detail: 'its header is not all there' }],
    ['a wrong checksum', changed(good.length - 17, 99), { kind: 'damaged', detail: UNREADABLE }],
    ['a width of 0', changed(19, 0), { kind: 'damaged', detail: 'its size is 0 × 2' }],
    ['a size no data can fill', changed(18, 255), { kind: 'truncated' }],
    ['a size beyond the limit', changed(16, 127), { kind: 'too-large', limitPixels: 100_000_000 }],
  ])('refuses %s', async (_, bytes, error) => {
    expect(await refusalOf(bytes)).toMatchObject(error);
  });
});
