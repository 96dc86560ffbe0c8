import { coverageFactor } from '../distributions.ts';
import type { Measured } from '../propagate.ts';

type Spread = Pick<Measured, 'standardUncertainty' | 'degreesOfFreedom'>;

/** As the trade prints it; the quantile itself is 1.95996. */
const Z = 1.96;

/**
 * Smallest change between two readings that is more than their uncertainties explain, 19 times in 20, in the unit of
 * the readings.
 *
 *     t · √(u₁² + u₂²)        ν = (u₁² + u₂²)² / (u₁² / √ν₁ + u₂² / √ν₂)²
 *
 * t is Student's for ν degrees of freedom: 1.96 where the spread of placing is taken as known, more where it comes from
 * a few repeats. Both readings are by one placing error, so its degrees of freedom are counted once for both.
 *
 * What the two readings share, such as a published normal subtracted from both, cancels in the change and must
 * not be in `first` and `second`.
 *
 * @param first - Standard uncertainty (k = 1) of the first reading without the shared part, and its degrees of freedom.
 * @param second - The same for the second.
 *
 * @see JCGM 100:2008, G.4.1, with the two contributions of one estimate as one; docs/decisions/0014.
 */
export function smallestDetectableChange(first: Spread, second: Spread): number {
  const variances = [first, second].map(({ standardUncertainty, degreesOfFreedom }) => ({
    whole: standardUncertainty ** 2,
    ofEstimate: standardUncertainty ** 2 / Math.sqrt(degreesOfFreedom),
  }));
  const whole = variances.reduce((sum, variance) => sum + variance.whole, 0);
  const ofEstimate = variances.reduce((sum, variance) => sum + variance.ofEstimate, 0);
  const factor = ofEstimate === 0 ? Z : coverageFactor((whole / ofEstimate) ** 2);
  return Math.max(Z, factor) * Math.sqrt(whole);
}
