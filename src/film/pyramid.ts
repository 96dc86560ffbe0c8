import type { PixelLevel, StoredPixels } from './film.ts';

/** The longer side of the smallest level is at most this. */
export const SMALLEST_LEVEL_SIDE = 512;

type Padding = { readonly from: number; readonly to: number } | null;

const emptyLike = (pixels: StoredPixels, length: number): StoredPixels =>
  pixels instanceof Uint8Array
    ? new Uint8Array(length)
    : pixels instanceof Int16Array
      ? new Int16Array(length)
      : new Uint16Array(length);

/**
 * One level half as wide and high: each pixel is the rounded mean of the 2 × 2 stored values it covers. An
 * odd last column or row is averaged from what is there. Padding takes no part, and where a pixel covers
 * nothing else it stays padding.
 */
function halve(level: PixelLevel, padding: Padding): PixelLevel {
  const columns = Math.ceil(level.columns / 2);
  const rows = Math.ceil(level.rows / 2);
  const from = level.pixels;
  const pixels = emptyLike(from, columns * rows);
  const low = padding?.from ?? Number.POSITIVE_INFINITY;
  const high = padding?.to ?? Number.NEGATIVE_INFINITY;
  for (let row = 0; row < rows; row++) {
    const lastRow = Math.min(2 * row + 1, level.rows - 1);
    for (let column = 0; column < columns; column++) {
      const lastColumn = Math.min(2 * column + 1, level.columns - 1);
      let sum = 0;
      let count = 0;
      for (let y = 2 * row; y <= lastRow; y++) {
        for (let x = 2 * column; x <= lastColumn; x++) {
          const value = from[y * level.columns + x] as number;
          if (value >= low && value <= high) continue;
          sum += value;
          count++;
        }
      }
      pixels[row * columns + column] = count > 0 ? Math.round(sum / count) : low;
    }
  }
  return { columns, rows, pixels };
}

/**
 * The film at full size and at halves of it, until the longer side is at most `SMALLEST_LEVEL_SIDE`, so that
 * a plate of any size is drawn from few pixels.
 *
 * @param full - Level 0: the film as stored.
 * @param padding - Stored values that are no part of the picture, inclusive, or null.
 * @returns Level 0 first. Means lie within the range of the values averaged.
 */
export function pyramid(full: PixelLevel, padding: Padding): readonly PixelLevel[] {
  const levels = [full];
  let last = full;
  while (Math.max(last.columns, last.rows) > SMALLEST_LEVEL_SIDE) {
    last = halve(last, padding);
    levels.push(last);
  }
  return levels;
}
