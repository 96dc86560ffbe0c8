/**
 * Smallest change between two readings that is more than their uncertainties explain, 19 times in 20:
 * 1.96 · √(u₁² + u₂²), in the unit of the readings.
 *
 * What the two readings share, such as a published normal subtracted from both, cancels in the change and must
 * not be in `first` and `second`.
 *
 * @param first - Standard uncertainty of the first reading (k = 1), without the shared part.
 * @param second - The same for the second.
 */
export const smallestDetectableChange = (first: number, second: number): number =>
  1.96 * Math.hypot(first, second);
