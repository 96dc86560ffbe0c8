import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pyramid, SMALLEST_LEVEL_SIDE } from '../../src/film/pyramid.ts';

const level = (columns: number, rows: number, pixels: Uint8Array | Uint16Array | Int16Array) => ({
  columns,
  rows,
  pixels,
});

/** A film just large enough to be halved once, with `corner` at its top left and 7 elsewhere. */
function withCorner(corner: readonly (readonly number[])[], kind: 'signed' | 'unsigned' = 'unsigned') {
  const columns = 2 * SMALLEST_LEVEL_SIDE;
  const pixels = kind === 'signed' ? new Int16Array(columns * 4) : new Uint16Array(columns * 4);
  pixels.fill(7);
  corner.forEach((row, y) => {
    row.forEach((value, x) => {
      pixels[y * columns + x] = value;
    });
  });
  return level(columns, 4, pixels);
}

describe('pyramid', () => {
  it('leaves a small film alone', () => {
    expect(pyramid(level(512, 300, new Uint8Array(512 * 300)), null)).toHaveLength(1);
  });

  it.each([
    [513, 100, 2],
    [1024, 1024, 2],
    [1025, 3, 3],
    [3000, 4000, 4],
  ])('halves %i × %i into %i levels', (columns, rows, count) => {
    const levels = pyramid(level(columns, rows, new Uint8Array(columns * rows)), null);
    expect(levels).toHaveLength(count);
    for (const [i, each] of levels.entries()) {
      expect(each.columns).toBe(Math.ceil(columns / 2 ** i));
      expect(each.rows).toBe(Math.ceil(rows / 2 ** i));
      expect(each.pixels.length).toBe(each.columns * each.rows);
    }
  });

  it('takes the rounded mean of 2 × 2', () => {
    // (10 + 20 + 30 + 41) / 4 = 25.25; (1 + 2 + 2 + 1) / 4 = 1.5, rounded up.
    const levels = pyramid(
      withCorner([
        [10, 20, 1, 2],
        [30, 41, 2, 1],
      ]),
      null,
    );
    expect(Array.from(levels[1]!.pixels.subarray(0, 3))).toEqual([25, 2, 7]);
  });

  it('averages an odd last column and row from what is there', () => {
    // 1025 × 3, all 0 but the last column: 10, 20, 31. (10 + 20) / 2 = 15, and 31 alone.
    const columns = 2 * SMALLEST_LEVEL_SIDE + 1;
    const pixels = new Uint16Array(3 * columns);
    [10, 20, 31].forEach((value, y) => {
      pixels[(y + 1) * columns - 1] = value;
    });
    const half = pyramid(level(columns, 3, pixels), null)[1]!;
    expect([half.pixels[half.columns - 1], half.pixels[2 * half.columns - 1]]).toEqual([15, 31]);
  });

  it('keeps signed values signed', () => {
    const levels = pyramid(
      withCorner(
        [
          [-10, -20],
          [-30, -40],
        ],
        'signed',
      ),
      null,
    );
    expect(levels[1]!.pixels).toBeInstanceOf(Int16Array);
    expect(levels[1]!.pixels[0]).toBe(-25);
  });

  it('leaves padding out of the means, and keeps it where there is nothing else', () => {
    // 10 and 30 remain of the first four; the second four are all padding.
    const levels = pyramid(
      withCorner([
        [10, 4000, 4000, 4001],
        [30, 4001, 4002, 4000],
      ]),
      { from: 4000, to: 4002 },
    );
    expect(Array.from(levels[1]!.pixels.subarray(0, 3))).toEqual([20, 4000, 7]);
  });

  it('never leaves the range of the film', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 513, max: 600 }),
        fc.integer({ min: 1, max: 3 }),
        fc.infiniteStream(fc.nat(4095)),
        (columns, rows, values) => {
          const pixels = Uint16Array.from({ length: columns * rows }, () => values.next().value);
          const [least, greatest] = [Math.min(...pixels), Math.max(...pixels)];
          return pyramid(level(columns, rows, pixels), null).every(({ pixels: each }) =>
            each.every((value) => value >= least && value <= greatest),
          );
        },
      ),
      { seed: 20_251_125, numRuns: 20 },
    );
  });
});
