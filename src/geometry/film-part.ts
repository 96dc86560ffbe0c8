import { inv } from 'mathjs';
import {
  type Corners,
  type Homography,
  type HomographyFailure,
  planeHomography,
  throughHomography,
} from './homography.ts';
import { type Result, success } from './result.ts';
import { type FilmPoint, filmPoint } from './units.ts';

/**
 * A part of a picture that is a film of its own: one of several exposures on a plate, or a photographed sheet
 * seen at a slant and straightened. Points are in pixels of the whole picture as decoded.
 */
export type FilmPart =
  | {
      readonly kind: 'rectangle';
      /** The pixel at the top left; whole numbers, 0 or more. */
      readonly column: number;
      readonly row: number;
      /** Whole numbers, 1 or more. */
      readonly columns: number;
      readonly rows: number;
    }
  | {
      readonly kind: 'corners';
      /** Of a sheet that is a rectangle in truth: top left, then clockwise. */
      readonly corners: Corners;
      /** Size of the straightened film, whose pixels are square. Whole numbers, 1 or more. */
      readonly columns: number;
      readonly rows: number;
    };

/** From the points of a part to where they lie in the whole picture. */
export type ToPicture = (point: FilmPoint) => FilmPoint;

/**
 * Where the points of a part lie in the whole picture.
 *
 * Fails with the homography's failures where the corners make no sheet.
 */
export function partToPicture(part: FilmPart): Result<ToPicture, HomographyFailure> {
  if (part.kind === 'rectangle') {
    return success(({ column, row }) => filmPoint(column + part.column, row + part.row));
  }
  const toPlane = planeHomography(part.corners, part.columns / part.rows);
  if (!toPlane.ok) return toPlane;
  const toPicture = inverse(toPlane.value);
  // The plane of a homography is one unit high.
  return success(({ column, row }) => {
    const { x, y } = throughHomography(toPicture, filmPoint(column / part.rows, row / part.rows));
    return filmPoint(x, y);
  });
}

/** From the plane of a rectangle back to the photograph. */
export const inverse = (map: Homography): Homography =>
  inv(map.map((row) => [...row])) as unknown as Homography;

/** Whether the part lies on a picture of this size; corners may lie up to half of the picture beyond its edge. */
export function liesOn(
  part: FilmPart,
  picture: { readonly columns: number; readonly rows: number },
): boolean {
  if (part.kind === 'rectangle') {
    return part.column + part.columns <= picture.columns && part.row + part.rows <= picture.rows;
  }
  return part.corners.every(
    ({ column, row }) =>
      column >= -picture.columns / 2 &&
      column <= 1.5 * picture.columns &&
      row >= -picture.rows / 2 &&
      row <= 1.5 * picture.rows,
  );
}
