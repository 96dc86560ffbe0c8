import { fQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import { type Anova, anova } from './anova.ts';
import type { RatingTable, TableFailure } from './table.ts';

export interface Interval {
  readonly low: number;
  readonly high: number;
}

interface Coefficient {
  readonly value: number;
  /** 95 % confidence limits unless another level was asked for. */
  readonly limits: Interval;
}

/** The six intraclass correlation coefficients of Shrout and Fleiss, named as they name them. */
export interface IntraclassCorrelations {
  /** (1,1): each subject measured by different raters; absolute agreement of one reading. */
  readonly oneWaySingle: Coefficient;
  /** (2,1): the same raters, drawn at random; absolute agreement of one reading. */
  readonly randomSingle: Coefficient;
  /** (3,1): these raters and no others; consistency of one reading. */
  readonly fixedSingle: Coefficient;
  /** (1,k), (2,k), (3,k): the same for the mean of the k readings. */
  readonly oneWayMean: Coefficient;
  readonly randomMean: Coefficient;
  readonly fixedMean: Coefficient;
  readonly anova: Anova;
}

export type IccFailure =
  | TableFailure
  | { readonly kind: 'no-spread' }
  /** All subjects have the same mean: there is nothing of which a share could lie between them. */
  | { readonly kind: 'no-between-subject-variance' };

/** A ratio of mean squares below this is rounding of equal means. */
const ROUNDING = 1e-20;

/**
 * Intraclass correlation coefficients with confidence limits.
 *
 *     (1,1) = (B − W) / (B + (k−1) W)                        (1,k) = (B − W) / B
 *     (2,1) = (B − E) / (B + (k−1) E + k (J − E) / n)        (2,k) = (B − E) / (B + (J − E) / n)
 *     (3,1) = (B − E) / (B + (k−1) E)                        (3,k) = (B − E) / B
 *
 * with B, W, J, E the mean squares between subjects, within subjects, between raters (judges), and residual.
 * Limits for (1,·) and (3,·) are exact F limits; for (2,·) they are Shrout and Fleiss's approximation with
 * Satterthwaite's degrees of freedom, the (2,k) limits by Spearman–Brown from those of (2,1). With very few subjects the
 * approximation falls below −1 / (k−1), the least that k raters can correlate; the limit is put there, which for the
 * mean of k is −∞.
 *
 * A coefficient describes these subjects: the same error gives a low one where subjects differ little. Shown
 * with the within-subject SD beside it (`repeatability.ts`).
 *
 * Fails with the table's failures, `no-spread` when all values are the same, and `no-between-subject-variance` when
 * subjects have the same mean and raters differ.
 *
 * @see Shrout PE, Fleiss JL. Intraclass correlations. Psychol Bull 1979;86:420–428.
 */
export function intraclassCorrelations(
  rows: RatingTable,
  level = 0.95,
): Result<IntraclassCorrelations, IccFailure> {
  const table = anova(rows);
  if (!table.ok) return table;
  const { subjects: n, raters: k, between, within, judges, residual } = table.value;
  const b = between.meanSquare;
  const w = within.meanSquare;
  const j = judges.meanSquare;
  const e = residual.meanSquare;
  if (b === 0 && w === 0) return failure({ kind: 'no-spread' });
  if (b < ROUNDING * w) return failure({ kind: 'no-between-subject-variance' });
  const tail = (1 + level) / 2;
  const oneWay = exactLimits(b / w, n - 1, n * (k - 1), tail);
  const fixed = exactLimits(b / e, n - 1, (n - 1) * (k - 1), tail);
  const single = (ratio: number): number =>
    ratio === Number.POSITIVE_INFINITY ? 1 : (ratio - 1) / (ratio + k - 1);
  const mean = (ratio: number): number => 1 - 1 / ratio;
  const both = (limits: Interval, of: (ratio: number) => number): Interval => ({
    low: of(limits.low),
    high: of(limits.high),
  });
  const random = (b - e) / (b + (k - 1) * e + (k * (j - e)) / n);
  const randomLimits = agreementLimits(table.value, random, tail);
  const spearmanBrown = (value: number): number => (k * value) / (1 + (k - 1) * value);
  return success({
    oneWaySingle: { value: (b - w) / (b + (k - 1) * w), limits: both(oneWay, single) },
    randomSingle: { value: random, limits: randomLimits },
    fixedSingle: { value: (b - e) / (b + (k - 1) * e), limits: both(fixed, single) },
    oneWayMean: { value: (b - w) / b, limits: both(oneWay, mean) },
    randomMean: { value: (b - e) / (b + (j - e) / n), limits: both(randomLimits, spearmanBrown) },
    fixedMean: { value: (b - e) / b, limits: both(fixed, mean) },
    anova: table.value,
  });
}

/** Limits of the true ratio of mean squares about an observed one. */
const exactLimits = (ratio: number, above: number, below: number, tail: number): Interval => ({
  low: ratio / fQuantile(tail, above, below),
  high: ratio * fQuantile(tail, below, above),
});

/** Shrout and Fleiss 1979, p. 424–425; McGraw and Wong 1996, table 7. */
function agreementLimits(table: Anova, value: number, tail: number): Interval {
  const { subjects: n, raters: k } = table;
  const b = table.between.meanSquare;
  const j = table.judges.meanSquare;
  const e = table.residual.meanSquare;
  // Perfect consistency: the raters differ by constants, and the F limits collapse onto the value.
  if (e === 0) return { low: value, high: value };
  const ratio = j / e;
  const spread = n * (1 + (k - 1) * value) - k * value;
  const degreesOfFreedom =
    ((k - 1) * (n - 1) * (k * value * ratio + spread) ** 2) /
    ((n - 1) * k ** 2 * value ** 2 * ratio ** 2 + spread ** 2);
  const lowF = fQuantile(tail, n - 1, degreesOfFreedom);
  const highF = fQuantile(tail, degreesOfFreedom, n - 1);
  const common = k * j + (k * n - k - n) * e;
  return {
    low: Math.max(-1 / (k - 1), (n * (b - lowF * e)) / (lowF * common + n * b)),
    high: (n * (highF * b - e)) / (common + n * highF * b),
  };
}
