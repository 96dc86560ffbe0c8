import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  angleChange,
  type Corners,
  planeHomography,
  throughHomography,
} from '../../src/geometry/homography.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { between, errorOf, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const segment = z.tuple([pair, pair]);
const film = ([column, row]: readonly [number, number]) => filmPoint(column, row);

const examples = workedExamples(
  'plane-homography',
  z.object({
    corners: z.tuple([pair, pair, pair, pair]),
    ratio: z.number(),
    at: pair,
    reference: segment,
    measured: segment,
  }),
);

describe('plane of a photographed rectangle', () => {
  it.each(examples)('$name', (example) => {
    const { corners, ratio, at, reference, measured } = example.given;
    const map = unwrap(planeHomography(corners.map(film) as unknown as Corners, ratio));
    const axis = ([from, to]: z.infer<typeof segment>) => ({ from: film(from), to: film(to) });
    expectAsPrinted(example, {
      ...throughHomography(map, film(at)),
      ...angleChange(map, axis(reference), axis(measured)),
    });
  });

  it('sends the four corners to the corners of the rectangle, and straight lines to straight lines', () => {
    const wobble = fc.tuple(between(-300, 300), between(-300, 300));
    fc.assert(
      fc.property(wobble, wobble, wobble, wobble, between(0.4, 2.5), (a, b, c, d, ratio) => {
        const corners: Corners = [
          filmPoint(1000 + a[0], 1000 + a[1]),
          filmPoint(3000 + b[0], 1000 + b[1]),
          filmPoint(3000 + c[0], 3000 + c[1]),
          filmPoint(1000 + d[0], 3000 + d[1]),
        ];
        const map = unwrap(planeHomography(corners, ratio));
        const [topLeft, topRight, , bottomLeft] = corners.map((corner) => throughHomography(map, corner));
        expect(topLeft?.x).toBeCloseTo(0, 8);
        expect(topRight?.x).toBeCloseTo(ratio, 8);
        expect(bottomLeft?.y).toBeCloseTo(1, 8);
        const half = throughHomography(
          map,
          filmPoint((corners[0].column + corners[1].column) / 2, (corners[0].row + corners[1].row) / 2),
        );
        expect(half.y).toBeCloseTo(0, 8);
      }),
    );
  });

  it('refuses corners that do not go round clockwise, lie on a line, or a proportion that is none', () => {
    const [a, b, c, d] = [filmPoint(0, 0), filmPoint(9, 0), filmPoint(9, 9), filmPoint(0, 9)] as const;
    expect(errorOf(planeHomography([a, d, c, b], 1)).kind).toBe('corners-not-convex');
    expect(errorOf(planeHomography([a, c, b, d], 1)).kind).toBe('corners-not-convex');
    expect(errorOf(planeHomography([a, filmPoint(4.5, 0), b, d], 1)).kind).toBe('corners-not-convex');
    expect(errorOf(planeHomography([a, b, c, d], 0))).toEqual({ kind: 'no-proportion', widthToHeight: 0 });
  });
});
