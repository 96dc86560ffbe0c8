import { type FilmPart, liesOn, partToPicture, type ToPicture } from '../geometry/film-part.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { filmPoint } from '../geometry/units.ts';
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
  const toPicture = partToPicture(part);
  if (!toPicture.ok) return failure(outside);
  const whole = film.levels[0] as PixelLevel;
  const pixels = part.kind === 'rectangle' ? cut(whole, part) : straightened(whole, part, toPicture.value);
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

/** Bilinear between pixel centres; beyond the edge of the picture its outermost pixels go on. */
function straightened(
  whole: PixelLevel,
  { columns, rows }: { readonly columns: number; readonly rows: number },
  toPicture: ToPicture,
): StoredPixels {
  const Stored = whole.pixels.constructor as new (length: number) => StoredPixels;
  const pixels = new Stored(columns * rows);
  const value = (column: number, row: number) => whole.pixels[row * whole.columns + column] as number;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const at = toPicture(filmPoint(column + 0.5, row + 0.5));
      const x = Math.min(Math.max(at.column - 0.5, 0), whole.columns - 1);
      const y = Math.min(Math.max(at.row - 0.5, 0), whole.rows - 1);
      const [left, top] = [Math.floor(x), Math.floor(y)];
      const [right, bottom] = [Math.min(left + 1, whole.columns - 1), Math.min(top + 1, whole.rows - 1)];
      const [across, down] = [x - left, y - top];
      const upper = value(left, top) * (1 - across) + value(right, top) * across;
      const lower = value(left, bottom) * (1 - across) + value(right, bottom) * across;
      pixels[row * columns + column] = Math.round(upper * (1 - down) + lower * down);
    }
  }
  return pixels;
}
