import { type Degrees, type PlanePoint, planePoint, toDegrees } from './units.ts';

/** A directed line through two different points of the plane. Oriented axes run from proximal to distal. */
export interface Axis {
  readonly from: PlanePoint;
  readonly to: PlanePoint;
}

/** Length of an axis in plane units, ≥ 0. */
export const axisLength = (axis: Axis): number => distanceBetween(axis.from, axis.to);

/** Distance of two points in plane units, ≥ 0. */
export const distanceBetween = (one: PlanePoint, other: PlanePoint): number =>
  Math.hypot(other.x - one.x, other.y - one.y);

/** The point half-way between two points. */
export const middleOf = (one: PlanePoint, other: PlanePoint): PlanePoint =>
  planePoint((one.x + other.x) / 2, (one.y + other.y) / 2);

/** The same line, run the other way. */
export const reversed = (axis: Axis): Axis => ({ from: axis.to, to: axis.from });

/** Unit vector along the axis; NaN components if its ends coincide. */
export function directionOf(axis: Axis): { readonly x: number; readonly y: number } {
  const length = axisLength(axis);
  return { x: (axis.to.x - axis.from.x) / length, y: (axis.to.y - axis.from.y) / length };
}

/**
 * Turn from one axis to another, in degrees, in (−180, 180].
 *
 *     θ = atan2(u × v, u · v)        u along `reference`, v along `measured`
 *
 * Positive when it turns clockwise as displayed, since `y` runs downwards. Both axes are directed:
 * running one of them the other way changes the turn by 180°.
 */
export function turnBetween(reference: Axis, measured: Axis): Degrees {
  const ux = reference.to.x - reference.from.x;
  const uy = reference.to.y - reference.from.y;
  const vx = measured.to.x - measured.from.x;
  const vy = measured.to.y - measured.from.y;
  // `+ 0` turns a cross product of −0 into +0: atan2(−0, −1) is −π, which is outside the range.
  return toDegrees(Math.atan2(ux * vy - uy * vx + 0, ux * vx + uy * vy));
}

/** A difference of two angles, brought into (−180, 180] degrees. */
export function wrapDegrees(angle: number): number {
  const turned = angle % 360;
  if (turned > 180) return turned - 360;
  return turned <= -180 ? turned + 360 : turned;
}

/**
 * Where a point lies relative to the line of an axis, in plane units.
 *
 * `along` is measured from `axis.from`, towards `axis.to`. `across` is positive on the side that the
 * axis would turn to clockwise as displayed: to the right of somebody walking along it.
 */
export function stationOf(
  point: PlanePoint,
  axis: Axis,
): { readonly along: number; readonly across: number } {
  const u = directionOf(axis);
  const dx = point.x - axis.from.x;
  const dy = point.y - axis.from.y;
  return { along: u.x * dx + u.y * dy, across: u.x * dy - u.y * dx };
}

/** Distance from a point to the stretch of an axis between its two ends, in plane units. */
export function distanceToAxis(point: PlanePoint, axis: Axis): number {
  const { along, across } = stationOf(point, axis);
  const beyond = along - Math.min(Math.max(along, 0), axisLength(axis));
  return Math.hypot(beyond, across);
}
