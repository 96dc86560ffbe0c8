import { distanceBetween } from './axis.ts';
import { type LengthReading, type LengthScale, measureLength } from './length-scale.ts';
import type { PlacingError } from './placing.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

export interface Segment {
  readonly from: PlanePoint;
  readonly to: PlanePoint;
}

export interface LengthFailure {
  readonly kind: 'points-coincide';
}

/**
 * Length of the straight line between two placed points, in mm or as a share of a bone.
 *
 * For a length L with both ends placed to σ per coordinate, u(L) = √2 σ from the placing alone, at any L.
 * Near L = 0 a length cannot be negative and first order fails; steps and gaps are therefore read across a
 * line (`joint-surface.ts`) and not as a length.
 *
 * @see docs/measurements/length.md
 */
export function segmentLength(
  segment: Segment,
  placing: PlacingError,
  scale: LengthScale,
): Result<LengthReading, LengthFailure> {
  const { from, to } = segment;
  if (distanceBetween(from, to) === 0) return failure({ kind: 'points-coincide' });
  if (scale.kind === 'share' && distanceBetween(scale.bone.from, scale.bone.to) === 0) {
    return failure({ kind: 'points-coincide' });
  }
  return success(
    measureLength(
      (points) => distanceBetween(points[0] as PlanePoint, points[1] as PlanePoint),
      [{ points: [from, to], placing, source: 'placing the ends' }],
      scale,
    ),
  );
}
