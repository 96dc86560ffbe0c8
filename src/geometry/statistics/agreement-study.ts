import type { Result } from '../result.ts';
import { type Agreement, type AgreementFailure, limitsOfAgreement } from './bland-altman.ts';
import { type IccFailure, type IntraclassCorrelations, intraclassCorrelations } from './icc.ts';
import {
  type ProportionalDifference,
  type ProportionFailure,
  proportionalDifference,
} from './proportional-difference.ts';
import { type RegressionFailure, regression, type StraightLine } from './regression.ts';
import { type Repeatability, type RepeatabilityFailure, repeatability } from './repeatability.ts';

/** One reading: what was measured, who or which method measured it, and what came out. */
export interface RatedReading {
  readonly subject: string;
  /** A label, never a name. The same rater may read a subject again: the order of the readings is their order in time. */
  readonly rater: string;
  /** Finite; all readings in one unit. */
  readonly value: number;
}

/** What is compared: a rater's first readings, or, where there is one rater only, each round of repeats. */
export interface StudyColumn {
  readonly label: string;
  /** One for each of the study's subjects, in their order; null: not measured. */
  readonly values: readonly (number | null)[];
}

export interface PairAgreement {
  readonly first: string;
  readonly second: string;
  /** Subjects that both measured, in the order of `limits.points`. */
  readonly subjects: readonly string[];
  readonly limits: Result<Agreement, AgreementFailure>;
  /** Of the difference on the mean of the two: does the disagreement grow with the reading? */
  readonly trend: Result<StraightLine, RegressionFailure>;
  /** Of the second on the first, with errors in both. */
  readonly proportion: Result<ProportionalDifference, ProportionFailure>;
}

export interface AgreementStudy {
  /** In the order in which they first appear. */
  readonly subjects: readonly string[];
  readonly raters: readonly string[];
  readonly columns: readonly StudyColumn[];
  /** Subjects that every column has a value for: the correlations rest on these alone. */
  readonly complete: readonly string[];
  readonly correlations: Result<IntraclassCorrelations, IccFailure>;
  /** Spread of the columns about each subject's mean, systematic differences between them included. */
  readonly acrossColumns: Result<Repeatability, RepeatabilityFailure>;
  /** Of each rater who read some subject twice or more, and of all of them pooled. */
  readonly repeats: readonly {
    readonly rater: string;
    readonly found: Result<Repeatability, RepeatabilityFailure>;
  }[];
  readonly pooledRepeats: Result<Repeatability, RepeatabilityFailure>;
  /** Every two columns, in order. */
  readonly pairs: readonly PairAgreement[];
}

/**
 * Agreement of raters, of methods, or of one rater with himself, from readings in any order.
 *
 * Correlations and limits of agreement describe **one** reading, so they use each rater's first of a subject; means
 * of repeats would look better than a reading is. With a single rater, his rounds stand for the raters. Repeatability
 * uses every repeat.
 *
 * Each part that the readings cannot give is a failure of its own, so that the rest is still shown.
 *
 * @see docs/measurements/agreement.md for the formulas and their sources.
 */
export function agreementStudy(readings: readonly RatedReading[]): AgreementStudy {
  const subjects = [...new Set(readings.map(({ subject }) => subject))];
  const raters = [...new Set(readings.map(({ rater }) => rater))];
  const of = (rater: string, subject: string): readonly number[] =>
    readings.flatMap((reading) =>
      reading.rater === rater && reading.subject === subject ? [reading.value] : [],
    );
  const columns = studyColumns(subjects, raters, of);
  const rows = subjects.map((_, row) => columns.map(({ values }) => values[row] ?? null));
  const whole = rows.flatMap((row, index) =>
    row.every((value) => value !== null)
      ? [{ subject: subjects[index] as string, row: row as number[] }]
      : [],
  );
  const repeatsOf = (rater: string) => subjects.map((subject) => of(rater, subject));
  const repeats = raters
    .filter((rater) => repeatsOf(rater).some((values) => values.length > 1))
    .map((rater) => ({ rater, found: repeatability(repeatsOf(rater)) }));
  const ownRepeats = ({ label }: StudyColumn): Repeatability | null => {
    const own = repeats.find(({ rater }) => rater === label)?.found;
    return own?.ok ? own.value : null;
  };
  return {
    subjects,
    raters,
    columns,
    complete: whole.map(({ subject }) => subject),
    correlations: intraclassCorrelations(whole.map(({ row }) => row)),
    acrossColumns: repeatability(rows.map((row) => row.filter((value) => value !== null))),
    repeats,
    pooledRepeats: repeatability(raters.flatMap(repeatsOf)),
    pairs: columns.flatMap((first, index) =>
      columns
        .slice(index + 1)
        .map((second) =>
          pairAgreement(
            subjects,
            first,
            second,
            raters.length === 1 ? 'one-rater' : [ownRepeats(first), ownRepeats(second)],
          ),
        ),
    ),
  };
}

function studyColumns(
  subjects: readonly string[],
  raters: readonly string[],
  of: (rater: string, subject: string) => readonly number[],
): readonly StudyColumn[] {
  const [only] = raters;
  if (only === undefined || raters.length > 1) {
    return raters.map((rater) => ({
      label: rater,
      values: subjects.map((subject) => of(rater, subject)[0] ?? null),
    }));
  }
  const rounds = Math.max(...subjects.map((subject) => of(only, subject).length));
  return Array.from({ length: rounds }, (_, round) => ({
    label: `${only}, round ${round + 1}`,
    values: subjects.map((subject) => of(only, subject)[round] ?? null),
  }));
}

function pairAgreement(
  subjects: readonly string[],
  first: StudyColumn,
  second: StudyColumn,
  repeats: Parameters<typeof proportionalDifference>[1],
): PairAgreement {
  const both = subjects.flatMap((subject, row) => {
    const [one, other] = [first.values[row] ?? null, second.values[row] ?? null];
    return one === null || other === null ? [] : [{ subject, pair: [one, other] as const }];
  });
  return {
    first: first.label,
    second: second.label,
    subjects: both.map(({ subject }) => subject),
    limits: limitsOfAgreement(both.map(({ pair }) => pair)),
    trend: regression(both.map(({ pair: [one, other] }) => ({ x: (one + other) / 2, y: one - other }))),
    proportion: proportionalDifference(
      both.map(({ pair }) => pair),
      repeats,
    ),
  };
}

export interface ErrorsAgainstTruth {
  readonly rater: string;
  /** Readings of subjects whose truth is known. */
  readonly readings: number;
  /** Root of the mean squared error. */
  readonly rms: number;
  /** Limits of reading − truth, all of the rater's readings counted; `points` hold mean and error. */
  readonly limits: Result<Agreement, AgreementFailure>;
}

/** How far each rater's readings lie from what is true, on the subjects of which that is known. */
export function errorsAgainstTruth(
  readings: readonly RatedReading[],
  truth: ReadonlyMap<string, number>,
): readonly ErrorsAgainstTruth[] {
  return [...new Set(readings.map(({ rater }) => rater))].flatMap((rater) => {
    const pairs = readings.flatMap((reading) => {
      const known = reading.rater === rater ? truth.get(reading.subject) : undefined;
      return known === undefined ? [] : [[reading.value, known] as const];
    });
    if (pairs.length === 0) return [];
    const squares = pairs.reduce((sum, [value, known]) => sum + (value - known) ** 2, 0);
    return [
      {
        rater,
        readings: pairs.length,
        rms: Math.sqrt(squares / pairs.length),
        limits: limitsOfAgreement(pairs),
      },
    ];
  });
}
