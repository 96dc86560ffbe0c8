import { describe, expect, it } from 'vitest';
import { upright } from '../../../src/film/picture/upright.ts';
import { openFilm, refusalOf, storedValues } from '../open.ts';
import {
  COLUMNS,
  cmykJpeg,
  colourJpeg,
  greyAt,
  greyJpeg,
  progressiveJpeg,
  ROWS,
  withOrientation,
} from './jpegs.ts';

const grid = (of: (column: number, row: number) => number, columns = COLUMNS, rows = ROWS) =>
  Array.from({ length: columns * rows }, (_, i) => of(i % columns, Math.floor(i / columns)));

describe('JPEG pictures', () => {
  it.each([
    ['baseline', greyJpeg],
    ['progressive', progressiveJpeg],
  ])('%s: the greys that were written', async (_, jpeg) => {
    const film = await openFilm(jpeg());
    expect([film.columns, film.rows]).toEqual([COLUMNS, ROWS]);
    expect(storedValues(film)).toEqual(grid(greyAt));
    expect(film.facts).toMatchObject({ format: 'jpeg', lossy: true, wasColour: false, notes: [] });
  });

  it('colour: its luminance, within the loss of the format', async () => {
    const film = await openFilm(colourJpeg());
    const expected = grid((x, y) => 0.299 * greyAt(x, y) + 0.587 * (255 - greyAt(x, y)) + 0.114 * 60);
    // Pillow's own decoding of this file is up to 2 off in a channel.
    storedValues(film).forEach((grey, i) => {
      expect(Math.abs(grey - expected[i]!)).toBeLessThanOrEqual(2);
    });
    expect(film.facts.wasColour).toBe(true);
  });

  it('has no scale, whatever density it states', async () => {
    expect((await openFilm(greyJpeg())).spacing.kind).toBe('ratio');
  });

  // Pillow's ImageOps.exif_transpose on [[0, 1, 2], [3, 4, 5]].
  it('keeps its stored values when its colour profile is none', async () => {
    // An ICC profile in APP2 (ICC.1:2022, B.4): the name, piece 1 of 1, and 128 bytes that would be its header.
    const profile = [...new TextEncoder().encode('ICC_PROFILE\0'), 1, 1, ...new Array<number>(128).fill(7)];
    const length = profile.length + 2;
    const plain = greyJpeg();
    const segment = [0xff, 0xe2, length >> 8, length & 255, ...profile];
    const tagged = Uint8Array.from([...plain.subarray(0, 2), ...segment, ...plain.subarray(2)]);
    expect(storedValues(await openFilm(tagged))).toEqual(storedValues(await openFilm(plain)));
  });

  it.each([
    [
      1,
      [
        [0, 1, 2],
        [3, 4, 5],
      ],
    ],
    [
      2,
      [
        [2, 1, 0],
        [5, 4, 3],
      ],
    ],
    [
      3,
      [
        [5, 4, 3],
        [2, 1, 0],
      ],
    ],
    [
      4,
      [
        [3, 4, 5],
        [0, 1, 2],
      ],
    ],
    [
      5,
      [
        [0, 3],
        [1, 4],
        [2, 5],
      ],
    ],
    [
      6,
      [
        [3, 0],
        [4, 1],
        [5, 2],
      ],
    ],
    [
      7,
      [
        [5, 2],
        [4, 1],
        [3, 0],
      ],
    ],
    [
      8,
      [
        [2, 5],
        [1, 4],
        [0, 3],
      ],
    ],
  ] as const)('is turned upright for EXIF orientation %i', (orientation, expected) => {
    const turned = upright(
      { columns: 3, rows: 2, components: 1, samples: Uint8Array.of(0, 1, 2, 3, 4, 5) },
      orientation,
    );
    expect([turned.columns, turned.rows]).toEqual([expected[0].length, expected.length]);
    expect(Array.from(turned.samples)).toEqual(expected.flat());
  });

  it('says that it was turned', async () => {
    const film = await openFilm(withOrientation(6));
    expect([film.columns, film.rows]).toEqual([ROWS, COLUMNS]);
    // Orientation 6: the first row shows the first column as stored, from its foot.
    expect(storedValues(film)[0]).toBe(greyAt(0, ROWS - 1));
    expect(film.facts.notes).toEqual(['The picture was turned upright as its camera data (EXIF) asks.']);
  });

  it.each([
    ['four colour components', cmykJpeg(), { kind: 'unsupported-picture' }],
    ['a stream that stops', greyJpeg().subarray(0, 350), { kind: 'damaged', format: 'jpeg' }],
    ['a stream that stops in its tables', greyJpeg().subarray(0, 100), { kind: 'damaged', format: 'jpeg' }],
  ])('refuses %s', async (_, bytes, error) => {
    expect(await refusalOf(bytes)).toMatchObject(error);
  });
});
