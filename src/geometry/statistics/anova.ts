import { fProbability } from '../distributions.ts';
import { type Result, success } from '../result.ts';
import { checkedTable, meanOf, type RatingTable, squaresAboutMean, type TableFailure } from './table.ts';

/** One line of an analysis of variance. */
interface AnovaLine {
  readonly squares: number;
  readonly degreesOfFreedom: number;
  readonly meanSquare: number;
}

export interface Anova {
  readonly subjects: number;
  readonly raters: number;
  readonly between: AnovaLine;
  /** One-way: everything within subjects. */
  readonly within: AnovaLine;
  /** Two-way: the within part, split into raters and residual. */
  readonly judges: AnovaLine;
  readonly residual: AnovaLine;
  readonly total: Omit<AnovaLine, 'meanSquare'>;
  /** Between over within, and the probability of at least that ratio when subjects do not differ. */
  readonly oneWay: { readonly ratio: number; readonly probability: number };
  /** Between over residual. */
  readonly twoWay: { readonly ratio: number; readonly probability: number };
}

/**
 * Analysis of variance of a complete table, one-way by subject and two-way by subject and rater without
 * replication, as ICC needs it.
 *
 * @see Shrout PE, Fleiss JL. Psychol Bull 1979;86:420–428, table 1.
 */
export function anova(rows: RatingTable): Result<Anova, TableFailure> {
  const size = checkedTable(rows);
  if (!size.ok) return size;
  const { subjects: n, raters: k } = size.value;
  const column = (index: number) => rows.map((row) => row[index] as number);
  const between = line(k * squaresAboutMean(rows.map(meanOf)), n - 1);
  const within = line(
    rows.reduce((sum, row) => sum + squaresAboutMean(row), 0),
    n * (k - 1),
  );
  const judges = line(
    n * squaresAboutMean(Array.from({ length: k }, (_, index) => meanOf(column(index)))),
    k - 1,
  );
  const residual = line(residualSquares(rows), (n - 1) * (k - 1));
  const ratio = (below: AnovaLine) => {
    const value = between.meanSquare / below.meanSquare;
    const probability = 1 - fProbability(value, between.degreesOfFreedom, below.degreesOfFreedom);
    return { ratio: value, probability };
  };
  return success({
    subjects: n,
    raters: k,
    between,
    within,
    judges,
    residual,
    total: { squares: squaresAboutMean(rows.flat()), degreesOfFreedom: n * k - 1 },
    oneWay: ratio(within),
    twoWay: ratio(residual),
  });
}

const line = (squares: number, degreesOfFreedom: number): AnovaLine => ({
  squares,
  degreesOfFreedom,
  meanSquare: squares / degreesOfFreedom,
});

/** Summed cell by cell: as a difference of sums of squares a perfect agreement would not come out as 0. */
function residualSquares(rows: RatingTable): number {
  const grand = meanOf(rows.flat());
  const columnMeans = (rows[0] ?? []).map((_, index) => meanOf(rows.map((row) => row[index] as number)));
  return rows.reduce((sum, row) => {
    const mean = meanOf(row);
    return row.reduce(
      (inner, value, index) => inner + (value - mean - (columnMeans[index] ?? 0) + grand) ** 2,
      sum,
    );
  }, 0);
}
