import { describe, expect, it } from 'vitest';
import { normalProbability, studentProbability, studentQuantile } from '../../src/geometry/distributions.ts';

/**
 * Two-sided 95 % coverage factors (from memory of the standard tables, as in JCGM 100:2008 Table G.2,
 * column 95 %): t of 0.975 by degrees of freedom.
 */
const TABLE_G2 = [
  [1, '12.71'],
  [2, '4.30'],
  [3, '3.18'],
  [4, '2.78'],
  [5, '2.57'],
  [6, '2.45'],
  [8, '2.31'],
  [10, '2.23'],
  [15, '2.13'],
  [20, '2.09'],
  [30, '2.04'],
  [100, '1.984'],
  [Number.POSITIVE_INFINITY, '1.960'],
] as const;

describe('Student t', () => {
  it.each(TABLE_G2)('with %f degrees of freedom covers 95 %% at %s', (freedom, printed) => {
    const places = printed.split('.')[1]!.length;
    expect(studentQuantile(0.975, freedom).toFixed(places)).toBe(printed);
    expect(studentProbability(studentQuantile(0.975, freedom), freedom)).toBeCloseTo(0.975, 5);
  });

  it('is the Cauchy distribution at one degree of freedom: P(t ≤ 1) = 3/4 exactly', () => {
    // 1/2 + atan(1)/π
    expect(studentProbability(1, 1)).toBeCloseTo(0.75, 6);
  });

  it('has the closed form at two degrees of freedom: P(t ≤ √2) = 1/2 + √2/(2·√(2+2))', () => {
    // F(t) = 1/2 + t / (2·√(2 + t²))
    expect(studentProbability(Math.SQRT2, 2)).toBeCloseTo(0.5 + Math.SQRT2 / 4, 6);
  });

  it('refuses degrees of freedom that are none', () => {
    expect(() => studentProbability(0, 0)).toThrow(RangeError);
    expect(() => studentQuantile(0.975, Number.NaN)).toThrow(RangeError);
  });
});

describe('normal distribution', () => {
  // Published table values of Φ, from memory: Φ(1) = 0.8413, Φ(1.96) = 0.9750, Φ(3) = 0.99865.
  it.each([
    [0, 0.5, 12],
    [1, 0.8413, 4],
    [1.96, 0.975, 4],
    [3, 0.99865, 5],
    [-1, 0.1587, 4],
  ])('puts the share at or below %f at %f', (z, share, places) => {
    expect(normalProbability(z)).toBeCloseTo(share, places);
  });
});
