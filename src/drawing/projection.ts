import { type FilmPoint, filmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';

/**
 * The affine map from film coordinates to screen coordinates of one frame:
 *
 *     x = a · column + c · row + e        y = b · column + d · row + f
 *
 * On the plate it is read from cornerstone (`film-surface.ts`), so that the film and what is drawn above it cannot
 * come apart.
 */
export interface Projection {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** A part of a film upright from its top left corner, so many units to a column and to a row. */
export const projectionOfArea = (
  { column, row }: { readonly column: number; readonly row: number },
  perColumn: number,
  perRow: number,
): Projection => ({
  a: perColumn,
  b: 0,
  c: 0,
  d: perRow,
  e: -column * perColumn,
  f: -row * perRow,
});

/** Where a film point is on the screen, in CSS pixels. */
export const toScreen = (projection: Projection, { column, row }: FilmPoint): ScreenPoint =>
  screenPoint(
    projection.a * column + projection.c * row + projection.e,
    projection.b * column + projection.d * row + projection.f,
  );

/** The inverse of `toScreen`; the map of a view is never singular, since its magnification is above zero. */
export function toFilm(projection: Projection, { x, y }: ScreenPoint): FilmPoint {
  const { a, b, c, d, e, f } = projection;
  const determinant = a * d - b * c;
  return filmPoint((d * (x - e) - c * (y - f)) / determinant, (a * (y - f) - b * (x - e)) / determinant);
}

export const sameProjection = (one: Projection | null, other: Projection | null): boolean =>
  one === other ||
  (one !== null &&
    other !== null &&
    one.a === other.a &&
    one.b === other.b &&
    one.c === other.c &&
    one.d === other.d &&
    one.e === other.e &&
    one.f === other.f);

/** Screen pixels per column of the film: also the length on screen of one plane unit per `perColumn`. */
export const pixelsPerColumn = ({ a, b }: Projection): number => Math.hypot(a, b);

/** Screen pixels per row of the film. Differs from `pixelsPerColumn` where the spacings differ. */
export const pixelsPerRow = ({ c, d }: Projection): number => Math.hypot(c, d);

/** The same map magnified by `factor` about the film point `about`, which lands on `at`. */
export function magnifiedAt(
  projection: Projection,
  about: FilmPoint,
  at: ScreenPoint,
  factor: number,
): Projection {
  const { a, b, c, d } = projection;
  const linear = { a: a * factor, b: b * factor, c: c * factor, d: d * factor };
  return {
    ...linear,
    e: at.x - linear.a * about.column - linear.c * about.row,
    f: at.y - linear.b * about.column - linear.d * about.row,
  };
}

/** The same map in units `factor` times finer, for example device pixels instead of CSS pixels. */
export function scaled(projection: Projection, factor: number): Projection {
  const { a, b, c, d, e, f } = projection;
  return { a: a * factor, b: b * factor, c: c * factor, d: d * factor, e: e * factor, f: f * factor };
}
