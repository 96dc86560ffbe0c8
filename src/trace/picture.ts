import type { Film } from '../film/film.ts';
import { modalityValue } from '../film/grey-scale.ts';
import type { PlaneScale } from '../geometry/spacing.ts';
import type { FilmPoint } from '../geometry/units.ts';

/**
 * A piece of a film on which bone is brighter than what surrounds it. Values are what the film stores after its
 * modality transform, turned over where the film stores bone dark; a detector's values grow about as the
 * logarithm of what was stopped, and nothing here needs more than that bone is bright and edges are steps.
 */
export interface BonePicture {
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top left of the piece; NaN where the film has no picture (padding). */
  readonly values: Float32Array;
  /** Where the piece lies on its film, in whole pixels. */
  readonly firstColumn: number;
  readonly firstRow: number;
  /** Values at or beyond these are the ends of the film's grey scale and may be cut off. */
  readonly least: number;
  readonly greatest: number;
}

/** Surroundings of the taps that the tracer looks at, mm; without a scale, a share of the bone's length. */
const MARGIN_MM = 16;
const MARGIN_SHARE = 0.27;

/**
 * The piece of a film round some points that a trace needs.
 *
 * @param points - Film coordinates.
 * @returns null when no part of it lies on the film.
 */
export function pictureRound(
  film: Film,
  points: readonly FilmPoint[],
  scale: PlaneScale,
): BonePicture | null {
  const level = film.levels[0];
  if (level === undefined || points.length === 0) return null;
  const columns = points.map(({ column }) => column);
  const rows = points.map(({ row }) => row);
  const reach = Math.hypot(
    (Math.max(...columns) - Math.min(...columns)) * scale.perColumn,
    (Math.max(...rows) - Math.min(...rows)) * scale.perRow,
  );
  const margin = scale.unit === 'mm' ? MARGIN_MM : MARGIN_SHARE * reach;
  const left = Math.max(0, Math.floor(Math.min(...columns) - margin / scale.perColumn));
  const right = Math.min(film.columns, Math.ceil(Math.max(...columns) + margin / scale.perColumn));
  const top = Math.max(0, Math.floor(Math.min(...rows) - margin / scale.perRow));
  const bottom = Math.min(film.rows, Math.ceil(Math.max(...rows) + margin / scale.perRow));
  if (!(left < right && top < bottom)) return null;

  const { grey } = film;
  const sense = grey.photometric === 'MONOCHROME1' ? -1 : 1;
  const bright = (stored: number): number => sense * modalityValue(grey.modality, stored);
  const width = right - left;
  const values = new Float32Array(width * (bottom - top));
  const { padding } = grey;
  for (let row = top; row < bottom; row += 1) {
    const source = row * film.columns;
    const target = (row - top) * width;
    for (let column = left; column < right; column += 1) {
      const stored = level.pixels[source + column] as number;
      const outside = padding !== null && stored >= padding.from && stored <= padding.to;
      values[target + column - left] = outside ? Number.NaN : bright(stored);
    }
  }
  const ends = [bright(film.storedMin), bright(film.storedMax)];
  return {
    columns: width,
    rows: bottom - top,
    values,
    firstColumn: left,
    firstRow: top,
    least: Math.min(...ends),
    greatest: Math.max(...ends),
  };
}
