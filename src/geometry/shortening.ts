import { axisLength, distanceBetween, stationOf } from './axis.ts';
import type { Segment } from './length.ts';
import { type LengthReading, type LengthScale, measureLength } from './length-scale.ts';
import type { PlacingError } from './placing.ts';
import { combineIndependent, type Measured } from './propagate.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

// Four ways to find a shortening, which do not agree with one another: the way is part of the reading.

export type ShorteningFailure =
  | { readonly kind: 'no-reference-bones' }
  | { readonly kind: 'points-coincide' }
  | { readonly kind: 'heads-too-close'; readonly distance: number; readonly neededDistance: number };

/**
 * Shortening as the length on the other hand less the length on this one; positive when this one is shorter.
 *
 * The two films' scales are taken as independent. Leaves out that two healthy hands differ: lengths of rays
 * 1, 2, 3 and 5 differed significantly between sides in 34 people (Foley 2021).
 */
export const shorteningByOtherHand = (injured: Measured, other: Measured): Measured =>
  combineIndependent(
    ([here = 0, there = 0]) => there - here,
    [
      { label: 'this hand', result: injured },
      { label: 'other hand', result: other },
    ],
  );

/** The broken bone and one or more whole bones on the same film, each from base to head. */
export interface HandLengths {
  readonly broken: Segment;
  /** Same bones, same order, on both hands. */
  readonly references: readonly Segment[];
  readonly placing: PlacingError;
}

/**
 * Shortening by within-hand ratios: the expected length of the broken bone is each reference bone's length on
 * this hand times the ratio of the two on the other hand, averaged over the reference bones.
 *
 *     expected = mean over y of  L(y, here) · L(x, other) / L(y, other)        shortening = expected − L(x, here)
 *
 * The scale of the other hand's film cancels, so that film needs none.
 *
 * Fails with `no-reference-bones` without one on each side, `points-coincide` when a bone has no length.
 *
 * @see Foley DP et al. SAGE Open Med 2021;9 (PMC8704191): within-hand ratios did not differ between sides.
 */
export function shorteningByRatio(
  injured: HandLengths,
  other: HandLengths,
  scale: LengthScale,
): Result<LengthReading, ShorteningFailure> {
  const count = injured.references.length;
  if (count === 0 || count !== other.references.length) return failure({ kind: 'no-reference-bones' });
  const bonesOf = (hand: HandLengths) => [hand.broken, ...hand.references];
  if ([...bonesOf(injured), ...bonesOf(other)].some((bone) => axisLength(bone) === 0)) {
    return failure({ kind: 'points-coincide' });
  }
  const group = (hand: HandLengths, source: string) => ({
    points: bonesOf(hand).flatMap(({ from, to }) => [from, to]),
    placing: hand.placing,
    source,
  });
  return success(
    measureLength(
      (points) => {
        const lengths = lengthsOf(points);
        const [here = 0, ...hereOthers] = lengths.slice(0, count + 1);
        const [there = 0, ...thereOthers] = lengths.slice(count + 1);
        const expected = hereOthers.map((length, index) => (length * there) / (thereOthers[index] ?? 0));
        return expected.reduce((sum, length) => sum + length, 0) / count - here;
      },
      [group(injured, 'placing on this hand'), group(other, 'placing on the other hand')],
      scale,
    ),
  );
}

const lengthsOf = (points: readonly PlanePoint[]): readonly number[] =>
  points.flatMap((point, index) =>
    index % 2 === 0 ? [distanceBetween(point, points[index + 1] as PlanePoint)] : [],
  );

export interface HeadLineInput {
  /** The most distal points of the two heads that carry the line, commonly middle and ring. */
  readonly heads: readonly [PlanePoint, PlanePoint];
  /** The most distal point of the head in question. */
  readonly head: PlanePoint;
  /** Any point on the proximal side of the line, such as the base of the ray. */
  readonly proximal: PlanePoint;
  readonly placing: PlacingError;
  readonly scale: LengthScale;
}

/** The line's direction multiplies with the distance out to the small finger: it needs a base of ten placing errors. */
const LEAST_HEAD_DISTANCE = 10;

/**
 * Distance of a head below the line through two other heads, square to it; positive on the proximal side.
 *
 * Not yet a shortening: take the same distance on the other hand, or a published normal, away from it with
 * `shorteningByHeadLine`. Fails with `heads-too-close` below ten placing errors between the two heads.
 *
 * @see Sletten et al. J Hand Surg Eur, doi 10.1177/1753193412461582: ICC 0.81 to 0.96 for the small finger.
 */
export function headLineDistance(input: HeadLineInput): Result<LengthReading, ShorteningFailure> {
  const { heads, head, proximal, placing, scale } = input;
  const distance = distanceBetween(heads[0], heads[1]);
  const neededDistance = LEAST_HEAD_DISTANCE * placing.standardUncertainty;
  if (distance === 0 || distance < neededDistance) {
    return failure({ kind: 'heads-too-close', distance, neededDistance });
  }
  const below = stationOf(proximal, { from: heads[0], to: heads[1] }).across < 0 ? -1 : 1;
  return success(
    measureLength(
      (points) =>
        below *
        stationOf(points[2] as PlanePoint, { from: points[0] as PlanePoint, to: points[1] as PlanePoint })
          .across,
      [{ points: [...heads, head], placing, source: 'placing the heads' }],
      scale,
    ),
  );
}

/** Distance below the head line here, less the normal one: the other hand's, or a published one with its SD. */
export const shorteningByHeadLine = (injured: Measured, normal: Measured): Measured =>
  combineIndependent(
    ([here = 0, there = 0]) => here - there,
    [
      { label: 'this hand', result: injured },
      { label: 'normal', result: normal },
    ],
  );

/**
 * Overlap of a spiral or oblique fracture: how far the proximal fragment's tip reaches past the distal
 * fragment's, along an axis run from proximal to distal. Negative when there is a gap between the tips.
 *
 * Leaves out: the tips were not opposite one another before the break, so that an overlap is a shortening only
 * for points that once lay together.
 */
export function overlapAlong(
  axis: Segment,
  tips: { readonly proximalFragment: PlanePoint; readonly distalFragment: PlanePoint },
  placing: PlacingError,
  scale: LengthScale,
): Result<LengthReading, ShorteningFailure> {
  if (axisLength(axis) === 0) return failure({ kind: 'points-coincide' });
  return success(
    measureLength(
      (points) => {
        const along = { from: points[0] as PlanePoint, to: points[1] as PlanePoint };
        return (
          stationOf(points[2] as PlanePoint, along).along - stationOf(points[3] as PlanePoint, along).along
        );
      },
      [
        {
          points: [axis.from, axis.to, tips.proximalFragment, tips.distalFragment],
          placing,
          source: 'placing the tips and the axis',
        },
      ],
      scale,
    ),
  );
}
