import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { wrapDegrees } from '../../src/geometry/axis.ts';
import { stated } from '../../src/geometry/propagate.ts';
import { seenAngle, spatialAngle } from '../../src/geometry/spatial.ts';
import { degrees } from '../../src/geometry/units.ts';
import { between, errorOf, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const seen = (value: number, u = 0) =>
  stated(value, u, 'placing', { text: 'the test', degreesOfFreedom: Infinity });

const examples = workedExamples(
  'spatial-angle',
  z.object({ first: z.number(), second: z.number(), turn: z.number() }),
);

describe('angle in space', () => {
  it.each(examples)('$name', (example) => {
    const { first, second, turn } = example.given;
    const { angle, plane } = unwrap(spatialAngle(seen(first), seen(second), degrees(turn), degrees(0)));
    expectAsPrinted(example, {
      angle: angle.value,
      plane: plane?.value ?? null,
      excess: Math.hypot(first, second) - angle.value,
    });
  });

  it('and its plane are what both views were made from, at any turn between them', () => {
    const tilt = fc.record({
      angle: between(5, 60),
      plane: between(-179, 179),
      turn: fc.oneof(between(30, 150), between(-150, -30)),
    });
    fc.assert(
      fc.property(tilt, ({ angle, plane, turn }) => {
        const view = (at: number) => seen(seenAngle(degrees(angle), degrees(plane), degrees(at)));
        const found = unwrap(spatialAngle(view(0), view(turn), degrees(turn), degrees(0)));
        expect(found.angle.value).toBeCloseTo(angle, 7);
        expect(wrapDegrees((found.plane?.value ?? Number.NaN) - plane)).toBeCloseTo(0, 6);
      }),
    );
  });

  it('has no plane when there is no tilt, or too little to say which way', () => {
    const none = unwrap(spatialAngle(seen(0), seen(0), degrees(90)));
    expect(none.angle.value).toBe(0);
    expect(none.plane).toBeNull();
    expect(unwrap(spatialAngle(seen(1, 2), seen(1, 2), degrees(90))).plane).toBeNull();
    expect(unwrap(spatialAngle(seen(30, 2), seen(20, 2), degrees(90))).plane).not.toBeNull();
  });

  it('is refused for views less than 30 degrees apart, either way round', () => {
    for (const turn of [29.9, -29.9, 150.1, 180, 0, -170]) {
      expect(errorOf(spatialAngle(seen(20), seen(10), degrees(turn))), String(turn)).toMatchObject({
        kind: 'views-too-close',
        needed: 30,
      });
    }
    for (const turn of [30, 150, -30, 330]) {
      expect(spatialAngle(seen(20), seen(10), degrees(turn)).ok, String(turn)).toBe(true);
    }
    expect(errorOf(spatialAngle(seen(20), seen(-81), degrees(90)))).toEqual({
      kind: 'reading-too-steep',
      angle: -81,
      limit: 80,
    });
  });

  it('carries both readings and the turn in its budget', () => {
    const { angle } = unwrap(spatialAngle(seen(30, 2), seen(20, 2), degrees(60)));
    expect(angle.budget.map(({ source }) => source)).toEqual([
      'first view: placing',
      'second view: placing',
      'turn between the views: turn of the hand',
    ]);
    expect(angle.budget.every(({ share }) => share > 0)).toBe(true);
  });
});

const coronal = workedExamples('false-coronal-angle', z.object({ true: z.number(), off: z.number() }));

describe('false coronal angle on a PA view that was turned', () => {
  it.each(coronal)('$name', (example) => {
    // The tilt lies in the sagittal plane, a quarter turn from that of a true PA view.
    const { true: angle, off } = example.given;
    expectAsPrinted(example, { value: seenAngle(degrees(angle), degrees(90), degrees(off)) });
  });
});

const oblique = workedExamples('obliquity', z.object({ true: z.number(), off: z.number() }));

describe('angle seen on a turned view', () => {
  it.each(oblique)('$name', (example) => {
    const { true: angle, off } = example.given;
    expectAsPrinted(example, { value: seenAngle(degrees(angle), degrees(0), degrees(off)) });
  });
});
