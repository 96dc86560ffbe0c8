import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { fitLine, lineAxis } from '../../src/geometry/line.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { between, errorOf, point, RADIANS, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const examples = workedExamples('line', z.object({ points: z.array(z.tuple([z.number(), z.number()])) }));

describe('total-least-squares line', () => {
  it.each(examples)('$name', (example) => {
    const { axis, centroid } = unwrap(fitLine(example.given.points.map(point)));
    const run = axis.to.x - axis.from.x;
    const slope = (axis.to.y - axis.from.y) / run;
    expectAsPrinted(example, {
      slope,
      intercept: centroid.y - slope * centroid.x,
      interceptByRoundedSlope: centroid.y - Number(slope.toFixed(3)) * centroid.x,
      direction: Math.atan(slope) / RADIANS,
    });
  });

  it('runs from the first point placed to the last', () => {
    const points = [planePoint(0, 0), planePoint(5, 0.1), planePoint(10, 0)];
    expect(lineAxis(points).to.x).toBeCloseTo(10, 9);
    expect(lineAxis([...points].reverse()).to.x).toBeCloseTo(0, 9);
  });

  it('has the known direction variance of points on the line: 1 / sum of squared distances', () => {
    // Stations 0, 10, 20 on a line: sum of squares about the mean 200.
    const { directionVarianceFactor } = unwrap(
      fitLine([planePoint(0, 0), planePoint(6, 8), planePoint(12, 16)]),
    );
    expect(directionVarianceFactor).toBeCloseTo(1 / 200, 12);
  });

  it('turns with the points', () => {
    fc.assert(
      fc.property(between(-180, 180), between(-300, 300), (about, by) => {
        const base = [
          [0, 0.3],
          [7, -0.2],
          [15, 0.4],
          [22, -0.1],
        ] as const;
        const [c, s] = [Math.cos(about * RADIANS), Math.sin(about * RADIANS)];
        const still = lineAxis(base.map(point));
        const turned = lineAxis(base.map(([x, y]) => planePoint(c * x - s * y + by, s * x + c * y - by)));
        expect(turned.from.x).toBeCloseTo(c * still.from.x - s * still.from.y + by, 8);
        expect(turned.to.y).toBeCloseTo(s * still.to.x + c * still.to.y - by, 8);
      }),
    );
  });

  it('fails with the numbers', () => {
    expect(errorOf(fitLine([planePoint(1, 2)]))).toEqual({ kind: 'too-few-points', found: 1, needed: 2 });
    expect(errorOf(fitLine([planePoint(100.1, 2), planePoint(100.1, 2), planePoint(100.1, 2)]))).toEqual({
      kind: 'points-coincide',
    });
    // Corners of a square have no direction: as wide as long.
    const square = [planePoint(0, 0), planePoint(2, 0), planePoint(2, 2), planePoint(0, 2)];
    expect(errorOf(fitLine(square))).toEqual({ kind: 'no-direction', spreadAlong: 1, spreadAcross: 1 });
  });
});
