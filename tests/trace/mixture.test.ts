import { describe, expect, it } from 'vitest';
import { sharesOf, shortestInterval } from '../../src/trace/mixture.ts';

const NO_TAILS = { share: 0, factor: 3 };
const RADIANS = Math.PI / 180;
const bell = (share: number, degrees: number, deviation: number) => ({
  share,
  mean: degrees * RADIANS,
  variance: (deviation * RADIANS) ** 2,
});
const inDegrees = ({ from, to }: { from: number; to: number }) => [from / RADIANS, to / RADIANS] as const;

describe('the shortest interval', () => {
  it('of one normal bell is its mean ± 1.96 deviations (JCGM 100:2008, table G.1)', () => {
    const [from, to] = inDegrees(shortestInterval([bell(1, 10, 2)], 0.95, NO_TAILS));
    // The grid is a twentieth of a degree.
    expect(Math.abs(from - (10 - 1.96 * 2))).toBeLessThan(0.08);
    expect(Math.abs(to - (10 + 1.96 * 2))).toBeLessThan(0.08);
  });

  it('of two bells far apart, one of 99 in 100, stays with that one', () => {
    // 95 % of all is 95/99 of the first bell: a normal quantile of 2.05 (probability 0.9798).
    const [from, to] = inDegrees(shortestInterval([bell(0.99, 0, 1), bell(0.01, 20, 1)], 0.95, NO_TAILS));
    expect(Math.abs(from + 2.05)).toBeLessThan(0.1);
    expect(Math.abs(to - 2.05)).toBeLessThan(0.1);
  });

  it('of two equal bells spans both', () => {
    const [from, to] = inDegrees(shortestInterval([bell(0.5, -8, 1), bell(0.5, 8, 1)], 0.95, NO_TAILS));
    expect(from).toBeLessThan(-8);
    expect(to).toBeGreaterThan(8);
  });
});

describe('shares of belief', () => {
  it('add up to 1 and grow by e for each unit of score', () => {
    const [one, other] = sharesOf([3, 2]) as [number, number];
    expect(one + other).toBeCloseTo(1, 12);
    expect(one / other).toBeCloseTo(Math.E, 12);
  });

  it('do not overflow', () => {
    expect(sharesOf([1e4, 0])).toEqual([1, 0]);
  });
});
