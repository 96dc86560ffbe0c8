import { studentQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import type { Interval } from './icc.ts';
import { meanOf, sampleSd } from './table.ts';

/** A number with its 95 % confidence interval. */
export interface Bounded {
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

/**
 * Limits of agreement between two methods or raters, one reading of each per subject.
 *
 *     limits = d̄ ± 1.96 s        SE(d̄) = s / √n        SE(limit) = s √(1/n + 1.96² / (2 (n − 1)))
 *
 * Intervals are Bland and Altman's approximation with the t distribution on n − 1 degrees of freedom. They are
 * not the exact ones from the non-central t distribution, which are wider on the outer side and narrower on
 * the inner one; with 20 pairs or fewer the difference shows.
 *
 * Fails with `too-few-pairs` below three, and `gap-in-pairs` with the row, from 0, that is not finite.
 *
 * @see Bland JM, Altman DG. Lancet 1986;i:307–310 (SE ≈ √(3 s²/n)); Stat Methods Med Res 1999;8:135–160.
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
  return success({
    pairs: count,
    meanDifference: bounded(mean, sd / Math.sqrt(count)),
    sd,
    lower: bounded(mean - Z * sd, limitError),
    upper: bounded(mean + Z * sd, limitError),
    points: pairs.map(([first, second]) => ({ mean: (first + second) / 2, difference: first - second })),
  });
}

/** Standard error of a limit of agreement for an SD of 1 and `count` pairs. */
export const limitErrorFactor = (count: number): number => Math.sqrt(1 / count + Z ** 2 / (2 * (count - 1)));
