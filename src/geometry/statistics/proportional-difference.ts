import { studentQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import type { Interval } from './icc.ts';
import { lineWithErrors } from './line-with-errors.ts';
import type { Repeatability } from './repeatability.ts';

export interface ProportionalDifference {
  /** How much more the second reads where the first reads 1 more; 1: no proportional difference. */
  readonly slope: number;
  /** 95 % confidence limits. */
  readonly interval: Interval;
  readonly intercept: number;
  readonly pairs: number;
  /** What the errors of the two were taken to be: alike for want of repeats or as one rater's, or as their repeats are. */
  readonly errors: 'alike' | 'of one rater' | 'from repeats';
}

export type ProportionFailure =
  | { readonly kind: 'too-few-pairs'; readonly found: number; readonly needed: number }
  | { readonly kind: 'no-spread' }
  /** The limits of the slope reach 0 or below: the errors drown what the subjects differ by. */
  | { readonly kind: 'not-told' };

/** With fewer, the ratio of two spreads says less than taking them as alike does. */
const ENOUGH_DEGREES_OF_FREEDOM = 10;

/**
 * Whether the second of two raters or methods reads proportionally higher than the first: the slope of the line
 * through their readings with errors in both.
 *
 * Only the ratio of the two errors matters. It is that of the within-subject SDs where both repeated themselves
 * with 10 degrees of freedom or more; else both are taken as alike. The interval comes from the points' own scatter
 * about the line: slope ± t · u(slope) · √(χ² / (n − 2)), t with n − 2 degrees of freedom.
 *
 * @param pairs - One reading of each per subject; finite.
 * @param repeats - Of the first and of the second; null: not repeated. `one-rater`: both are rounds of one.
 *
 * Fails with `too-few-pairs` below three, `no-spread` when one of the two read all subjects alike, and `not-told`.
 *
 * @see Linnet K. Evaluation of regression procedures for methods comparison studies. Clin Chem 1993;39:424–432.
 */
export function proportionalDifference(
  pairs: readonly (readonly [first: number, second: number])[],
  repeats: readonly [first: Repeatability | null, second: Repeatability | null] | 'one-rater',
): Result<ProportionalDifference, ProportionFailure> {
  const [first, second] = repeats === 'one-rater' ? [null, null] : repeats;
  const told =
    first !== null &&
    second !== null &&
    Math.min(first.degreesOfFreedom, second.degreesOfFreedom) >= ENOUGH_DEGREES_OF_FREEDOM &&
    Math.max(first.withinSubjectSd, second.withinSubjectSd) > 0;
  const [xUncertainty, yUncertainty] = told ? [first.withinSubjectSd, second.withinSubjectSd] : [1, 1];
  const line = lineWithErrors(pairs.map(([x, y]) => ({ x, y, xUncertainty, yUncertainty })));
  if (!line.ok) {
    switch (line.error.kind) {
      case 'too-few-points':
        return failure({ ...line.error, kind: 'too-few-pairs' });
      case 'no-spread':
        return failure(line.error);
      case 'no-single-line':
        return failure({ kind: 'not-told' });
    }
  }
  const { slope, intercept, slopeStandardError, chiSquare, degreesOfFreedom } = line.value;
  const reach =
    studentQuantile(0.975, degreesOfFreedom) * slopeStandardError * Math.sqrt(chiSquare / degreesOfFreedom);
  const interval = { low: slope - reach, high: slope + reach };
  if (interval.low <= 0) return failure({ kind: 'not-told' });
  return success({
    slope,
    interval,
    intercept,
    pairs: pairs.length,
    errors: repeats === 'one-rater' ? 'of one rater' : told ? 'from repeats' : 'alike',
  });
}

/**
 * Says whether the second reads proportionally higher or lower, by how much and what that rests on, or why it cannot
 * be told.
 *
 * @param unit - Put behind each number: `°`, or nothing where the unit is not known.
 */
export function proportionSentence(
  found: Result<ProportionalDifference, ProportionFailure>,
  first: string,
  second: string,
  unit: '°' | '',
): string {
  if (!found.ok) return failureSentence(found.error, first, second);
  const { slope, interval, errors } = found.value;
  const number = (value: number) => `${value.toFixed(2)}${unit}`;
  const verdict =
    interval.low > 1
      ? `${second} reads proportionally higher`
      : interval.high < 1
        ? `${second} reads proportionally lower`
        : 'no proportional difference seen';
  return `Where ${first} reads 1${unit} more, ${second} reads ${number(slope)} more (95 % limits ${number(interval.low)} to ${number(interval.high)}): ${verdict}. ${RESTS_ON[errors]}`;
}

const RESTS_ON: Readonly<Record<ProportionalDifference['errors'], string>> = {
  alike: 'The errors of both are taken as alike, since there are too few repeats of both to tell them apart.',
  'of one rater': 'Both are by one rater, so their errors are taken as alike.',
  'from repeats': 'The errors of both are taken from their own repeats.',
};

function failureSentence(error: ProportionFailure, first: string, second: string): string {
  const start = `Whether ${second} reads proportionally higher than ${first} cannot be told:`;
  switch (error.kind) {
    case 'too-few-pairs':
      return `${start} ${error.found} read by both, and a line needs ${error.needed}. Measure more.`;
    case 'no-spread':
      return `${start} one of the two read everything alike. Add what differs more.`;
    case 'not-told':
      return `${start} what was read differs too little for the errors of reading. Add what differs more.`;
  }
}
