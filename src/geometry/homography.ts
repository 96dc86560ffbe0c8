import { lusolve } from 'mathjs';
import { type Axis, turnBetween, wrapDegrees } from './axis.ts';
import { failure, type Result, success } from './result.ts';
import { type Degrees, degrees, type FilmPoint, type PlanePoint, planePoint } from './units.ts';

/** Row by row; the last element is 1. */
export type Homography = readonly (readonly number[])[];

export type HomographyFailure =
  | {
      /** Three corners lie nearly on a line, or the four do not go round: top left, then clockwise. */
      readonly kind: 'corners-not-convex';
    }
  | { readonly kind: 'no-proportion'; readonly widthToHeight: number };

/** Corners of a rectangle as photographed: top left, then clockwise as displayed. */
export type Corners = readonly [FilmPoint, FilmPoint, FilmPoint, FilmPoint];

/** Smallest corner triangle as a share of the whole: below it two sides are nearly one line. */
const LEAST_CORNER_SHARE = 0.02;

/**
 * The plane of a rectangle photographed at a slant, as a map from the photograph to that plane.
 *
 *     (x, y) = ((h₁c + h₂r + h₃) / (h₇c + h₈r + 1), (h₄c + h₅r + h₆) / (h₇c + h₈r + 1))
 *
 * Eight equations from four corners, solved by LU decomposition. Only what lies in that plane is mapped
 * truly: a fingernail above the sheet of paper it was photographed with is not. Plane unit: the
 * rectangle's height is 1.
 *
 * @param widthToHeight - Proportion of the real rectangle, e.g. 210 / 297 for an upright A4 sheet.
 *
 * Fails with `corners-not-convex` and `no-proportion`.
 */
export function planeHomography(
  corners: Corners,
  widthToHeight: number,
): Result<Homography, HomographyFailure> {
  if (!(widthToHeight > 0) || !Number.isFinite(widthToHeight)) {
    return failure({ kind: 'no-proportion', widthToHeight });
  }
  if (!goesRound(corners)) return failure({ kind: 'corners-not-convex' });
  const targets = [
    [0, 0],
    [widthToHeight, 0],
    [widthToHeight, 1],
    [0, 1],
  ] as const;
  // Columns and rows are brought to a size of about 1, or the system is badly conditioned for large photographs.
  const scale = Math.max(...corners.flatMap(({ column, row }) => [Math.abs(column), Math.abs(row), 1]));
  const rows: number[][] = [];
  const right: number[] = [];
  corners.forEach((corner, index) => {
    const [x, y] = targets[index] as readonly [number, number];
    const c = corner.column / scale;
    const r = corner.row / scale;
    rows.push([c, r, 1, 0, 0, 0, -c * x, -r * x], [0, 0, 0, c, r, 1, -c * y, -r * y]);
    right.push(x, y);
  });
  const solved = (lusolve(rows, right) as number[][]).map((row) => row[0] ?? Number.NaN);
  const [h1 = 0, h2 = 0, h3 = 0, h4 = 0, h5 = 0, h6 = 0, h7 = 0, h8 = 0] = solved;
  return success([
    [h1 / scale, h2 / scale, h3],
    [h4 / scale, h5 / scale, h6],
    [h7 / scale, h8 / scale, 1],
  ]);
}

/** A point of the photograph in the plane of the rectangle. */
export function throughHomography(map: Homography, { column, row }: FilmPoint): PlanePoint {
  const [u = 0, v = 0, w = 0] = map.map(([a = 0, b = 0, c = 0]) => a * column + b * row + c);
  return planePoint(u / w, v / w);
}

/** A directed line between two points of a photograph. */
export interface FilmAxis {
  readonly from: FilmPoint;
  readonly to: FilmPoint;
}

/**
 * What the slant of the photograph does to an angle: the angle in the rectangle's plane, the angle as it
 * stands in the photograph, and their difference, degrees in (−180, 180].
 */
export function angleChange(
  map: Homography,
  reference: FilmAxis,
  measured: FilmAxis,
): { readonly inPlane: Degrees; readonly inPhotograph: Degrees; readonly change: Degrees } {
  const mapped = ({ from, to }: FilmAxis): Axis => ({
    from: throughHomography(map, from),
    to: throughHomography(map, to),
  });
  const asSeen = ({ from, to }: FilmAxis): Axis => ({
    from: planePoint(from.column, from.row),
    to: planePoint(to.column, to.row),
  });
  const inPlane = turnBetween(mapped(reference), mapped(measured));
  const inPhotograph = turnBetween(asSeen(reference), asSeen(measured));
  return { inPlane, inPhotograph, change: degrees(wrapDegrees(inPlane - inPhotograph)) };
}

function goesRound(corners: Corners): boolean {
  const triangles = corners.map((corner, index) => {
    const next = corners[(index + 1) % 4] as FilmPoint;
    const after = corners[(index + 2) % 4] as FilmPoint;
    return (
      ((next.column - corner.column) * (after.row - corner.row) -
        (next.row - corner.row) * (after.column - corner.column)) /
      2
    );
  });
  // Opposite corner triangles make up the whole, so all four sum to twice its area.
  const whole = triangles.reduce((sum, area) => sum + area, 0) / 2;
  return whole > 0 && triangles.every((area) => area > LEAST_CORNER_SHARE * whole);
}
