import type { FilmPart } from '../../geometry/film-part.ts';
import type { Corners } from '../../geometry/homography.ts';
import { type FilmPoint, filmPoint } from '../../geometry/units.ts';

export type Rectangle = Omit<Extract<FilmPart, { kind: 'rectangle' }>, 'kind'>;

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** A narrower part is a slip of the hand. In pixels of the picture. */
const NARROWEST = 16;

const within = (value: number, least: number, most: number): number => Math.min(Math.max(value, least), most);

/** The nearest point on the picture. */
export const onPicture = ({ column, row }: FilmPoint, picture: Size): FilmPoint =>
  filmPoint(within(column, 0, picture.columns), within(row, 0, picture.rows));

/** The rectangle of whole pixels between two opposite corners; null where it is too narrow to be meant. */
export function rectangleBetween(one: FilmPoint, other: FilmPoint, picture: Size): Rectangle | null {
  const [a, b] = [onPicture(one, picture), onPicture(other, picture)];
  const column = Math.round(Math.min(a.column, b.column));
  const row = Math.round(Math.min(a.row, b.row));
  const columns = Math.round(Math.max(a.column, b.column)) - column;
  const rows = Math.round(Math.max(a.row, b.row)) - row;
  return columns < NARROWEST || rows < NARROWEST ? null : { column, row, columns, rows };
}

/** Corners from top left, clockwise. */
export const cornersOf = ({ column, row, columns, rows }: Rectangle): Corners => [
  filmPoint(column, row),
  filmPoint(column + columns, row),
  filmPoint(column + columns, row + rows),
  filmPoint(column, row + rows),
];

/** The rectangle with one corner elsewhere; the opposite one stays, and the two never change places. */
export function withCorner(
  rectangle: Rectangle,
  corner: 0 | 1 | 2 | 3,
  to: FilmPoint,
  picture: Size,
): Rectangle {
  const [topLeft, , bottomRight] = cornersOf(rectangle);
  const isLeft = corner === 0 || corner === 3;
  const isTop = corner === 0 || corner === 1;
  const left = isLeft ? within(Math.round(to.column), 0, bottomRight.column - NARROWEST) : topLeft.column;
  const right = isLeft
    ? bottomRight.column
    : within(Math.round(to.column), topLeft.column + NARROWEST, picture.columns);
  const top = isTop ? within(Math.round(to.row), 0, bottomRight.row - NARROWEST) : topLeft.row;
  const bottom = isTop ? bottomRight.row : within(Math.round(to.row), topLeft.row + NARROWEST, picture.rows);
  return { column: left, row: top, columns: right - left, rows: bottom - top };
}

/** The picture cut into equal parts, side by side or one above the other. */
export function equalParts(
  picture: Size,
  count: number,
  way: 'side by side' | 'stacked',
): readonly Rectangle[] {
  const whole = way === 'side by side' ? picture.columns : picture.rows;
  const cuts = Array.from({ length: count + 1 }, (_, index) => Math.round((index * whole) / count));
  return cuts.slice(1).map((end, index) => {
    const start = cuts[index] as number;
    return way === 'side by side'
      ? { column: start, row: 0, columns: end - start, rows: picture.rows }
      : { column: 0, row: start, columns: picture.columns, rows: end - start };
  });
}

/** Where the four corners of a sheet stand before they are moved to where they belong. */
export function firstCorners({ columns, rows }: Size): Corners {
  const inset = 0.1;
  return cornersOf({
    column: inset * columns,
    row: inset * rows,
    columns: (1 - 2 * inset) * columns,
    rows: (1 - 2 * inset) * rows,
  });
}
