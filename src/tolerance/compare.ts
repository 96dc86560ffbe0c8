import { studentProbability, studentQuantile } from '../geometry/distributions.ts';
import type { Band } from './limit-set.ts';

/** The four words for a reading against a limit; there are no others. */
export type Outcome = 'inside the limit' | 'cannot tell' | 'past the limit' | 'no limit on file';

/** A value with its standard uncertainty (k = 1), both in the unit of the band it is compared with. */
export interface Estimate {
  readonly value: number;
  /** Zero or more. */
  readonly standardUncertainty: number;
  /** Effective degrees of freedom, above 0; Infinity when every source is of known variance. */
  readonly degreesOfFreedom: number;
}

export interface Judgement {
  readonly outcome: Exclude<Outcome, 'no limit on file'>;
  /** Probability that the value lies above the upper end of the band. */
  readonly probabilityPast: number;
  /** Probability that the value lies above the lower end of the band: one less this is "inside". */
  readonly probabilityAboveLower: number;
}

export interface NoLimit {
  readonly outcome: 'no limit on file';
  readonly probabilityPast: null;
  readonly probabilityAboveLower: null;
}

/** One-sided certainty asked for; the two-sided 95 % interval then decides just the same. */
const CERTAINTY = 0.975;

/**
 * A value against a limit band.
 *
 *     P(v > hi) ≥ 0.975 → past;   P(v > lo) ≤ 0.025 → inside;   else cannot tell
 *
 * P is that of Student's t about the value (the normal distribution with infinite degrees of freedom), so
 * the rule says the same as the 95 % interval shown beside it: past when the whole interval lies at or above
 * `hi`, inside when all of it lies at or below `lo`, and "cannot tell" exactly when it straddles the band. A
 * value between `lo` and `hi` is therefore never certain, however well measured: there opinion itself
 * differs. A larger value never improves the outcome; a wider interval never makes it certain.
 *
 * With no uncertainty at all the bounds themselves belong to the accepted side.
 *
 * @param band - Null: no limit on file.
 *
 * Throws a RangeError for a value that is not finite, an uncertainty below zero or degrees of freedom not
 * above zero.
 */
export function compare(estimate: Estimate, band: Band): Judgement;
export function compare(estimate: Estimate, band: Band | null): Judgement | NoLimit;
export function compare(estimate: Estimate, band: Band | null): Judgement | NoLimit {
  const { value, standardUncertainty, degreesOfFreedom } = estimate;
  if (!Number.isFinite(value)) throw new RangeError(`value: ${value}`);
  if (!(standardUncertainty >= 0 && Number.isFinite(standardUncertainty)))
    throw new RangeError(`standard uncertainty: ${standardUncertainty}`);
  if (!(degreesOfFreedom > 0)) throw new RangeError(`degrees of freedom: ${degreesOfFreedom}`);
  if (band === null)
    return { outcome: 'no limit on file', probabilityPast: null, probabilityAboveLower: null };

  const aboveUpper = standardised(value - band.hi, standardUncertainty);
  const aboveLower = standardised(value - band.lo, standardUncertainty);
  // Decided on the t scale, not on P: the distribution function is good to 1e-7 only and could waver there.
  const coverage = studentQuantile(CERTAINTY, degreesOfFreedom);
  return {
    outcome:
      aboveUpper >= coverage
        ? 'past the limit'
        : aboveLower <= -coverage
          ? 'inside the limit'
          : 'cannot tell',
    probabilityPast: probabilityOf(aboveUpper, degreesOfFreedom),
    probabilityAboveLower: probabilityOf(aboveLower, degreesOfFreedom),
  };
}

/** Distance in standard uncertainties; without uncertainty certain on either side, the bound included below. */
function standardised(distance: number, standardUncertainty: number): number {
  if (standardUncertainty > 0) return distance / standardUncertainty;
  return distance > 0 ? Number.POSITIVE_INFINITY : Number.NEGATIVE_INFINITY;
}

const probabilityOf = (distance: number, degreesOfFreedom: number): number =>
  Number.isFinite(distance) ? studentProbability(distance, degreesOfFreedom) : distance > 0 ? 1 : 0;
