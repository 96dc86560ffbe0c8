import type { Calibration } from './calibration.ts';

/** One bell of a mixture; `share`s of a mixture add up to 1. */
export interface Bell {
  readonly share: number;
  readonly mean: number;
  readonly variance: number;
}

/** Shares from scores: the softmax. */
export function sharesOf(scores: readonly number[]): number[] {
  const most = Math.max(...scores);
  const raised = scores.map((score) => Math.exp(score - most));
  const total = raised.reduce((sum, value) => sum + value, 0);
  return raised.map((value) => value / total);
}

/** Density of one bell with its fat tails: a narrow and a wide normal curve of the same middle. */
export function bellDensity(
  x: number,
  { mean, variance }: Omit<Bell, 'share'>,
  tails: Calibration['tails'],
): number {
  const square = (x - mean) ** 2 / variance;
  const root = 1 / Math.sqrt(2 * Math.PI * variance);
  return (
    root *
    ((1 - tails.share) * Math.exp(-square / 2) +
      (tails.share / tails.factor) * Math.exp(-square / (2 * tails.factor * tails.factor)))
  );
}

const STEP = (0.05 * Math.PI) / 180;
const REACH = 4.5;

/**
 * The shortest interval that holds a mass of the mixture, radians. Found on a grid of a twentieth of a degree.
 */
export function shortestInterval(
  bells: readonly Bell[],
  mass: number,
  tails: Calibration['tails'],
): { readonly from: number; readonly to: number } {
  const ends = bells.map(({ mean, variance }) => ({
    from: mean - REACH * tails.factor * Math.sqrt(variance),
    to: mean + REACH * tails.factor * Math.sqrt(variance),
  }));
  const start = Math.floor(Math.min(...ends.map(({ from }) => from)) / STEP);
  const stop = Math.ceil(Math.max(...ends.map(({ to }) => to)) / STEP);
  const sums = new Float64Array(stop - start + 1);
  bells.forEach((bell, b) => {
    const { from, to } = ends[b] ?? { from: 0, to: 0 };
    const first = Math.max(0, Math.floor(from / STEP) - start);
    const last = Math.min(sums.length - 1, Math.ceil(to / STEP) - start);
    for (let i = first; i <= last; i += 1) {
      sums[i]! += bell.share * bellDensity((start + i) * STEP, bell, tails) * STEP;
    }
  });
  for (let i = 1; i < sums.length; i += 1) sums[i]! += sums[i - 1]!;
  const whole = sums.at(-1) ?? 1;
  let best = { from: 0, to: sums.length };
  for (let i = 0, j = 0; i < sums.length; i += 1) {
    const before = i === 0 ? 0 : sums[i - 1]!;
    while (j < sums.length && sums[j]! - before < mass * whole) j += 1;
    if (j >= sums.length) break;
    // Of the last step only as much as is needed.
    const missing = mass * whole - ((j === 0 ? 0 : sums[j - 1]!) - before);
    const to = j + missing / (sums[j]! - (j === 0 ? 0 : sums[j - 1]!));
    if (to - i < best.to - best.from) best = { from: i, to };
  }
  return { from: (start + best.from - 0.5) * STEP, to: (start + best.to - 0.5) * STEP };
}
