import { failure, type Result, success } from '../result.ts';
import { meanOf, squaresAboutMean } from './table.ts';

/** Two coordinates of one thing, each with its own standard uncertainty; the two errors are independent. */
export interface UncertainPair {
  readonly x: number;
  readonly y: number;
  /** In the unit of x, 0 or more; not 0 together with that of y. */
  readonly xUncertainty: number;
  readonly yUncertainty: number;
}

export interface LineWithErrors {
  readonly intercept: number;
  readonly slope: number;
  /** From the stated uncertainties alone, whatever the points' scatter about the line. */
  readonly interceptStandardError: number;
  readonly slopeStandardError: number;
  /** Weighted squares about the line; near `degreesOfFreedom` where the stated uncertainties explain the scatter. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
}

export type LineWithErrorsFailure =
  | { readonly kind: 'too-few-points'; readonly found: number; readonly needed: number }
  | { readonly kind: 'no-spread' }
  /** The points lie as if thrown into a heap: no line fits them better than any other. */
  | { readonly kind: 'no-single-line' };

const MOST_STEPS = 500;
const SETTLED = 1e-15;

/**
 * The straight line through points whose coordinates both carry an error, by York's iteration.
 *
 *     W = 1 / (u(y)² + b² u(x)²)        β = W (U u(y)² + b V u(x)²)        b = Σ W β V / Σ W β U
 *     a = Ȳ − b X̄                       u(b)² = 1 / Σ W (x̂ − x̄)²           u(a)² = 1 / Σ W + x̄² u(b)²
 *
 * with X̄ and Ȳ the means weighted by W, U = x − X̄, V = y − Ȳ, and x̂ = X̄ + β the place on the line where a point
 * belongs. With one uncertainty for all coordinates it is the line of least squared distances; with none for x the
 * ordinary one of y on x.
 *
 * Fails with `too-few-points` below three, `no-spread` when all x or all y are equal, and `no-single-line`.
 *
 * @see York D, Evensen NM, Martínez ML, De Basabe Delgado J. Am J Phys 2004;72:367–375, equations 13, without the
 *   correlation of the two errors of a point.
 */
export function lineWithErrors(
  points: readonly UncertainPair[],
): Result<LineWithErrors, LineWithErrorsFailure> {
  const count = points.length;
  if (count < 3) return failure({ kind: 'too-few-points', found: count, needed: 3 });
  const xs = points.map(({ x }) => x);
  const ys = points.map(({ y }) => y);
  const [sxx, syy] = [squaresAboutMean(xs), squaresAboutMean(ys)];
  if (sxx === 0 || syy === 0) return failure({ kind: 'no-spread' });
  const [meanX, meanY] = [meanOf(xs), meanOf(ys)];
  const sxy = points.reduce((sum, { x, y }) => sum + (x - meanX) * (y - meanY), 0);
  // Between the two ordinary lines, of y on x and of x on y; the answer lies there too.
  let slope = Math.sign(sxy) * Math.sqrt(syy / sxx);
  for (let step = 0; step < MOST_STEPS && slope !== 0 && Number.isFinite(slope); step += 1) {
    const { weights, placed, centre } = placedOn(points, slope);
    const parts = points.reduce(
      ({ above, below }, { x, y }, index) => {
        const pull = (weights[index] as number) * (placed[index] as number);
        return { above: above + pull * (y - centre.y), below: below + pull * (x - centre.x) };
      },
      { above: 0, below: 0 },
    );
    const next = parts.above / parts.below;
    if (Math.abs(next - slope) <= SETTLED * Math.abs(next)) return success(lineOf(points, next));
    slope = next;
  }
  return failure({ kind: 'no-single-line' });
}

/** Weights W, weighted centre and the β of each point for a slope. */
function placedOn(points: readonly UncertainPair[], slope: number) {
  const variances = points.map(({ xUncertainty, yUncertainty }) => ({
    x: xUncertainty ** 2,
    y: yUncertainty ** 2,
  }));
  const weights = variances.map(({ x, y }) => 1 / (y + slope ** 2 * x));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const weighted = (values: readonly number[]) =>
    values.reduce((sum, value, index) => sum + (weights[index] as number) * value, 0) / total;
  const centre = { x: weighted(points.map(({ x }) => x)), y: weighted(points.map(({ y }) => y)) };
  const placed = points.map(({ x, y }, index) => {
    const variance = variances[index] as { readonly x: number; readonly y: number };
    return (weights[index] as number) * ((x - centre.x) * variance.y + slope * (y - centre.y) * variance.x);
  });
  return { weights, total, weighted, centre, placed };
}

function lineOf(points: readonly UncertainPair[], slope: number): LineWithErrors {
  const { weights, total, weighted, centre, placed } = placedOn(points, slope);
  const meanPlaced = weighted(placed);
  const squares = placed.reduce(
    (sum, place, index) => sum + (weights[index] as number) * (place - meanPlaced) ** 2,
    0,
  );
  const slopeVariance = 1 / squares;
  return {
    slope,
    intercept: centre.y - slope * centre.x,
    slopeStandardError: Math.sqrt(slopeVariance),
    interceptStandardError: Math.sqrt(1 / total + (centre.x + meanPlaced) ** 2 * slopeVariance),
    chiSquare: points.reduce(
      (sum, { x, y }, index) =>
        sum + (weights[index] as number) * (y - centre.y - slope * (x - centre.x)) ** 2,
      0,
    ),
    degreesOfFreedom: points.length - 2,
  };
}
