import { cornersToPicture, type FilmPart, liesOn } from '../geometry/film-part.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { assembleFilm, LIMIT_PIXELS } from './assemble.ts';
import type { Film, FilmError, PixelLevel, StoredPixels } from './film.ts';
import { SQUARE_PIXELS } from './spacing.ts';

/**
 * A part of a film as a film of its own, with stored values, grey scale and facts of the whole.
 *
 * A rectangle keeps every value and the spacing. A straightened sheet is sampled anew, each pixel from the four
 * around its place in the picture; its pixels are square and have no millimetres, since what the file says of
 * spacing does not hold on a sheet seen at a slant.
 *
 * Fails with `part-not-in-picture` where the part does not lie on this picture, which happens when a case names
 * another picture than the one it was made with, and with `too-large`.
 */
export function takePart(film: Film, part: FilmPart): Result<Film, FilmError> {
  const { columns, rows } = part;
  const outside = { kind: 'part-not-in-picture', columns: film.columns, rows: film.rows } as const;
  if (!liesOn(part, film)) return failure(outside);
  if (columns * rows > LIMIT_PIXELS)
    return failure({ kind: 'too-large', columns, rows, limitPixels: LIMIT_PIXELS });
  const whole = film.levels[0] as PixelLevel;
  const pixels = part.kind === 'rectangle' ? cut(whole, part) : straightened(whole, part);
  if (pixels === null) return failure(outside);
  const spacing = part.kind === 'rectangle' ? film.spacing : SQUARE_PIXELS;
  return success(assembleFilm({ columns, rows, pixels }, film.grey, spacing, film.facts, film.frame));
}

function cut(whole: PixelLevel, part: Extract<FilmPart, { kind: 'rectangle' }>): StoredPixels {
  const pixels = whole.pixels.slice(0, part.columns * part.rows);
  for (let row = 0; row < part.rows; row++) {
    const start = (part.row + row) * whole.columns + part.column;
    pixels.set(whole.pixels.subarray(start, start + part.columns), row * part.columns);
  }
  return pixels;
}

/**
 * Bilinear between pixel centres; beyond the edge of the picture its outermost pixels go on. Null where the corners
 * make no sheet. The map is written out: a call for each of 12 million pixels takes more than twice as long.
 */
function straightened(whole: PixelLevel, part: Extract<FilmPart, { kind: 'corners' }>): StoredPixels | null {
  const map = cornersToPicture(part);
  if (!map.ok) return null;
  const [[a = 0, b = 0, c = 0] = [], [d = 0, e = 0, f = 0] = [], [g = 0, h = 0, i = 1] = []] = map.value;
  const { columns, rows } = part;
  const Stored = whole.pixels.constructor as new (length: number) => StoredPixels;
  const pixels = new Stored(columns * rows);
  const from = whole.pixels;
  const [lastColumn, lastRow] = [whole.columns - 1, whole.rows - 1];
  for (let row = 0; row < rows; row++) {
    const y = row + 0.5;
    for (let column = 0; column < columns; column++) {
      const x = column + 0.5;
      const w = g * x + h * y + i;
      const atColumn = Math.min(Math.max((a * x + b * y + c) / w - 0.5, 0), lastColumn);
      const atRow = Math.min(Math.max((d * x + e * y + f) / w - 0.5, 0), lastRow);
      const left = Math.floor(atColumn);
      const top = Math.floor(atRow);
      const right = Math.min(left + 1, lastColumn);
      const upper = top * whole.columns;
      const lower = Math.min(top + 1, lastRow) * whole.columns;
      const across = atColumn - left;
      const down = atRow - top;
      const above = (from[upper + left] as number) * (1 - across) + (from[upper + right] as number) * across;
      const below = (from[lower + left] as number) * (1 - across) + (from[lower + right] as number) * across;
      pixels[row * columns + column] = Math.round(above * (1 - down) + below * down);
    }
  }
  return pixels;
}
