import { sideOf } from './apex.ts';
import { type Axis, distanceBetween, stationOf, turnBetween } from './axis.ts';
import type { Segment } from './length.ts';
import { type LengthReading, type LengthScale, measureLength } from './length-scale.ts';
import type { OrientedPair } from './orient.ts';
import { type PlacingError, placedInputs, pointsOf } from './placing.ts';
import { type Measured, propagate } from './propagate.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

/** Steeper than this between the axes, where the distal axis crosses the fracture level is anybody's guess. */
const STEEPEST_DEGREES = 60;

export interface TranslationInput {
  /** Two-point axes, oriented from proximal to distal. */
  readonly axes: OrientedPair;
  /** A point at the level of the fracture. */
  readonly fracture: PlanePoint;
  /** Outer width of the shaft: one point on each outer cortex of the proximal fragment near the fracture. */
  readonly shaftWidth: Segment;
  readonly placing: PlacingError;
  readonly scale: LengthScale;
  /** Point on the dorsal (or radial) side, to say which way; null leaves the way unsaid. */
  readonly side: PlanePoint | null;
}

export interface TranslationReading {
  /** Size of the offset, ≥ 0. */
  readonly offset: LengthReading;
  /** The offset as a share of the shaft's width, in %; needs no scale. */
  readonly ofShaftWidth: Measured;
  /** Whether the distal fragment lies towards the tapped side or away from it; null without a side. */
  readonly way: 'towards the tapped side' | 'away from the tapped side' | null;
}

export type TranslationFailure =
  | { readonly kind: 'too-steep'; readonly angle: number; readonly limit: number }
  | { readonly kind: 'no-shaft-width' };

/**
 * Sideways offset of the fragments at the fracture, across the proximal axis.
 *
 * The distal axis is followed to where it crosses the level of the fracture (the line through the marked
 * point, square to the proximal axis); its distance from the proximal axis there is the offset:
 *
 *     t = b + (p − a) tan θ        a, b station of the distal axis's near end along and across the proximal
 *                                  axis, p station of the fracture, θ the angle between the axes
 *
 * Fails with `too-steep` when the axes make more than 60° with one another, and `no-shaft-width` when the
 * two width points are not apart across the axis.
 */
export function translation(input: TranslationInput): Result<TranslationReading, TranslationFailure> {
  const { axes, fracture, shaftWidth, placing, scale } = input;
  const angle = Math.abs(turnBetween(axes.proximal, axes.distal));
  if (angle > STEEPEST_DEGREES) return failure({ kind: 'too-steep', angle, limit: STEEPEST_DEGREES });
  const points = [axes.proximal.from, axes.proximal.to, axes.distal.from, axes.distal.to, fracture];
  const signed = offsetAcross(points);
  const sense = signed < 0 ? -1 : 1;
  const all = [...points, shaftWidth.from, shaftWidth.to];
  if (distanceBetween(shaftWidth.from, shaftWidth.to) === 0 || widthAcross(all) === 0) {
    return failure({ kind: 'no-shaft-width' });
  }
  const side = input.side === null ? null : sideOf(input.side, axes, 0);
  return success({
    offset: measureLength(
      (placed) => sense * offsetAcross(placed),
      [{ points, placing, source: 'placing the axes and the fracture' }],
      scale,
    ),
    ofShaftWidth: propagate(
      (values) => {
        const placed = pointsOf(values);
        return (100 * sense * offsetAcross(placed)) / widthAcross(placed);
      },
      placedInputs(all, placing, 'placing the axes, the fracture and the width'),
    ),
    way:
      side === null || !side.ok || signed === 0
        ? null
        : side.value * sense > 0
          ? 'towards the tapped side'
          : 'away from the tapped side',
  });
}

/** Points in the order of `translation`: proximal ends, distal ends, fracture. Positive as `across` of `stationOf`. */
function offsetAcross(points: readonly PlanePoint[]): number {
  const [proximal, distal] = axesOf(points);
  const start = stationOf(distal.from, proximal);
  const end = stationOf(distal.to, proximal);
  const level = stationOf(points[4] as PlanePoint, proximal).along;
  return start.across + ((level - start.along) * (end.across - start.across)) / (end.along - start.along);
}

function widthAcross(points: readonly PlanePoint[]): number {
  const [proximal] = axesOf(points);
  const one = stationOf(points[5] as PlanePoint, proximal).across;
  return Math.abs(stationOf(points[6] as PlanePoint, proximal).across - one);
}

const axesOf = (points: readonly PlanePoint[]): readonly [Axis, Axis] => [
  { from: points[0] as PlanePoint, to: points[1] as PlanePoint },
  { from: points[2] as PlanePoint, to: points[3] as PlanePoint },
];
