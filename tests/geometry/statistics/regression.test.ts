import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { regression } from '../../../src/geometry/statistics/regression.ts';
import { errorOf, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples(
  'regression',
  z.object({ points: z.array(z.tuple([z.number(), z.number()])) }),
);

describe('straight line by ordinary least squares', () => {
  it.each(examples)('$name', (example) => {
    const points = example.given.points.map(([x, y]) => ({ x, y }));
    const found = unwrap(regression(points));
    const back = unwrap(regression(points.map(({ x, y }) => ({ x: y, y: x }))));
    const ratio = (found.slope / found.slopeStandardError) ** 2;
    const residualMeanSquare = found.residualSd ** 2;
    expectAsPrinted(example, {
      ...found,
      residualMeanSquare,
      residualSquares: residualMeanSquare * found.degreesOfFreedom,
      ratio,
      regressionSquares: ratio * residualMeanSquare,
      explained: ratio / (ratio + found.degreesOfFreedom),
      inverseSlope: 1 / found.slope,
      inverseIntercept: -found.intercept / found.slope,
      // The two slopes multiply to r².
      correlation: Math.sign(found.slope) * Math.sqrt(found.slope * back.slope),
      interceptError: found.interceptStandardError,
      slopeError: found.slopeStandardError,
    });
  });

  it('is certain of points on a line', () => {
    const level = [0, 1, 2].map((x) => ({ x, y: 5 }));
    expect(unwrap(regression(level))).toMatchObject({ slope: 0, residualSd: 0, slopeProbability: 1 });
    const rising = [0, 1, 2].map((x) => ({ x, y: 2 * x }));
    expect(unwrap(regression(rising))).toMatchObject({ slope: 2, residualSd: 0, slopeProbability: 0 });
  });

  it('needs three points at different x', () => {
    expect(
      errorOf(
        regression([
          { x: 0, y: 1 },
          { x: 1, y: 1 },
        ]),
      ),
    ).toMatchObject({ found: 2, needed: 3 });
    expect(errorOf(regression([1, 2, 3].map((y) => ({ x: 4, y })))).kind).toBe('no-spread');
  });
});
