import { type Axis, distanceToAxis, stationOf } from './axis.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

/** The side of the film the user tapped: dorsal on a lateral or oblique film, radial on a PA film. */
export interface TappedSide {
  readonly side: 'dorsal' | 'radial';
  readonly at: PlanePoint;
}

export type Apex = 'apex dorsal' | 'apex volar' | 'apex radial' | 'apex ulnar';

export interface SideFailure {
  /** The tapped point lies on an axis, or too near to it to say on which side. Plane units. */
  readonly kind: 'side-on-axis';
  readonly distance: number;
  readonly neededDistance: number;
}

/** A tap nearer to an axis than this many placing errors may as well lie on its other side. */
const TAP_PLACING_ERRORS = 4;

/** The word for a signed angle; null at exactly 0, which has no apex. */
export function apexOf(signedAngle: number, side: 'dorsal' | 'radial'): Apex | null {
  if (signedAngle === 0) return null;
  if (side === 'dorsal') return signedAngle > 0 ? 'apex dorsal' : 'apex volar';
  return signedAngle > 0 ? 'apex radial' : 'apex ulnar';
}

/**
 * +1 if the tapped point lies on the side that `across` of `stationOf` calls positive. Seen from whichever
 * axis is nearer: beside a strongly tilted distal fragment the proximal axis, drawn on, would mislead.
 */
export function sideOf(
  at: PlanePoint,
  axes: { readonly proximal: Axis; readonly distal: Axis },
  placing: number,
): Result<1 | -1, SideFailure> {
  const nearer =
    distanceToAxis(at, axes.proximal) <= distanceToAxis(at, axes.distal) ? axes.proximal : axes.distal;
  const { across } = stationOf(at, nearer);
  const neededDistance = TAP_PLACING_ERRORS * placing;
  if (across === 0 || Math.abs(across) < neededDistance) {
    return failure({ kind: 'side-on-axis', distance: Math.abs(across), neededDistance });
  }
  return success(across > 0 ? 1 : -1);
}
