import { chiSquareQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import type { Interval } from './icc.ts';
import { squaresAboutMean } from './table.ts';

export interface Repeatability {
  /** s_w, in the unit of the readings. */
  readonly withinSubjectSd: number;
  /** 95 % confidence limits of s_w, exact for normally distributed errors. */
  readonly limits: Interval;
  readonly degreesOfFreedom: number;
  /** 2.77 s_w: two readings of one subject differ by less than this 19 times in 20. */
  readonly repeatability: number;
}

export interface RepeatabilityFailure {
  readonly kind: 'no-repeats';
}

/** 1.96 · √2, printed as 2.77. */
const REPEATABILITY_FACTOR = 1.96 * Math.SQRT2;

/**
 * Within-subject standard deviation and repeatability, from subjects each measured twice or more by one rater.
 *
 *     s_w² = Σ over subjects Σ (x − x̄)² / Σ (m − 1)        repeatability = 1.96 √2 s_w
 *
 * Subjects may have different numbers of repeats; one with a single reading adds nothing. Assumes that the
 * error does not grow with the reading; a plot of SD against mean shows whether it does.
 *
 * @see Bland JM, Altman DG. Measurement error. BMJ 1996;313:744.
 */
export function repeatability(
  subjects: readonly (readonly number[])[],
): Result<Repeatability, RepeatabilityFailure> {
  const repeated = subjects.filter((readings) => readings.length > 1);
  const degreesOfFreedom = repeated.reduce((sum, readings) => sum + readings.length - 1, 0);
  if (degreesOfFreedom === 0) return failure({ kind: 'no-repeats' });
  const squares = repeated.reduce((sum, readings) => sum + squaresAboutMean(readings), 0);
  const withinSubjectSd = Math.sqrt(squares / degreesOfFreedom);
  return success({
    withinSubjectSd,
    limits: {
      low: Math.sqrt(squares / chiSquareQuantile(0.975, degreesOfFreedom)),
      high: Math.sqrt(squares / chiSquareQuantile(0.025, degreesOfFreedom)),
    },
    degreesOfFreedom,
    repeatability: REPEATABILITY_FACTOR * withinSubjectSd,
  });
}
