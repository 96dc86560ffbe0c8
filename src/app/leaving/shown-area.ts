import { columnsPerRow, type FilmSize, type PlateSize, type PlateView } from '../../canvas/plate-view.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { toRadians } from '../../geometry/units.ts';
import type { FilmArea } from '../../record/snapshot/film-picture.ts';

/**
 * The part of a film that a plate shows: the upright rectangle of whole pixels around what is in sight. Null where
 * that is the whole film.
 */
export function shownArea(film: FilmSize, view: PlateView, { width, height }: PlateSize): FilmArea | null {
  const cos = Math.cos(toRadians(view.turn));
  const sin = Math.sin(toRadians(view.turn));
  const stretch = columnsPerRow(planeScale(film.spacing));
  const corners = [-1, 1].flatMap((x) =>
    [-1, 1].map((y) => {
      const [right, down] = [(x * width) / 2 / view.magnification, (y * height) / 2 / view.magnification];
      // Turned back, then mirrored back: the other order than on the way to the screen.
      const across = (right * cos + down * sin) * (view.mirrored ? -1 : 1);
      return {
        column: view.centre.column + across,
        row: view.centre.row + (down * cos - right * sin) / stretch,
      };
    }),
  );
  const span = (values: readonly number[], most: number): readonly [number, number] => [
    Math.max(0, Math.floor(Math.min(...values) + 1e-6)),
    Math.min(most, Math.ceil(Math.max(...values) - 1e-6)),
  ];
  const [left, right] = span(
    corners.map(({ column }) => column),
    film.columns,
  );
  const [top, bottom] = span(
    corners.map(({ row }) => row),
    film.rows,
  );
  const isWhole = left === 0 && top === 0 && right === film.columns && bottom === film.rows;
  if (isWhole || right <= left || bottom <= top) return null;
  return { column: left, row: top, columns: right - left, rows: bottom - top };
}
