import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  chiSquareQuantile,
  coverageFactor,
  fProbability,
  fQuantile,
  normalProbability,
  studentProbability,
  studentQuantile,
} from '../../src/geometry/distributions.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const student = workedExamples(
  'student',
  z.object({ probability: z.number(), degreesOfFreedom: z.number().nullable() }),
);

describe('t distribution', () => {
  it.each(student)('$name', (example) => {
    const { probability, degreesOfFreedom } = example.given;
    const quantile = studentQuantile(probability, degreesOfFreedom ?? Infinity);
    expectAsPrinted(example, { value: quantile });
    expect(studentProbability(quantile, degreesOfFreedom ?? Infinity)).toBeCloseTo(probability, 7);
  });

  it('runs into the normal distribution without a step', () => {
    expect(studentQuantile(0.975, 1e6)).toBeCloseTo(studentQuantile(0.975, 1.0001e6), 4);
    expect(normalProbability(0)).toBeCloseTo(0.5, 12);
  });

  it('gives k = 2.45 for 6 degrees of freedom at 95 %', () => {
    // JCGM 100:2008, table G.2, row 6, column 95: 2.45 (from memory of the standard).
    expect(coverageFactor(6)).toBeCloseTo(2.45, 2);
  });

  it('has no quantile without degrees of freedom', () => {
    expect(() => studentQuantile(0.975, 0)).toThrow('positive');
    expect(() => studentProbability(1, Number.NaN)).toThrow('positive');
  });
});

const others = workedExamples(
  'distributions',
  z.object({
    distribution: z.enum(['F', 'chi-square']),
    probability: z.number(),
    parameters: z.array(z.number()),
  }),
);

describe('F and chi-square distributions', () => {
  it.each(others)('$name', (example) => {
    const { distribution, probability, parameters } = example.given;
    const [above = Number.NaN, below = Number.NaN] = parameters;
    const quantile =
      distribution === 'F' ? fQuantile(probability, above, below) : chiSquareQuantile(probability, above);
    expectAsPrinted(example, { value: quantile });
    if (distribution === 'F') expect(fProbability(quantile, above, below)).toBeCloseTo(probability, 7);
  });
});
