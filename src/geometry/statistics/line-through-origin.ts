import { failure, type Result, success } from '../result.ts';

export interface LineThroughOrigin {
  readonly slope: number;
  readonly slopeStandardError: number;
  /** Spread of y about the line, n − 1 in the denominator. */
  readonly residualSd: number;
  readonly degreesOfFreedom: number;
}

export type LineThroughOriginFailure =
  | { readonly kind: 'too-few-points'; readonly found: number; readonly needed: number }
  | { readonly kind: 'no-spread' };

/**
 * Least squares of y on x by a line that passes through the origin, where nothing of x is nothing of y: the pixels that
 * known lengths cover.
 *
 *     b = Σ x y / Σ x²        s² = Σ (y − b x)² / (n − 1)        u(b) = s / √Σ x²
 *
 * Fails with `too-few-points` below two and `no-spread` when all x are 0.
 */
export function lineThroughOrigin(
  points: readonly { readonly x: number; readonly y: number }[],
): Result<LineThroughOrigin, LineThroughOriginFailure> {
  if (points.length < 2) return failure({ kind: 'too-few-points', found: points.length, needed: 2 });
  const sum = (of: (point: { readonly x: number; readonly y: number }) => number) =>
    points.reduce((total, point) => total + of(point), 0);
  const sxx = sum(({ x }) => x * x);
  if (sxx === 0) return failure({ kind: 'no-spread' });
  const slope = sum(({ x, y }) => x * y) / sxx;
  const degreesOfFreedom = points.length - 1;
  const residualSd = Math.sqrt(sum(({ x, y }) => (y - slope * x) ** 2) / degreesOfFreedom);
  return success({ slope, slopeStandardError: residualSd / Math.sqrt(sxx), residualSd, degreesOfFreedom });
}
