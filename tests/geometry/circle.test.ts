import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { circleCentre, fitCircle } from '../../src/geometry/circle.ts';
import { placedInputs, pointsOf } from '../../src/geometry/placing.ts';
import { propagate } from '../../src/geometry/propagate.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { between, errorOf, placed, point, RADIANS, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const examples = workedExamples('circle', z.object({ points: z.array(z.tuple([z.number(), z.number()])) }));

const onCircle = (x: number, y: number, radius: number, bearings: readonly number[]) =>
  bearings.map((b) => planePoint(x + radius * Math.cos(b * RADIANS), y + radius * Math.sin(b * RADIANS)));

describe('circle through rim points', () => {
  it.each(examples)('$name', (example) => {
    const { centre, radius } = unwrap(fitCircle(example.given.points.map(point)));
    expectAsPrinted(example, { x: centre.x, y: centre.y, radius });
  });

  it('is the circle the points were taken from', () => {
    const bearings = fc
      .tuple(between(0, 360), between(60, 150), between(60, 150))
      .map(([first, second, third]) => [first, first + second, first + second + third]);
    fc.assert(
      fc.property(between(-500, 500), between(-500, 500), between(3, 60), bearings, (x, y, radius, at) => {
        const fitted = unwrap(fitCircle(onCircle(x, y, radius, at)));
        expect(fitted.centre.x).toBeCloseTo(x, 6);
        expect(fitted.centre.y).toBeCloseTo(y, 6);
        expect(fitted.radius).toBeCloseTo(radius, 6);
        expect(fitted.residual).toBeCloseTo(0, 6);
      }),
    );
  });

  it('states a covariance that the propagated uncertainty of the centre agrees with', () => {
    const rim = onCircle(30, 40, 7, [10, 55, 100, 160, 200]);
    const { covarianceFactor } = unwrap(fitCircle(rim));
    const sigma = 0.4;
    for (const [index, coordinate] of [(c: { x: number }) => c.x, (c: { y: number }) => c.y].entries()) {
      const measured = propagate(
        (values) => (coordinate as (c: { x: number; y: number }) => number)(circleCentre(pointsOf(values))),
        placedInputs(rim, placed(sigma), 'rim'),
      );
      const stated = sigma * Math.sqrt(covarianceFactor[index]?.[index] ?? Number.NaN);
      expect(measured.standardUncertainty).toBeCloseTo(stated, 5);
    }
  });

  it('fails with the arc when the points fix no circle', () => {
    expect(errorOf(fitCircle([planePoint(0, 0), planePoint(1, 1)]))).toMatchObject({ found: 2, needed: 3 });
    expect(errorOf(fitCircle([planePoint(0, 0), planePoint(1, 1), planePoint(2, 2)]))).toEqual({
      kind: 'circle-not-defined',
      arc: 0,
      neededArc: 45,
    });
    const short = errorOf(fitCircle(onCircle(0, 0, 7, [0, 20, 40])));
    expect(short).toMatchObject({ kind: 'circle-not-defined', arc: expect.closeTo(40, 6) });
    expect(fitCircle(onCircle(0, 0, 7, [0, 25, 50])).ok).toBe(true);
  });
});
