import { studentProbability } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import { meanOf, squaresAboutMean } from './table.ts';

export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptStandardError: number;
  readonly slopeStandardError: number;
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a slope at least this far from 0 when there is none. */
  readonly slopeProbability: number;
}

export type RegressionFailure =
  | { readonly kind: 'too-few-points'; readonly found: number; readonly needed: number }
  | { readonly kind: 'no-spread' };

/**
 * Ordinary least squares of y on x, as for the trend of the differences in an agreement plot. For an axis
 * through points use `fitLine`, which privileges neither coordinate.
 *
 * Fails with `too-few-points` below three and `no-spread` when all x are equal.
 */
export function regression(
  points: readonly { readonly x: number; readonly y: number }[],
): Result<StraightLine, RegressionFailure> {
  const count = points.length;
  if (count < 3) return failure({ kind: 'too-few-points', found: count, needed: 3 });
  const xs = points.map(({ x }) => x);
  const meanX = meanOf(xs);
  const meanY = meanOf(points.map(({ y }) => y));
  const sxx = squaresAboutMean(xs);
  if (sxx === 0) return failure({ kind: 'no-spread' });
  const sxy = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0);
  const slope = sxy / sxx;
  const intercept = meanY - slope * meanX;
  const degreesOfFreedom = count - 2;
  // From the centred values: y − a − b x would lose digits where the mean is far from 0.
  const squares = points.reduce((sum, { x, y }) => sum + (y - meanY - slope * (x - meanX)) ** 2, 0);
  const residualSd = Math.sqrt(squares / degreesOfFreedom);
  const slopeStandardError = residualSd / Math.sqrt(sxx);
  return success({
    intercept,
    slope,
    interceptStandardError: residualSd * Math.sqrt(1 / count + meanX ** 2 / sxx),
    slopeStandardError,
    residualSd,
    degreesOfFreedom,
    slopeProbability:
      residualSd === 0
        ? Number(slope === 0)
        : 2 * studentProbability(-Math.abs(slope / slopeStandardError), degreesOfFreedom),
  });
}
