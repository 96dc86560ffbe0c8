import type { Belief, FragmentCalibration } from './calibration.ts';
import type { Hypothesis } from './hypothesis.ts';
import { type Bell, sharesOf } from './mixture.ts';

/** Variance of a hypothesis's direction if it is the right one, rad², before the belief's factor. */
const varianceOf = (hypothesis: Hypothesis, calibration: FragmentCalibration): number =>
  calibration.directionError ** 2 +
  calibration.placeError ** 2 * hypothesis.leverVariance +
  calibration.unevenFactor ** 2 * hypothesis.unevenVariance +
  calibration.tapFactor ** 2 * hypothesis.tapVariance;

export const scoreOf = (hypothesis: Hypothesis, { weights }: FragmentCalibration): number =>
  weights.reduce((sum, weight, i) => sum + weight * (hypothesis.features[i] ?? 0), 0);

/** A fragment's accounts with their shares of belief, the likeliest first. */
export interface Weighed {
  readonly hypothesis: Hypothesis;
  readonly bell: Bell;
}

/**
 * Weighs the accounts of one fragment against one another. Directions are given as turns from `reference`, so
 * that none lies across the cut of the circle.
 */
export function weigh(
  hypotheses: readonly Hypothesis[],
  calibration: FragmentCalibration,
  { sharpness, errorFactor }: Omit<Belief, 'mass'>,
  reference: number,
): Weighed[] {
  const shares = sharesOf(hypotheses.map((hypothesis) => sharpness * scoreOf(hypothesis, calibration)));
  return hypotheses
    .map((hypothesis, i) => ({
      hypothesis,
      bell: {
        share: shares[i] ?? 0,
        mean: wrapped(hypothesis.direction - reference),
        variance: errorFactor ** 2 * varianceOf(hypothesis, calibration),
      },
    }))
    .sort((p, q) => q.bell.share - p.bell.share);
}

/** Into (−π, π]. */
export const wrapped = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle));
