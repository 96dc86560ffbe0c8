import { distanceBetween } from './axis.ts';
import { failure, type Result, success } from './result.ts';
import { type Degrees, type PlanePoint, planePoint, toDegrees } from './units.ts';

export interface FittedCircle {
  readonly centre: PlanePoint;
  /** Plane units, > 0. */
  readonly radius: number;
  /** Root-mean-square distance of the points from the circle, plane units. */
  readonly residual: number;
  /** Smallest arc that holds all the points, in [0, 360) degrees. */
  readonly arc: Degrees;
  /** Covariance of (centre x, centre y, radius) for a unit variance of each coordinate of each point. */
  readonly covarianceFactor: readonly (readonly number[])[];
}

export type CircleFailure =
  | { readonly kind: 'too-few-points'; readonly found: number; readonly needed: number }
  | {
      /** The points lie nearly on a line, or cover so little of the rim that any circle would do. */
      readonly kind: 'circle-not-defined';
      readonly arc: Degrees;
      readonly neededArc: Degrees;
    };

/**
 * Points over less of the rim than this fix no centre: over 45° the depth of the arc is a tenth of its
 * chord, and the centre moves by more than ten times an error of one rim point.
 */
const LEAST_ARC = 45 as Degrees;

const MOST_STEPS = 50;

/**
 * Circle through three or more points: an algebraic start, refined until the sum of squared distances from
 * the circle is the least possible (Gauss–Newton, each step halved until it improves).
 *
 *     minimise Σ (|pᵢ − c| − r)²        Cov(c, r) = σ² (JᵀJ)⁻¹,  Jᵢ = (−cos φᵢ, −sin φᵢ, −1)
 *
 * @param points - Plane units, on the rim, any order.
 *
 * Fails with `too-few-points` below three, and `circle-not-defined` when the points cover an arc of less
 * than 45°, which includes points on a line; the arc found is given.
 *
 * @see Gander W, Golub GH, Strebel R. Least-squares fitting of circles and ellipses. BIT 1994;34:558–578.
 */
export function fitCircle(points: readonly PlanePoint[]): Result<FittedCircle, CircleFailure> {
  if (points.length < 3) return failure({ kind: 'too-few-points', found: points.length, needed: 3 });
  const fitted = refine(points);
  const arc = fitted === null ? (0 as Degrees) : arcHolding(points, fitted.centre);
  const covarianceFactor =
    fitted === null
      ? null
      : inverseNormal(rimDirections(points, fitted.centre).map(({ x, y }) => [-x, -y, -1]));
  if (fitted === null || covarianceFactor === null || arc < LEAST_ARC) {
    return failure({ kind: 'circle-not-defined', arc, neededArc: LEAST_ARC });
  }
  const distances = points.map((point) => distanceBetween(point, fitted.centre) - fitted.radius);
  return success({
    ...fitted,
    arc,
    residual: Math.sqrt(distances.reduce((sum, d) => sum + d * d, 0) / points.length),
    covarianceFactor,
  });
}

/**
 * The centre of `fitCircle` without its checks, for points known to fix a circle. This is the smooth
 * function of the coordinates that uncertainty is propagated through.
 */
export function circleCentre(points: readonly PlanePoint[]): PlanePoint {
  const fitted = refine(points);
  if (fitted === null) throw new RangeError('The points fix no circle; check them with fitCircle first.');
  return fitted.centre;
}

interface Circle {
  readonly centre: PlanePoint;
  readonly radius: number;
}

function refine(points: readonly PlanePoint[]): Circle | null {
  let circle = algebraicStart(points);
  if (circle === null) return null;
  let cost = squaredDistance(points, circle);
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const { centre, radius } = circle;
    const rows = rimDirections(points, centre).map(({ x, y }) => [-x, -y, -1]);
    const residuals = points.map((point) => distanceBetween(point, centre) - radius);
    const change = solveNormal(rows, residuals);
    if (change === null) return null;
    let share = 1;
    let next = moved(circle, change, share);
    while (squaredDistance(points, next) > cost && share > 1e-6) {
      share /= 2;
      next = moved(circle, change, share);
    }
    const nextCost = squaredDistance(points, next);
    if (nextCost > cost) break;
    const movement = share * Math.hypot(...change);
    circle = next;
    cost = nextCost;
    if (movement <= 1e-13 * circle.radius) break;
  }
  return Number.isFinite(circle.radius) ? circle : null;
}

