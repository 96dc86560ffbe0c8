import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { turnBetween } from '../../src/geometry/axis.ts';
import {
  type AxisPoints,
  axisFrom,
  constructAxis,
  controlPoints,
  withControlPoints,
} from '../../src/geometry/constructions.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { between, errorOf, placed, RADIANS, unwrap } from './support.ts';

const p = planePoint;
const sigma = placed(0.5);

const levels = (stations: readonly number[], half: number): AxisPoints => ({
  construction: 'cortex-pair',
  levels: stations.map((x) => ({ one: p(x, 5 - half), other: p(x, 5 + half) })),
});
const rim = [150, 200, 250].map((b) => p(40 + 7 * Math.cos(b * RADIANS), 5 + 7 * Math.sin(b * RADIANS)));

const shapes: readonly AxisPoints[] = [
  { construction: 'free', from: p(0, 5), to: p(40, 5) },
  levels([0, 20, 40], 4),
  {
    construction: 'canal',
    levels: [
      { one: p(0, 3), other: p(0, 7) },
      { one: p(40, 2), other: p(40, 8) },
    ],
  },
  { construction: 'dorsal-cortex', points: [p(0, 5), p(10, 5), p(40, 5)] },
  { construction: 'head', rim, brokenEnd: p(0, 5) },
];

describe('constructions', () => {
  it.each(shapes)('builds a $construction axis along the middle of a bone lying along x', (shape) => {
    const { axis, residual } = unwrap(constructAxis(shape, sigma));
    expect(axis.from.x).toBeCloseTo(0, 9);
    expect(axis.from.y).toBeCloseTo(5, 9);
    expect(axis.to.x).toBeCloseTo(40, 9);
    expect(axis.to.y).toBeCloseTo(5, 9);
    expect(residual).toBeCloseTo(0, 9);
  });

  it.each(shapes)('is a function of its control points and nothing else: $construction', (shape) => {
    expect(withControlPoints(shape, controlPoints(shape))).toEqual(shape);
    fc.assert(
      fc.property(between(-99, 99), between(-99, 99), between(-180, 180), (x, y, about) => {
        const [c, s] = [Math.cos(about * RADIANS), Math.sin(about * RADIANS)];
        const moved = controlPoints(shape).map((at) => p(c * at.x - s * at.y + x, s * at.x + c * at.y + y));
        const axis = axisFrom(shape, moved);
        expect(axis.to.x).toBeCloseTo(c * 40 - s * 5 + x, 6);
        expect(axis.from.y).toBeCloseTo(c * 5 + y, 6);
        expect(
          turnBetween(unwrap(constructAxis(withControlPoints(shape, moved), sigma)).axis, axis),
        ).toBeCloseTo(0, 9);
      }),
      { numRuns: 30 },
    );
  });

  it('throws when it is handed another number of points than it has', () => {
    expect(() => axisFrom(shapes[0] as AxisPoints, [p(0, 0)])).toThrow(
      'A free axis of 2 points was given 1.',
    );
  });

  it('fails as a value where a clinician may well place points so', () => {
    const free = (to: number): AxisPoints => ({ construction: 'free', from: p(0, 0), to: p(to, 0) });
    expect(errorOf(constructAxis(free(0), sigma))).toEqual({ kind: 'points-coincide' });
    expect(errorOf(constructAxis(free(2), sigma))).toEqual({
      kind: 'axis-too-short',
      length: 2,
      neededLength: 2.5,
    });
    expect(errorOf(constructAxis(levels([10], 4), sigma))).toEqual({
      kind: 'too-few-points',
      found: 1,
      needed: 2,
    });
    expect(
      errorOf(constructAxis({ construction: 'head', rim: rim.slice(1), brokenEnd: p(0, 0) }, sigma)),
    ).toEqual({
      kind: 'too-few-points',
      found: 2,
      needed: 3,
    });
    const flat = [p(0, 0), p(3, 0), p(6, 0)];
    expect(errorOf(constructAxis({ construction: 'head', rim: flat, brokenEnd: p(0, 9) }, sigma)).kind).toBe(
      'circle-not-defined',
    );
    // A circle of 1 mm radius with points placed to 0.5 mm; 3 × 0.5 mm are needed.
    const tiny = [0, 120, 240].map((b) => p(Math.cos(b * RADIANS), Math.sin(b * RADIANS)));
    const small = errorOf(constructAxis({ construction: 'head', rim: tiny, brokenEnd: p(0, 9) }, sigma));
    expect(small).toMatchObject({ kind: 'circle-too-small', neededRadius: 1.5 });
  });

  it('moves smoothly with every control point of any head it accepts', () => {
    const spot = fc.record({ x: between(-12, 12), y: between(-12, 12) });
    const anyRim = fc.array(spot, { minLength: 3, maxLength: 5 });
    fc.assert(
      fc.property(anyRim, (spots) => {
        const head: AxisPoints = {
          construction: 'head',
          rim: spots.map(({ x, y }) => p(x, y)),
          brokenEnd: p(0, 40),
        };
        if (!constructAxis(head, sigma).ok) return;
        const points = controlPoints(head);
        for (const [i, point] of points.entries()) {
          // Far more than the steps that uncertainty is propagated with.
          expect(() => axisFrom(head, points.with(i, p(point.x + 0.02, point.y)))).not.toThrow();
        }
      }),
      { numRuns: 300 },
    );
  });
});
