import { chiSquareQuantile, nonCentralStudentQuantile, studentQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import type { Interval } from './icc.ts';
import { meanOf, sampleSd } from './table.ts';

/** A number with its 95 % confidence interval. */
interface Bounded {
  readonly value: number;
  readonly interval: Interval;
  readonly standardError: number;
}

export interface Agreement {
  readonly pairs: number;
  /** Mean of first − second. */
  readonly meanDifference: Bounded;
  /** Standard deviation of the differences. */
  readonly sd: number;
  /** Mean ± 1.96 SD, each with its own interval. */
  readonly lower: Bounded;
  readonly upper: Bounded;
  /** For the plot: mean of the two, and first − second, in the order given. */
  readonly points: readonly { readonly mean: number; readonly difference: number }[];
}

export type AgreementFailure =
  | { readonly kind: 'too-few-pairs'; readonly found: number; readonly needed: number }
  | { readonly kind: 'gap-in-pairs'; readonly row: number };

const Z = 1.96;

/** Up to here the exact interval is within reach of the distribution library. */
const MOST_PAIRS_EXACT = 150;

/**
 * Limits of agreement between two methods or raters, one reading of each per subject.
 *
 *     limits = d̄ ± 1.96 s        SE(d̄) = s / √n        SE(limit) ≈ s √(1/n + 1.96² / (2 (n − 1)))
 *
 * Each limit's interval is the exact one for that limit alone, from the non-central t distribution, up to 150
 * pairs; beyond that Zou's closed form, which is then within 0.01 s of it. Both reach farther outwards than inwards.
 * Bland and Altman's own approximation, limit ± t · SE(limit), reaches equally far both ways and is too short
 * outwards: at 10 pairs it ends at 3.23 s in place of 3.80 s. `standardError` is theirs.
 *
 * Fails with `too-few-pairs` below three, and `gap-in-pairs` with the row, from 0, that is not finite.
 *
 * @see Bland JM, Altman DG. Lancet 1986;i:307–310 and Stat Methods Med Res 1999;8:135–160.
 * @see Carkeet A. Optom Vis Sci 2015;92:e71–e80 (exact). Zou GY. Stat Methods Med Res 2013;22:630–642 (closed form).
 */
export function limitsOfAgreement(
  pairs: readonly (readonly [first: number, second: number])[],
): Result<Agreement, AgreementFailure> {
  const count = pairs.length;
  if (count < 3) return failure({ kind: 'too-few-pairs', found: count, needed: 3 });
  const gap = pairs.findIndex(([first, second]) => !Number.isFinite(first - second));
  if (gap >= 0) return failure({ kind: 'gap-in-pairs', row: gap });
  const differences = pairs.map(([first, second]) => first - second);
  const mean = meanOf(differences);
  const sd = sampleSd(differences);
  const t = studentQuantile(0.975, count - 1);
  const bounded = (value: number, standardError: number): Bounded => ({
    value,
    standardError,
    interval: { low: value - t * standardError, high: value + t * standardError },
  });
  const limitError = sd * limitErrorFactor(count);
  const reach = limitReach(count);
  return success({
    pairs: count,
    meanDifference: bounded(mean, sd / Math.sqrt(count)),
    sd,
    lower: {
      value: mean - Z * sd,
      standardError: limitError,
      interval: { low: mean - reach.outer * sd, high: mean - reach.inner * sd },
    },
    upper: {
      value: mean + Z * sd,
      standardError: limitError,
      interval: { low: mean + reach.inner * sd, high: mean + reach.outer * sd },
    },
    points: pairs.map(([first, second]) => ({ mean: (first + second) / 2, difference: first - second })),
  });
}

/** How many SDs from the mean difference a limit's interval begins and ends. */
function limitReach(count: number): { readonly inner: number; readonly outer: number } {
  const root = Math.sqrt(count);
  if (count <= MOST_PAIRS_EXACT) {
    const quantile = (probability: number) =>
      nonCentralStudentQuantile(probability, count - 1, Z * root) / root;
    return { inner: quantile(0.025), outer: quantile(0.975) };
  }
  const ofMean = studentQuantile(0.975, count - 1) / root;
  const ofSd = (probability: number) =>
    Z * (Math.sqrt((count - 1) / chiSquareQuantile(probability, count - 1)) - 1);
  return {
    inner: Z - Math.hypot(ofMean, ofSd(0.975)),
    outer: Z + Math.hypot(ofMean, ofSd(0.025)),
  };
}

/** Standard error of a limit of agreement for an SD of 1 and `count` pairs. */
export const limitErrorFactor = (count: number): number => Math.sqrt(1 / count + Z ** 2 / (2 * (count - 1)));
