import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { arcTangent2, cosine, exponential, logarithm, power, sine } from '../../src/phantom/exact-maths.ts';
import { decay, quickLogarithm } from '../../src/phantom/fast-tables.ts';

/** The engine's own functions are the outside reference; both are within an ulp or two of the true value. */
const relative = (found: number, wanted: number): number =>
  Math.abs(found - wanted) / Math.max(1e-3, Math.abs(wanted));

describe('functions from basic operations', () => {
  it('agrees with the engine for angles', () => {
    fc.assert(
      fc.property(fc.double({ min: -1000, max: 1000, noNaN: true }), (x) => {
        expect(Math.abs(sine(x) - Math.sin(x))).toBeLessThan(1e-13);
        expect(Math.abs(cosine(x) - Math.cos(x))).toBeLessThan(1e-13);
      }),
    );
  });

  it('agrees with the engine for directions', () => {
    const place = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(place, place, (y, x) => {
        expect(Math.abs(arcTangent2(y, x) - Math.atan2(y + 0, x + 0))).toBeLessThan(1e-14);
      }),
    );
  });

  it('agrees with the engine for powers and logarithms', () => {
    fc.assert(
      fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (x) => {
        expect(relative(exponential(x), Math.exp(x))).toBeLessThan(1e-13);
        expect(relative(logarithm(Math.exp(x)), Math.log(Math.exp(x)))).toBeLessThan(1e-12);
      }),
    );
    expect(power(2, 10)).toBeCloseTo(1024, 9);
    expect(power(0, 2)).toBe(0);
  });

  it('keeps its tables within 1e-6 of the functions', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 8, noNaN: true }), (x) => {
        const values = Float32Array.of(x);
        const single = values[0]!;
        decay(values, () => 1);
        expect(relative(values[0]!, Math.exp(-single))).toBeLessThan(1e-6);
        expect(Math.abs(quickLogarithm(single) - Math.log(single))).toBeLessThan(1e-7);
      }),
    );
  });
});
