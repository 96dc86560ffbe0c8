import { inv } from 'mathjs';
import { type Corners, type Homography, type HomographyFailure, planeHomography } from './homography.ts';
import { type Result, success } from './result.ts';

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

/** From the pixels of a straightened film to those of the whole picture, as a map. Fails as `planeHomography` does. */
export function cornersToPicture({
  corners,
  columns,
  rows,
}: Extract<FilmPart, { kind: 'corners' }>): Result<Homography, HomographyFailure> {
  const toPlane = planeHomography(corners, columns / rows);
  if (!toPlane.ok) return toPlane;
  // The plane of a homography is one unit high.
  return success(inverse(toPlane.value).map(([a = 0, b = 0, c = 0]) => [a / rows, b / rows, c]));
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
