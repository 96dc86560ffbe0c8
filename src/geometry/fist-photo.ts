import { type Axis, axisLength, stationOf, turnBetween, wrapDegrees } from './axis.ts';
import { type PlacingError, placedInputs, pointsOf } from './placing.ts';
import { combineIndependent, type Measured, propagate } from './propagate.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

/**
 * Readings from a photograph of the half-closed fist, as support for the clinical check of rotation and
 * nothing more. Rotation cannot be read from a radiograph, and no limit is compared with these numbers.
 */
export type FistFailure =
  | { readonly kind: 'axis-too-short'; readonly length: number; readonly neededLength: number }
  /** No finger of a fist points back past its neighbour: one of the two was placed from the tip to the fold. */
  | { readonly kind: 'points-back'; readonly turn: number };

const SHORTEST_PLACING_ERRORS = 5;

/** Farther than this from one another two fingers of one fist never point. A fact of anatomy, no source. */
const GREATEST_TURN = 90;

/**
 * Direction of a finger (or of the long side of its nail) against a reference direction in the same photograph,
 * commonly the middle finger: degrees in (−180, 180], positive clockwise as displayed. Both run from the nail
 * fold to the tip.
 *
 * Fails with `axis-too-short` below five placing errors, in plane units, and with `points-back` past 90°.
 */
export function fingerDirection(
  reference: Axis,
  finger: Axis,
  placing: PlacingError,
): Result<Measured, FistFailure> {
  const neededLength = SHORTEST_PLACING_ERRORS * placing.standardUncertainty;
  for (const axis of [reference, finger]) {
    const length = axisLength(axis);
    if (length === 0 || length < neededLength) {
      return failure({ kind: 'axis-too-short', length, neededLength });
    }
  }
  const turn = turnBetween(reference, finger);
  if (Math.abs(turn) > GREATEST_TURN) return failure({ kind: 'points-back', turn });
  const inputs = [
    ...placedInputs([reference.from, reference.to], placing, 'placing the reference finger'),
    ...placedInputs([finger.from, finger.to], placing, 'placing the finger'),
  ];
  return success(
    propagate(
      (values) => {
        const [a, b, c, d] = pointsOf(values) as [PlanePoint, PlanePoint, PlanePoint, PlanePoint];
        return turnBetween({ from: a, to: b }, { from: c, to: d });
      },
      inputs,
      { difference: (a, b) => wrapDegrees(a - b) },
    ),
  );
}

/**
 * How far a finger's direction differs between the hands, degrees in (−180, 180].
 *
 * The other hand is the mirror image, so its direction is taken with the opposite sign. Healthy fingers differ
 * too, and the interval leaves that out: it covers the placing only.
 */
export const directionDifference = (injured: Measured, other: Measured): Measured =>
  combineIndependent(
    ([here = 0, there = 0]) => wrapDegrees(here + there),
    [
      { label: 'this hand', result: injured },
      { label: 'other hand', result: other },
    ],
    (a, b) => wrapDegrees(a - b),
  );

/**
 * How much of the neighbouring nail is covered, in % of that nail's width; 0 at its near edge, 100 at its far
 * edge, negative when the nail is clear.
 *
 * Nine people in ten overlap somewhat and most of them unequally on the two hands, so that an overlap says
 * little by itself (literature in docs/measurements/fist-photograph.md).
 *
 * @param nail - Across the neighbouring nail, from the edge nearer to the covering finger to the far edge.
 * @param edge - The foremost point of the covering finger.
 */
export function nailOverlap(
  nail: Axis,
  edge: PlanePoint,
  placing: PlacingError,
): Result<Measured, FistFailure> {
  const length = axisLength(nail);
  const neededLength = SHORTEST_PLACING_ERRORS * placing.standardUncertainty;
  if (length === 0 || length < neededLength) {
    return failure({ kind: 'axis-too-short', length, neededLength });
  }
  return success(
    propagate(
      (values) => {
        const [from, to, at] = pointsOf(values) as [PlanePoint, PlanePoint, PlanePoint];
        const across: Axis = { from, to };
        return (100 * stationOf(at, across).along) / axisLength(across);
      },
      placedInputs([nail.from, nail.to, edge], placing, 'placing the nail and the edge'),
    ),
  );
}
