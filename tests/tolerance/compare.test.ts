import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compare, type Outcome } from '../../src/tolerance/compare.ts';

const RANK: Readonly<Record<Outcome, number>> = {
  'inside the limit': 0,
  'cannot tell': 1,
  'past the limit': 2,
  'no limit on file': Number.NaN,
};

const known = (value: number, standardUncertainty: number) => ({
  value,
  standardUncertainty,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

describe('compare with a single limit', () => {
  // Normal table, published everywhere: P(z ≤ 1) = 0.8413, P(z ≤ 1.96) = 0.9750.
  it.each([
    // v, u, limit, outcome, P(v > limit)
    [52, 2, 50, 'cannot tell', 0.8413],
    [48, 2, 50, 'cannot tell', 0.1587],
    [50, 2, 50, 'cannot tell', 0.5],
    [53.93, 2, 50, 'past the limit', 0.9753], // z = 1.965
    [53.91, 2, 50, 'cannot tell', 0.9747], // z = 1.955
    [46.07, 2, 50, 'inside the limit', 0.0247],
    [46.09, 2, 50, 'cannot tell', 0.0253],
  ] as const)('%f ± %f (k = 1) against %f: %s, P = %f', (value, u, limit, outcome, probability) => {
    const judged = compare(known(value, u), { lo: limit, hi: limit });
    expect(judged.outcome).toBe(outcome);
    expect(judged.probabilityPast).toBeCloseTo(probability, 4);
    expect(judged.probabilityAboveLower).toBeCloseTo(probability, 4);
  });

  it('asks for more with few degrees of freedom: k = 12.71 at 1, 2.23 at 10 (JCGM 100:2008, Table G.2)', () => {
    const at = (distance: number, degreesOfFreedom: number) =>
      compare({ value: 50 + distance, standardUncertainty: 1, degreesOfFreedom }, { lo: 50, hi: 50 }).outcome;
    expect(at(12.6, 1)).toBe('cannot tell');
    expect(at(12.8, 1)).toBe('past the limit');
    expect(at(2.2, 10)).toBe('cannot tell');
    expect(at(2.26, 10)).toBe('past the limit');
  });

  it('takes the bound itself as accepted where there is no uncertainty at all', () => {
    expect(compare(known(50, 0), { lo: 50, hi: 50 })).toEqual({
      outcome: 'inside the limit',
      probabilityPast: 0,
      probabilityAboveLower: 0,
    });
    expect(compare(known(50.001, 0), { lo: 50, hi: 50 }).outcome).toBe('past the limit');
    expect(compare(known(55, 0), { lo: 50, hi: 60 }).outcome).toBe('cannot tell');
  });
});

describe('compare with a band', () => {
  it.each([
    // Small finger neck 50–60°, u = 2: inside needs v ≤ 50 − 3.92, past v ≥ 60 + 3.92.
    [46, 'inside the limit'],
    [47, 'cannot tell'],
    [55, 'cannot tell'],
    [63, 'cannot tell'],
    [64, 'past the limit'],
  ] as const)('%f° ± 2° (k = 1) against 50–60°: %s', (value, outcome) => {
    expect(compare(known(value, 2), { lo: 50, hi: 60 }).outcome).toBe(outcome);
  });

  it('has no limit on file without a band', () => {
    expect(compare(known(50, 2), null)).toEqual({
      outcome: 'no limit on file',
      probabilityPast: null,
      probabilityAboveLower: null,
    });
  });

  it.each([
    ['a value that is no number', { value: Number.NaN, standardUncertainty: 1, degreesOfFreedom: 5 }],
    ['an uncertainty below zero', { value: 1, standardUncertainty: -1, degreesOfFreedom: 5 }],
    ['no degrees of freedom', { value: 1, standardUncertainty: 1, degreesOfFreedom: 0 }],
  ])('throws for %s', (_, estimate) => {
    expect(() => compare(estimate, { lo: 1, hi: 2 })).toThrow(RangeError);
  });
});

describe('properties', () => {
  const value = fc.double({ min: -90, max: 180, noNaN: true });
  const uncertainty = fc.double({ min: 0.01, max: 30, noNaN: true });
  const freedom = fc.oneof(fc.constant(Number.POSITIVE_INFINITY), fc.integer({ min: 1, max: 200 }));
  const bound = fc.double({ min: 0, max: 90, noNaN: true });
  const band = fc.tuple(bound, bound).map(([one, other]) => ({
    lo: Math.min(one, other),
    hi: Math.max(one, other),
  }));
  const more = fc.double({ min: 0, max: 60, noNaN: true });

  it('never improves with a larger value', () => {
    fc.assert(
      fc.property(value, more, uncertainty, freedom, band, (v, step, u, degreesOfFreedom, limits) => {
        const rank = (at: number) =>
          RANK[compare({ value: at, standardUncertainty: u, degreesOfFreedom }, limits).outcome];
        expect(rank(v + step)).toBeGreaterThanOrEqual(rank(v));
      }),
    );
  });

  it('never turns "cannot tell" into a certainty with a wider interval', () => {
    fc.assert(
      fc.property(value, uncertainty, more, freedom, band, (v, u, wider, degreesOfFreedom, limits) => {
        const outcome = (at: number) =>
          compare({ value: v, standardUncertainty: at, degreesOfFreedom }, limits).outcome;
        if (outcome(u) === 'cannot tell') expect(outcome(u + wider)).toBe('cannot tell');
        else expect([outcome(u), 'cannot tell']).toContain(outcome(u + wider));
      }),
    );
  });

  it('cannot tell exactly when the 95 % interval straddles the band', () => {
    // The interval is built first and value and uncertainty from it: k = 1.959964 (normal table).
    const end = fc.double({ min: -60, max: 150, noNaN: true });
    fc.assert(
      fc.property(end, fc.double({ min: 0.1, max: 80, noNaN: true }), band, (lower, width, limits) => {
        const upper = lower + width;
        const nearABound = [lower - limits.hi, upper - limits.lo].some((gap) => Math.abs(gap) < 1e-4);
        fc.pre(!nearABound);
        const { outcome } = compare(known((lower + upper) / 2, width / 2 / 1.959964), limits);
        const straddles = lower < limits.hi && upper > limits.lo;
        expect(outcome === 'cannot tell').toBe(straddles);
        if (!straddles) expect(outcome).toBe(lower > limits.hi ? 'past the limit' : 'inside the limit');
      }),
    );
  });

  it('gives a share of past that grows with the value and the upper end that is the less likely', () => {
    fc.assert(
      fc.property(value, uncertainty, freedom, band, (v, u, degreesOfFreedom, limits) => {
        const judged = compare({ value: v, standardUncertainty: u, degreesOfFreedom }, limits);
        // jStat's continued fraction is good to about 1e-7.
        expect(judged.probabilityPast).toBeLessThanOrEqual(judged.probabilityAboveLower + 1e-6);
        expect(judged.probabilityPast).toBeGreaterThanOrEqual(0);
        expect(judged.probabilityAboveLower).toBeLessThanOrEqual(1);
      }),
    );
  });
});
