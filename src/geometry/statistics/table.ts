import { failure, type Result, success } from '../result.ts';

/** Readings by subject (row) and rater or repeat (column). Every row as long as the first. */
export type RatingTable = readonly (readonly number[])[];

export type TableFailure =
  | { readonly kind: 'too-few-subjects'; readonly found: number; readonly needed: number }
  | { readonly kind: 'too-few-raters'; readonly found: number; readonly needed: number }
  /** `row` and `column` count from 0. A subject that a rater left out has to be left out for all. */
  | { readonly kind: 'gap-in-table'; readonly row: number; readonly column: number };

/** Two subjects and two columns or more, no gaps, finite numbers throughout; else what is missing, and where. */
export function checkedTable(
  rows: RatingTable,
): Result<{ readonly subjects: number; readonly raters: number }, TableFailure> {
  const subjects = rows.length;
  const raters = rows[0]?.length ?? 0;
  if (subjects < 2) return failure({ kind: 'too-few-subjects', found: subjects, needed: 2 });
  if (raters < 2) return failure({ kind: 'too-few-raters', found: raters, needed: 2 });
  for (const [row, cells] of rows.entries()) {
    for (let column = 0; column < Math.max(raters, cells.length); column += 1) {
      if (column >= raters || !Number.isFinite(cells[column])) {
        return failure({ kind: 'gap-in-table', row, column });
      }
    }
  }
  return success({ subjects, raters });
}

export const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** Sum of squared deviations from the mean. */
export const squaresAboutMean = (values: readonly number[]): number => {
  const mean = meanOf(values);
  return values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
};

/** Sample standard deviation, n − 1 in the denominator. */
export const sampleSd = (values: readonly number[]): number =>
  Math.sqrt(squaresAboutMean(values) / (values.length - 1));
