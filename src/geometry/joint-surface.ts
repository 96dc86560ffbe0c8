import { type Axis, axisLength, stationOf } from './axis.ts';
import type { Segment } from './length.ts';
import { type LengthReading, type LengthScale, measureLength } from './length-scale.ts';
import type { PlacingError } from './placing.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

export interface JointSurfaceReading {
  /** Distance of the two edges square to the joint surface, ≥ 0. */
  readonly step: LengthReading;
  /** Distance of the two edges along the joint surface, ≥ 0. */
  readonly gap: LengthReading;
}

export interface JointSurfaceFailure {
  /** The two points that give the direction of the surface lie too close together; plane units. */
  readonly kind: 'surface-too-short';
  readonly length: number;
  readonly neededLength: number;
}

/** The surface's direction must be known better than the edges lie apart: as for any axis. */
const SHORTEST_PLACING_ERRORS = 5;

/**
 * Step and gap in a joint surface, between one marked edge of each fragment.
 *
 *     step = |n · (e₂ − e₁)|        gap = |t · (e₂ − e₁)|        t along the surface, n square to it
 *
 * The surface is the line through two points on the larger fragment's joint surface. Where that surface is
 * curved, the line stands for it only near the edges.
 *
 * Each size is the absolute value of a signed distance. Near zero the interval reaches below zero: the edges
 * may be level. It is shown so, not cut off.
 *
 * Fails with `surface-too-short` below five placing errors between the two surface points.
 */
export function jointSurface(
  surface: Segment,
  edges: { readonly one: PlanePoint; readonly other: PlanePoint },
  placing: PlacingError,
  scale: LengthScale,
): Result<JointSurfaceReading, JointSurfaceFailure> {
  const length = axisLength(surface);
  const neededLength = SHORTEST_PLACING_ERRORS * placing.standardUncertainty;
  if (length === 0 || length < neededLength) {
    return failure({ kind: 'surface-too-short', length, neededLength });
  }
  const points = [surface.from, surface.to, edges.one, edges.other];
  const size = (component: 'across' | 'along'): LengthReading => {
    const sense = difference(points, component) < 0 ? -1 : 1;
    return measureLength(
      (placed) => sense * difference(placed, component),
      [{ points, placing, source: 'placing the edges and the surface' }],
      scale,
    );
  };
  return success({ step: size('across'), gap: size('along') });
}

function difference(points: readonly PlanePoint[], component: 'across' | 'along'): number {
  const surface: Axis = { from: points[0] as PlanePoint, to: points[1] as PlanePoint };
  return (
    stationOf(points[3] as PlanePoint, surface)[component] -
    stationOf(points[2] as PlanePoint, surface)[component]
  );
}
