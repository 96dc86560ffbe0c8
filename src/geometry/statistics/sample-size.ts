import { normalQuantile } from '../distributions.ts';
import { failure, type Result, success } from '../result.ts';
import { limitErrorFactor } from './bland-altman.ts';

export interface PlanFailure {
  readonly kind: 'out-of-range';
  readonly what: 'expected coefficient' | 'raters' | 'width' | 'half-width';
  readonly found: number;
}

/**
 * Subjects needed for a 95 % interval of a given width about an expected ICC (one-way or two-way).
 *
 *     n = 8 z² (1 − ρ)² (1 + (k − 1) ρ)² / (k (k − 1) w²) + 1
 *
 * rounded up, and 5ρ more for two raters and ρ ≥ 0.7, where the formula falls short.
 *
 * @param expected - ρ, in (0, 1). @param raters - k ≥ 2. @param width - w, full width of the interval, in (0, 1).
 * @see Bonett DG. Stat Med 2002;21:1331–1335.
 */
export function subjectsForIcc(
  expected: number,
  raters: number,
  width: number,
  level = 0.95,
): Result<number, PlanFailure> {
  if (!(expected > 0 && expected < 1)) {
    return failure({ kind: 'out-of-range', what: 'expected coefficient', found: expected });
  }
  if (!(Number.isInteger(raters) && raters >= 2)) {
    return failure({ kind: 'out-of-range', what: 'raters', found: raters });
  }
  if (!(width > 0 && width < 1)) return failure({ kind: 'out-of-range', what: 'width', found: width });
  const z = normalQuantile((1 + level) / 2);
  const spread = (1 - expected) * (1 + (raters - 1) * expected);
  const plain = Math.ceil((8 * z ** 2 * spread ** 2) / (raters * (raters - 1) * width ** 2) + 1);
  return success(raters === 2 && expected >= 0.7 ? Math.ceil(plain + 5 * expected) : plain);
}

const MOST_PAIRS = 1_000_000;

/**
 * Pairs needed for limits of agreement known to a given half-width, 95 % interval.
 *
 *     1.96 · SE(limit) ≤ half-width        SE(limit) as in `limitsOfAgreement`
 *
 * @param halfWidthInSd - Wanted half-width of a limit's interval, as a share of the SD of the differences; > 0.
 * @see Bland JM, Altman DG. Lancet 1986;i:307–310: SE(limit) ≈ s √(3/n).
 */
export function pairsForAgreement(halfWidthInSd: number): Result<number, PlanFailure> {
  // 1.96 √(3/n) = h gives the neighbourhood; from there up, or the smallest number that has limits at all.
  const near = 3 * (1.96 / halfWidthInSd) ** 2;
  if (!(halfWidthInSd > 0) || near > MOST_PAIRS) {
    return failure({ kind: 'out-of-range', what: 'half-width', found: halfWidthInSd });
  }
  let count = Math.max(3, Math.floor(near * 0.9) - 1);
  while (1.96 * limitErrorFactor(count) > halfWidthInSd) count += 1;
  return success(count);
}
