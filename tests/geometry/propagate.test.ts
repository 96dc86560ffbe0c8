import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { combineIndependent, type Input, propagate, stated } from '../../src/geometry/propagate.ts';
import { between } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const known = (text: string, degreesOfFreedom = Infinity) => ({ text, degreesOfFreedom });
const input = (value: number, u: number, source: string, degreesOfFreedom = Infinity): Input => ({
  value,
  standardUncertainty: u,
  source,
  basis: known(source, degreesOfFreedom),
});

const gum = workedExamples(
  'gum-correlated',
  z.object({ output: z.enum(['resistance', 'reactance', 'impedance']) }),
);

describe('correlated inputs', () => {
  it.each(gum)('$name', (example) => {
    const outputs = {
      resistance: ([v = 0, i = 0, phi = 0]: readonly number[]) => (v / i) * Math.cos(phi),
      reactance: ([v = 0, i = 0, phi = 0]: readonly number[]) => (v / i) * Math.sin(phi),
      impedance: ([v = 0, i = 0]: readonly number[]) => v / i,
    };
    // JCGM 100:2008, table H.2 and the correlation coefficients beside it.
    const measured = propagate(
      outputs[example.given.output],
      [input(4.999, 0.0032, 'V'), input(0.019661, 0.0000095, 'I'), input(1.04446, 0.00075, 'phi')],
      {
        correlations: [
          { one: 0, other: 1, coefficient: -0.36 },
          { one: 0, other: 2, coefficient: 0.86 },
          { one: 1, other: 2, coefficient: -0.65 },
        ],
      },
    );
    expectAsPrinted(example, { ...measured, budget: null });
    expect(measured.budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9);
  });

  it('adds fully correlated uncertainties and cancels them in a difference', () => {
    const pair = [input(5, 3, 'a'), input(7, 4, 'b')];
    const whole = { correlations: [{ one: 0, other: 1, coefficient: 1 }] };
    // JCGM 100:2008, 5.2.2 note 1: with r = 1 the parts add linearly; 3 + 4, and 4 - 3.
    expect(propagate(([a = 0, b = 0]) => a + b, pair, whole).standardUncertainty).toBeCloseTo(7, 9);
    expect(propagate(([a = 0, b = 0]) => b - a, pair, whole).standardUncertainty).toBeCloseTo(1, 9);
  });

  it('are one line of the budget, with what they make of one another, when they come from one source', () => {
    const pair = [input(5, 3, 'a'), input(7, 4, 'a')];
    const { budget } = propagate(([a = 0, b = 0]) => a + b, pair, {
      correlations: [{ one: 0, other: 1, coefficient: 1 }],
    });
    expect(budget).toEqual([
      expect.objectContaining({ source: 'a', standardUncertainty: expect.closeTo(7, 9), share: 1 }),
    ]);
  });

  it('counts an input used twice as the one quantity it is', () => {
    // x - x is known exactly, and x + x twice as uncertain.
    const one = [input(5, 3, 'a')];
    expect(propagate(([a = 0]) => a - a, one).standardUncertainty).toBe(0);
    expect(propagate(([a = 0]) => a + a, one).standardUncertainty).toBeCloseTo(6, 9);
  });
});

const freedom = workedExamples(
  'effective-degrees-of-freedom',
  z.object({ parts: z.array(z.tuple([z.number(), z.number()])) }),
);

describe('effective degrees of freedom', () => {
  it.each(freedom)('$name', (example) => {
    const measured = propagate(
      (values) => values.reduce((sum, value) => sum + value, 0),
      example.given.parts.map(([u, degreesOfFreedom], index) =>
        input(0, u, `part ${index + 1}`, degreesOfFreedom),
      ),
    );
    expectAsPrinted(example, { ...measured, budget: null });
  });

  it('are those of the one estimate when many inputs share it, and not many times as many', () => {
    const shared = (source: string): Input => ({ ...input(0, 1, source), basis: known('8 repeats', 7) });
    const measured = propagate(([a = 0, b = 0]) => a + b, [shared('first'), shared('second')]);
    expect(measured.degreesOfFreedom).toBeCloseTo(7, 9);
    expect(measured.budget).toHaveLength(2);
    const again = combineIndependent(
      ([a = 0, b = 0]) => a - b,
      [
        { label: 'here', result: measured },
        { label: 'there', result: measured },
      ],
    );
    expect(again.degreesOfFreedom).toBeCloseTo(7, 9);
  });

  it('are infinite when every spread is known', () => {
    expect(propagate(([a = 0]) => a, [input(1, 2, 'a')])).toMatchObject({
      degreesOfFreedom: Infinity,
      coverageFactor: expect.closeTo(1.959964, 6),
    });
  });
});

describe('propagation', () => {
  it('of a sum is the root of the sum of squares, with shares in that proportion', () => {
    fc.assert(
      fc.property(fc.array(between(0.01, 9), { minLength: 1, maxLength: 6 }), (sizes) => {
        const measured = propagate(
          (values) => values.reduce((sum, value) => sum + value, 0),
          sizes.map((u, index) => input(index, u, `part ${index}`)),
        );
        expect(measured.standardUncertainty).toBeCloseTo(Math.hypot(...sizes), 7);
        for (const [index, line] of measured.budget.entries()) {
          expect(line.share).toBeCloseTo((sizes[index] as number) ** 2 / Math.hypot(...sizes) ** 2, 7);
        }
      }),
    );
  });

  it('of a product follows the relative uncertainties', () => {
    // JCGM 100:2008, 5.1.6: u(y)/y is the root of the sum of the squared relative uncertainties: 3 % and 4 % give 5 %.
    const measured = propagate(([a = 0, b = 0]) => a * b, [input(20, 0.6, 'a'), input(50, 2, 'b')]);
    expect(measured.standardUncertainty / measured.value).toBeCloseTo(0.05, 8);
  });

  it('leaves a certain input out of the budget’s shares without dividing by zero', () => {
    expect(propagate(([a = 0]) => a, [input(3, 0, 'a')])).toMatchObject({
      value: 3,
      standardUncertainty: 0,
      expandedUncertainty: 0,
      budget: [{ source: 'a', share: 0, standardUncertainty: 0 }],
    });
  });

  it('keeps each result’s own budget when independent results are put together', () => {
    const normal = stated(12, 4, 'published SD', known('Bhandari 2017'));
    const measured = propagate(
      ([a = 0, b = 0]) => a + b,
      [input(30, 1.8, 'placing'), input(0, 2.4, 'tracing')],
    );
    const deformity = combineIndependent(
      ([m = 0, n = 0]) => m - n,
      [
        { label: 'measured', result: measured },
        { label: 'normal', result: normal },
      ],
    );
    expect(deformity.value).toBe(18);
    expect(deformity.standardUncertainty).toBeCloseTo(5, 8); // 1.8, 2.4 -> 3; 3, 4 -> 5
    expect(deformity.budget.map(({ source }) => source)).toEqual([
      'measured: placing',
      'measured: tracing',
      'normal: published SD',
    ]);
    expect(deformity.budget.map(({ share }) => share)).toEqual([
      expect.closeTo(1.8 ** 2 / 25, 8),
      expect.closeTo(2.4 ** 2 / 25, 8),
      expect.closeTo(16 / 25, 8),
    ]);
  });
});
