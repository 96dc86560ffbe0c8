import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { lineWithErrors } from '../../../src/geometry/statistics/line-with-errors.ts';
import { regression } from '../../../src/geometry/statistics/regression.ts';
import { errorOf, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const point = z.tuple([z.number(), z.number(), z.number(), z.number()]);
const examples = workedExamples('line-with-errors', z.object({ points: z.array(point).min(3) }));

/** The sources give weights, 1 / u². */
const pairs = (points: readonly z.infer<typeof point>[]) =>
  points.map(([x, y, weightX, weightY]) => ({
    x,
    y,
    xUncertainty: 1 / Math.sqrt(weightX),
    yUncertainty: 1 / Math.sqrt(weightY),
  }));

describe('straight line with errors in both coordinates', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(lineWithErrors(pairs(example.given.points)));
    expectAsPrinted(example, {
      ...found,
      interceptError: found.interceptStandardError,
      slopeError: found.slopeStandardError,
      reducedChiSquare: found.chiSquare / found.degreesOfFreedom,
    });
  });

  const weighed = examples[0]!.given.points;

  it('is the ordinary line of y on x where x has no error, and of x on y where y has none', () => {
    const plain = weighed.map(([x, y]) => ({ x, y }));
    const onX = unwrap(regression(plain));
    const onY = unwrap(regression(plain.map(({ x, y }) => ({ x: y, y: x }))));
    const exactX = unwrap(
      lineWithErrors(plain.map((pair) => ({ ...pair, xUncertainty: 0, yUncertainty: 1 }))),
    );
    const exactY = unwrap(
      lineWithErrors(plain.map((pair) => ({ ...pair, xUncertainty: 1, yUncertainty: 0 }))),
    );
    expect(exactX.slope).toBeCloseTo(onX.slope, 12);
    expect(exactX.intercept).toBeCloseTo(onX.intercept, 12);
    expect(exactX.slopeStandardError * onX.residualSd).toBeCloseTo(onX.slopeStandardError, 12);
    expect(exactX.interceptStandardError * onX.residualSd).toBeCloseTo(onX.interceptStandardError, 12);
    expect(exactY.slope).toBeCloseTo(1 / onY.slope, 12);
  });

  it('takes either coordinate for x: the slope of the exchanged is its inverse', () => {
    const straight = unwrap(lineWithErrors(pairs(weighed)));
    const exchanged = unwrap(lineWithErrors(pairs(weighed.map(([x, y, wx, wy]) => [y, x, wy, wx]))));
    expect(exchanged.slope).toBeCloseTo(1 / straight.slope, 10);
    expect(exchanged.chiSquare).toBeCloseTo(straight.chiSquare, 9);
  });

  it('fails with what lacks', () => {
    expect(errorOf(lineWithErrors(pairs(weighed.slice(0, 2))))).toEqual({
      kind: 'too-few-points',
      found: 2,
      needed: 3,
    });
    expect(errorOf(lineWithErrors(pairs(weighed.map(([, y]) => [4, y, 1, 1])))).kind).toBe('no-spread');
    expect(errorOf(lineWithErrors(pairs(weighed.map(([x]) => [x, 4, 1, 1])))).kind).toBe('no-spread');
    // The corners of a square.
    const square = [
      [0, 0],
      [0, 1],
      [1, 0],
      [1, 1],
    ] as const;
    expect(errorOf(lineWithErrors(pairs(square.map(([x, y]) => [x, y, 1, 1])))).kind).toBe('no-single-line');
  });
});