const moved = (circle: Circle, change: readonly number[], share: number): Circle => ({
  centre: planePoint(circle.centre.x - share * (change[0] ?? 0), circle.centre.y - share * (change[1] ?? 0)),
  radius: circle.radius - share * (change[2] ?? 0),
});

const squaredDistance = (points: readonly PlanePoint[], circle: Circle): number =>
  points.reduce((sum, point) => sum + (distanceBetween(point, circle.centre) - circle.radius) ** 2, 0);

/** x² + y² + a x + b y + c = 0 by linear least squares about the centroid (Kåsa's fit). */
function algebraicStart(points: readonly PlanePoint[]): Circle | null {
  const count = points.length;
  const cx = points.reduce((sum, point) => sum + point.x, 0) / count;
  const cy = points.reduce((sum, point) => sum + point.y, 0) / count;
  const rows = points.map((point) => [point.x - cx, point.y - cy, 1]);
  const squares = points.map((point) => -((point.x - cx) ** 2 + (point.y - cy) ** 2));
  const solution = solveNormal(rows, squares);
  if (solution === null) return null;
  const [a = 0, b = 0, c = 0] = solution;
  const radius = Math.sqrt((a * a + b * b) / 4 - c);
  return Number.isFinite(radius) ? { centre: planePoint(cx - a / 2, cy - b / 2), radius } : null;
}

/** Least-squares solution of three unknowns by the normal equations; null if they are singular. */
function solveNormal(rows: Rows, right: readonly number[]): readonly number[] | null {
  const inverse = inverseNormal(rows);
  if (inverse === null) return null;
  const sums = [0, 1, 2].map((column) =>
    rows.reduce((sum, row, index) => sum + (row[column] ?? 0) * (right[index] ?? 0), 0),
  );
  const values = inverse.map((row) =>
    row.reduce((sum, factor, column) => sum + factor * (sums[column] ?? 0), 0),
  );
  return values.every(Number.isFinite) ? values : null;
}

type Rows = readonly (readonly number[])[];

/**
 * (JᵀJ)⁻¹ of rows of three; null if it is singular.
 *
 * By cofactors: this runs some hundred times for each reading while a point is dragged, and a general solver
 * takes thirty times as long over three equations.
 */
function inverseNormal(rows: Rows): Rows | null {
  let [aa, ab, ac, bb, bc, cc] = [0, 0, 0, 0, 0, 0];
  for (const [a = 0, b = 0, c = 0] of rows) {
    aa += a * a;
    ab += a * b;
    ac += a * c;
    bb += b * b;
    bc += b * c;
    cc += c * c;
  }
  if (aa * bb - ab * ab <= 1e-12 * (aa + bb) ** 2) return null;
  // Cofactors of the symmetric matrix, which are its inverse times its determinant.
  const [caa, cab, cac] = [bb * cc - bc * bc, ac * bc - ab * cc, ab * bc - ac * bb];
  const [cbb, cbc, ccc] = [aa * cc - ac * ac, ab * ac - aa * bc, aa * bb - ab * ab];
  const determinant = aa * caa + ab * cab + ac * cac;
  return [
    [caa, cab, cac],
    [cab, cbb, cbc],
    [cac, cbc, ccc],
  ].map((row) => row.map((cofactor) => cofactor / determinant));
}

function rimDirections(points: readonly PlanePoint[], centre: PlanePoint) {
  return points.map((point) => {
    const distance = distanceBetween(point, centre);
    return { x: (point.x - centre.x) / distance, y: (point.y - centre.y) / distance };
  });
}

/** A full turn less the widest gap between neighbouring points, as seen from the centre. */
function arcHolding(points: readonly PlanePoint[], centre: PlanePoint): Degrees {
  const bearings = points
    .map((point) => Math.atan2(point.y - centre.y, point.x - centre.x))
    .sort((a, b) => a - b);
  let widestGap = (bearings[0] ?? 0) + 2 * Math.PI - (bearings.at(-1) ?? 0);
  for (let i = 1; i < bearings.length; i += 1) {
    widestGap = Math.max(widestGap, (bearings[i] ?? 0) - (bearings[i - 1] ?? 0));
  }
  return toDegrees(2 * Math.PI - widestGap);
}
