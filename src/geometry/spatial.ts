import { wrapDegrees } from './axis.ts';
import { combineIndependent, type Measured, stated } from './propagate.ts';
import { failure, type Result, success } from './result.ts';
import { type Degrees, degrees, toDegrees, toRadians } from './units.ts';

/** Standard deviation of the turn of the hand between two views, in degrees, unless better known. A judgement. */
const VIEW_TURN_SD = degrees(5);

/** Views less than this apart see too nearly the same thing. */
const LEAST_VIEW_TURN = degrees(30);

/** At this reading the tangent runs away, and with it the answer. */
const STEEPEST_READING = degrees(80);

export interface SpatialReading {
  /** Angle between the fragments in space, in [0, 90) degrees. */
  readonly angle: Measured;
  /**
   * Direction of the tilt about the proximal axis, in (−180, 180] degrees: 0 in the plane of the first view,
   * positive towards the plane of the second. Null when there is no tilt, or when its own uncertainty leaves the
   * direction open (expanded uncertainty above 90°).
   */
  readonly plane: Measured | null;
}

export type SpatialFailure =
  | { readonly kind: 'views-too-close'; readonly turn: Degrees; readonly needed: Degrees }
  | { readonly kind: 'reading-too-steep'; readonly angle: Degrees; readonly limit: Degrees };

/**
 * Angle in space, and its plane, from the angles seen in two views turned by φ about the proximal axis.
 *
 * With the proximal axis along z and the distal one along (X, Y, 1), each view sees one component:
 *
 *     uᵢ · (X, Y) = tan aᵢ        u₁ = (1, 0), u₂ = (cos φ, sin φ)
 *     X = tan a₁        Y = (tan a₂ − cos φ tan a₁) / sin φ
 *     θ = atan √(X² + Y²)        plane = atan2(Y, X)
 *
 * For views at right angles this is tan² θ = tan² a₁ + tan² a₂.
 *
 * Holds when the proximal fragment lies parallel to the detector in both views, which nobody has measured; the
 * interval does not cover it. Both angles must be signed, each towards the positive direction of its view.
 *
 * @param first - Angle seen in the first view, degrees.
 * @param second - Angle seen in the second view, degrees.
 * @param turn - φ in degrees, the turn of the hand from the first view to the second; 90 from PA to lateral.
 *
 * Fails with `views-too-close` when φ lies within 30° of 0° or 180°, where errors are multiplied more than
 * twofold (1 / sin 30°), and `reading-too-steep` when an angle passes 80°.
 *
 * @see docs/measurements/spatial-angle.md.
 */
export function spatialAngle(
  first: Measured,
  second: Measured,
  turn: Degrees,
  turnSd: Degrees = VIEW_TURN_SD,
): Result<SpatialReading, SpatialFailure> {
  const fromLine = Math.abs(wrapDegrees(turn));
  const apart = degrees(Math.min(fromLine, 180 - fromLine));
  // 10⁻⁹ degrees: a turn of exactly 30°, however it was computed, is accepted.
  if (apart < LEAST_VIEW_TURN - 1e-9) {
    return failure({ kind: 'views-too-close', turn: apart, needed: LEAST_VIEW_TURN });
  }
  for (const { value } of [first, second]) {
    if (!(Math.abs(value) <= STEEPEST_READING)) {
      return failure({ kind: 'reading-too-steep', angle: degrees(value), limit: STEEPEST_READING });
    }
  }
  const views = [
    { label: 'first view', result: first },
    { label: 'second view', result: second },
    {
      label: 'turn between the views',
      result: stated(turn, turnSd, 'turn of the hand', {
        text: `assumed SD ${turnSd}°`,
        degreesOfFreedom: Number.POSITIVE_INFINITY,
      }),
    },
  ];
  const angle = combineIndependent((values) => {
    const { x, y } = tilt(values);
    return toDegrees(Math.atan(Math.hypot(x, y)));
  }, views);
  return success({ angle, plane: planeOf(views) });
}

/**
 * The angle that a view sees of a tilt in space: `tan a = tan θ · cos(plane − φ)`, degrees.
 *
 * Says how much a badly turned view hides: a tilt of 30° seen 30° off its plane reads 26.6°. Never to be run
 * backwards on an oblique film: measured obliques read too high, not too low (docs/measurements/spatial-angle.md).
 *
 * @param turn - φ, the turn of the view from the plane that `plane` is counted from.
 */
export function seenAngle(angle: Degrees, plane: Degrees, turn: Degrees): Degrees {
  const towards = Math.cos(toRadians(degrees(plane - turn)));
  return toDegrees(Math.atan(Math.tan(toRadians(angle)) * towards));
}

function planeOf(views: readonly { readonly label: string; readonly result: Measured }[]): Measured | null {
  const { x, y } = tilt(views.map(({ result }) => result.value));
  if (x === 0 && y === 0) return null;
  const plane = combineIndependent(
    (values) => {
      const at = tilt(values);
      return toDegrees(Math.atan2(at.y + 0, at.x));
    },
    views,
    (a, b) => wrapDegrees(a - b),
  );
  return plane.expandedUncertainty > 90 ? null : plane;
}

function tilt([first = 0, second = 0, turn = 0]: readonly number[]): {
  readonly x: number;
  readonly y: number;
} {
  const phi = toRadians(degrees(turn));
  const x = Math.tan(toRadians(degrees(first)));
  const y = (Math.tan(toRadians(degrees(second))) - Math.cos(phi) * x) / Math.sin(phi);
  return { x, y };
}
