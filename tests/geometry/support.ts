import fc from 'fast-check';
import type { AxisPoints } from '../../src/geometry/constructions.ts';
import type { PlacingError } from '../../src/geometry/placing.ts';
import type { Result } from '../../src/geometry/result.ts';
import { type PlanePoint, planePoint } from '../../src/geometry/units.ts';

export const RADIANS = Math.PI / 180;

/** The value of a result; a failure is shown whole. */
export function unwrap<Value, Failure extends { readonly kind: string }>(
  result: Result<Value, Failure>,
): Value {
  if (!result.ok) throw new Error(`Failed with ${JSON.stringify(result.error)}`);
  return result.value;
}

/** The failure of a result. */
export function errorOf<Value, Failure extends { readonly kind: string }>(
  result: Result<Value, Failure>,
): Failure {
  if (result.ok) throw new Error(`Did not fail: ${JSON.stringify(result.value)}`);
  return result.error;
}

export const placed = (standardUncertainty: number, degreesOfFreedom = Infinity): PlacingError => ({
  standardUncertainty,
  basis: { text: 'as the test says', degreesOfFreedom },
});

export const point = ([x, y]: readonly [number, number]): PlanePoint => planePoint(x, y);

/** A free axis of given length from a start point, in a direction clockwise from the x axis. */
export const freeAxis = (
  start: readonly [number, number],
  length: number,
  direction: number,
): Extract<AxisPoints, { construction: 'free' }> => ({
  construction: 'free',
  from: point(start),
  to: planePoint(
    start[0] + length * Math.cos(direction * RADIANS),
    start[1] + length * Math.sin(direction * RADIANS),
  ),
});

/** Finite, in range, without the subnormal numbers that only say something about rounding. */
export const between = (min: number, max: number) =>
  fc.double({ min, max, noNaN: true, noDefaultInfinity: true }).map((x) => (Math.abs(x) < 1e-9 ? 0 : x));

/** Seeded draws from [0, 1): mulberry32. The same numbers on every machine. */
export function uniformDraws(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Seeded normal deviates: Box–Muller. */
export function normalDeviates(seed: number): () => number {
  const uniform = uniformDraws(seed);
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** Mean and standard deviation of repeated draws. */
export function simulate(draws: number, draw: () => number): { readonly mean: number; readonly sd: number } {
  let sum = 0;
  let squares = 0;
  const first = draw();
  for (let i = 1; i < draws; i += 1) {
    const off = draw() - first;
    sum += off;
    squares += off * off;
  }
  const mean = sum / draws;
  return { mean: first + mean, sd: Math.sqrt((squares - draws * mean * mean) / (draws - 1)) };
}
