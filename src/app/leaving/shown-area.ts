import { columnsPerRow, type FilmSize, type PlateSize, type PlateView } from '../../canvas/plate-view.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { toRadians } from '../../geometry/units.ts';
import type { FilmArea } from '../../record/snapshot/film-picture.ts';

/**
 * The part of a film that a plate shows: the upright rectangle of whole pixels around what is in sight, which is
 * the same for a mirrored film. Null where that is the whole film.
 */
export function shownArea(film: FilmSize, view: PlateView, { width, height }: PlateSize): FilmArea | null {
  const cos = Math.abs(Math.cos(toRadians(view.turn)));
  const sin = Math.abs(Math.sin(toRadians(view.turn)));
  const perRow = view.magnification * columnsPerRow(planeScale(film.spacing));
  const [left, right] = span(
    view.centre.column,
    (width * cos + height * sin) / view.magnification,
    film.columns,
  );
  const [top, bottom] = span(view.centre.row, (width * sin + height * cos) / perRow, film.rows);
  const isWhole = left === 0 && top === 0 && right === film.columns && bottom === film.rows;
  if (isWhole || right <= left || bottom <= top) return null;
  return { column: left, row: top, columns: right - left, rows: bottom - top };
}

/** Whole pixels around a stretch, as far as the film goes; what rounding adds is no pixel. */
const span = (middle: number, length: number, most: number): readonly [number, number] => [
  Math.max(0, Math.floor(middle - length / 2 + 1e-6)),
  Math.min(most, Math.ceil(middle + length / 2 - 1e-6)),
];
