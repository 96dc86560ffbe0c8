import type { PixelLevel, StoredPixels } from './film.ts';

/** The longer side of the smallest level is at most this. */
export const SMALLEST_LEVEL_SIDE = 512;

interface PaddingRange {
  readonly from: number;
  readonly to: number;
}

const emptyLike = (pixels: StoredPixels, length: number): StoredPixels =>
  pixels instanceof Uint8Array
    ? new Uint8Array(length)
    : pixels instanceof Int16Array
      ? new Int16Array(length)
      : new Uint16Array(length);

/** Rounded mean of the 2 × 2 values from (`left`, `top`) that are not padding; padding where all of them are. */
function meanOutsidePadding(
  level: PixelLevel,
  left: number,
  top: number,
  { from, to }: PaddingRange,
): number {
  let sum = 0;
  let count = 0;
  for (let y = top; y < Math.min(top + 2, level.rows); y++) {
    for (let x = left; x < Math.min(left + 2, level.columns); x++) {
      const value = level.pixels[y * level.columns + x] as number;
      if (value >= from && value <= to) continue;
      sum += value;
      count++;
    }
  }
  return count > 0 ? Math.round(sum / count) : from;
}

/**
 * One level half as wide and high: each pixel is the rounded mean of the 2 × 2 stored values it covers. An
 * odd last column or row is averaged from what is there. Padding takes no part.
 */
function halve(level: PixelLevel, padding: PaddingRange | null): PixelLevel {
  const columns = Math.ceil(level.columns / 2);
  const rows = Math.ceil(level.rows / 2);
  const from = level.pixels;
  const pixels = emptyLike(from, columns * rows);
  for (let row = 0; row < rows; row++) {
    const upper = 2 * row * level.columns;
    const lower = Math.min(2 * row + 1, level.rows - 1) * level.columns;
    for (let column = 0; column < columns; column++) {
      const left = 2 * column;
      if (padding !== null) {
        pixels[row * columns + column] = meanOutsidePadding(level, left, 2 * row, padding);
        continue;
      }
      // At an odd edge a value is counted twice, which leaves the mean of those that are there.
      const right = Math.min(left + 1, level.columns - 1);
      const sum =
        (from[upper + left] as number) +
        (from[upper + right] as number) +
        (from[lower + left] as number) +
        (from[lower + right] as number);
      pixels[row * columns + column] = (sum + 2) >> 2;
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
export function pyramid(full: PixelLevel, padding: PaddingRange | null): readonly PixelLevel[] {
  const levels = [full];
  let last = full;
  while (Math.max(last.columns, last.rows) > SMALLEST_LEVEL_SIDE) {
    last = halve(last, padding);
    levels.push(last);
  }
  return levels;
}
