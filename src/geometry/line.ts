import { type Axis, stationOf } from './axis.ts';
import { failure, type Result, success } from './result.ts';
import { type PlanePoint, planePoint } from './units.ts';

/** The line that lies closest to a set of points, measured square to itself. */
export interface FittedLine {
  /** From the foot of the first-most point to that of the last-most, running from the first point placed to the last. */
  readonly axis: Axis;
  readonly centroid: PlanePoint;
  /** Root-mean-square distance of the points from the line, plane units. */
  readonly residual: number;
  /** Variance of the direction in rad², for a unit variance of each coordinate of each point. */
  readonly directionVarianceFactor: number;
  /** Variance of the line's sideways position at the centroid, for a unit variance of each coordinate. */
  readonly offsetVarianceFactor: number;
}

export type LineFailure =
  | { readonly kind: 'too-few-points'; readonly found: number; readonly needed: number }
  | { readonly kind: 'points-coincide' }
  | {
      /** The points lie in a heap and not in a row: more than half as wide as it is long. */
      readonly kind: 'no-direction';
      readonly spreadAlong: number;
      readonly spreadAcross: number;
    };

/** A heap of points wider than this share of its length has no direction worth the name. */
const WIDEST_ROW = 0.5;

/**
 * Straight line through points by total least squares: the sum of squared distances square to the line is
 * the least possible, so neither coordinate is privileged and turning the film turns the line with it.
 *
 *     ψ = ½ atan2(2 Sxy, Sxx − Syy)        S about the centroid
 *
 * To first order, with λ₁ ≥ λ₂ the sums of squares along and across and each coordinate of variance σ²,
 *
 *     u²(ψ) = σ² (λ₁ + λ₂) / (λ₁ − λ₂)²        u²(offset at the centroid) = σ² / n
 *
 * which is the known σ² / Σ(s − s̄)² when the points lie on the line.
 *
 * @param points - Two or more points in plane units, in the order placed; the order sets the direction only.
 *
 * Fails with `too-few-points` below two, `points-coincide` when all are one point, `no-direction` when they
 * are spread more than half as far across as along (root-mean-square, both given in plane units).
 *
 * @see Pearson K. On lines and planes of closest fit to systems of points in space. Phil Mag 1901;2:559–572.
 */
export function fitLine(points: readonly PlanePoint[]): Result<FittedLine, LineFailure> {
  const count = points.length;
  if (count < 2) return failure({ kind: 'too-few-points', found: count, needed: 2 });
  const { centroid, along, across } = principalSpread(points);
  const scale = Math.max(...points.map((point) => Math.hypot(point.x, point.y)));
  // Rounding of the coordinates themselves leaves a spread of about this much between equal points.
  if (along <= (scale * Number.EPSILON * 8) ** 2 * count) return failure({ kind: 'points-coincide' });
  if (Math.sqrt(across) > WIDEST_ROW * Math.sqrt(along)) {
    return failure({
      kind: 'no-direction',
      spreadAlong: Math.sqrt(along / count),
      spreadAcross: Math.sqrt(across / count),
    });
  }
  return success({
    axis: lineAxis(points),
    centroid,
    residual: Math.sqrt(across / count),
    directionVarianceFactor: (along + across) / (along - across) ** 2,
    offsetVarianceFactor: 1 / count,
  });
}

/**
 * The axis of `fitLine` without its checks, for points known to have a direction. This is the smooth
 * function of the coordinates that uncertainty is propagated through.
 */
export function lineAxis(points: readonly PlanePoint[]): Axis {
  const { centroid, direction } = principalSpread(points);
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) throw new RangeError('A line needs points.');
  const run = direction.x * (last.x - first.x) + direction.y * (last.y - first.y);
  const sense = run < 0 ? -1 : 1;
  const onLine = (along: number) =>
    planePoint(centroid.x + sense * direction.x * along, centroid.y + sense * direction.y * along);
  const unit: Axis = { from: centroid, to: onLine(1) };
  const stations = points.map((point) => stationOf(point, unit).along);
  return { from: onLine(Math.min(...stations)), to: onLine(Math.max(...stations)) };
}

function principalSpread(points: readonly PlanePoint[]) {
  const count = points.length;
  const centroid = planePoint(
    points.reduce((sum, point) => sum + point.x, 0) / count,
    points.reduce((sum, point) => sum + point.y, 0) / count,
  );
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (const point of points) {
    const dx = point.x - centroid.x;
    const dy = point.y - centroid.y;
    sxx += dx * dx;
    sxy += dx * dy;
    syy += dy * dy;
  }
  const angle = Math.atan2(2 * sxy, sxx - syy) / 2;
  const direction = { x: Math.cos(angle), y: Math.sin(angle) };
  const along = (sxx + syy + Math.hypot(sxx - syy, 2 * sxy)) / 2;
  // Summed square by square: λ₂ as a difference of large numbers would lose a straight row's last digits.
  const across = points.reduce(
    (sum, point) => sum + (direction.x * (point.y - centroid.y) - direction.y * (point.x - centroid.x)) ** 2,
    0,
  );
  return { centroid, direction, along, across };
}
