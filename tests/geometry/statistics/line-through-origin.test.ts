import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { lineThroughOrigin } from '../../../src/geometry/statistics/line-through-origin.ts';
import { errorOf, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples(
  'line-through-origin',
  z.object({ points: z.array(z.tuple([z.number(), z.number()])) }),
);

describe('straight line through the origin', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(lineThroughOrigin(example.given.points.map(([x, y]) => ({ x, y }))));
    expectAsPrinted(example, {
      ...found,
      slopeError: found.slopeStandardError,
      residualSquares: found.residualSd ** 2 * found.degreesOfFreedom,
    });
  });

  it('needs two points, one of them away from the origin', () => {
    expect(errorOf(lineThroughOrigin([{ x: 1, y: 2 }]))).toEqual({
      kind: 'too-few-points',
      found: 1,
      needed: 2,
    });
    expect(
      errorOf(
        lineThroughOrigin([
          { x: 0, y: 2 },
          { x: 0, y: 1 },
        ]),
      ).kind,
    ).toBe('no-spread');
  });
});
