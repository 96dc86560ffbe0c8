import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { segmentLength } from '../../src/geometry/length.ts';
import { type LengthScale, magnificationAt, magnificationRange } from '../../src/geometry/length-scale.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';
import { planeScale, toPlane } from '../../src/geometry/spacing.ts';
import { filmPoint, planePoint } from '../../src/geometry/units.ts';
import { between, errorOf, placed, point, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const millimetres: LengthScale = {
  kind: 'millimetres',
  relativeStandardUncertainty: 0,
  magnification: null,
};
const spacing: Extract<Spacing, { kind: 'millimetres' }> = {
  kind: 'millimetres',
  rowSpacingMm: 0.2,
  columnSpacingMm: 0.1,
  plane: 'detector',
  origin: 'ImagerPixelSpacing',
  calibrationType: null,
  calibrationDescription: null,
  estimatedMagnification: null,
  relativeStandardUncertainty: 0,
  conflicts: [],
};

const examples = workedExamples(
  'length',
  z.object({
    ends: z.tuple([pair, pair]),
    sigma: z.number(),
    relative: z.number(),
    magnification: pair.nullable(),
  }),
);

describe('length of a segment', () => {
  it.each(examples)('$name', (example) => {
    const { ends, sigma, relative, magnification } = example.given;
    const reading = unwrap(
      segmentLength({ from: point(ends[0]), to: point(ends[1]) }, placed(sigma), {
        kind: 'millimetres',
        relativeStandardUncertainty: relative,
        magnification:
          magnification === null
            ? null
            : { least: magnification[0], most: magnification[1], basis: 'the table' },
      }),
    );
    expectAsPrinted(example, {
      value: reading.value,
      standardUncertainty: reading.standardUncertainty,
    });
    expect(reading.unit).toBe('millimetres');
  });

  it('from film points and unequal spacings is the length in millimetres', () => {
    fc.assert(
      fc.property(
        between(0.05, 0.3),
        between(0.05, 0.3),
        between(5, 60),
        between(5, 60),
        (row, column, dx, dy) => {
          const scale = planeScale({ ...spacing, rowSpacingMm: row, columnSpacingMm: column });
          const from = toPlane(filmPoint(100, 200), scale);
          const to = toPlane(filmPoint(100 + dx / column, 200 + dy / row), scale);
          const reading = unwrap(segmentLength({ from, to }, placed(0.5), millimetres));
          expect(reading.value).toBeCloseTo(Math.hypot(dx, dy), 8);
        },
      ),
    );
  });

  it('without a scale is a share of the bone, exactly 100 % of itself', () => {
    const bone = { from: planePoint(0, 0), to: planePoint(0, 600) };
    // The same two placed points, as marks read twice give them: equal in coordinates, not the same objects.
    const again = { from: planePoint(0, 0), to: planePoint(0, 600) };
    const whole = unwrap(segmentLength(again, placed(5), { kind: 'share', bone }));
    expect(whole).toMatchObject({ unit: 'percent of bone', value: 100, standardUncertainty: 0 });
    const part = unwrap(
      segmentLength({ from: planePoint(9, 0), to: planePoint(9, 150) }, placed(5), { kind: 'share', bone }),
    );
    expect(part.value).toBeCloseTo(25, 9);
    // u² = 2σ²(100/600)² + (25/600)²·2σ²: relative parts √2·5/150 and √2·5/600 of 25 %.
    expect(part.standardUncertainty).toBeCloseTo(25 * Math.hypot(7.0710678 / 150, 7.0710678 / 600), 4);
  });

  it('has no length and no reading when the ends coincide', () => {
    const at = planePoint(1, 1);
    expect(errorOf(segmentLength({ from: at, to: at }, placed(0.5), millimetres)).kind).toBe(
      'points-coincide',
    );
    const noBone: LengthScale = { kind: 'share', bone: { from: at, to: at } };
    expect(errorOf(segmentLength({ from: at, to: planePoint(9, 9) }, placed(0.5), noBone)).kind).toBe(
      'points-coincide',
    );
  });
});

const magnified = workedExamples('magnification', z.object({ sid: z.number(), oid: z.number() }));

const tooLong = workedExamples(
  'magnified-length',
  z.object({ length: z.number(), sid: z.number(), oid: z.number() }),
);

describe('a length that is not corrected for magnification', () => {
  it.each(tooLong)('$name', (example) => {
    const { length, sid, oid } = example.given;
    expectAsPrinted(example, { value: length * magnificationAt(sid, oid) - length });
  });
});

describe('magnification', () => {
  it.each(magnified)('$name', (example) => {
    expectAsPrinted(example, { value: magnificationAt(example.given.sid, example.given.oid) });
  });

  it('is reckoned with at the detector, not in the patient, and from nothing where the plane is unknown', () => {
    const range = (more: Partial<typeof spacing>) => magnificationRange({ ...spacing, ...more });
    // 1000 / 990 and 1000 / 970.
    expect(range({})).toMatchObject({ least: expect.closeTo(1.0101, 4), most: expect.closeTo(1.0309, 4) });
    expect(range({ plane: 'patient' })).toBeNull();
    expect(range({ plane: 'not-known' })).toMatchObject({ least: 1 });
    expect(range({ estimatedMagnification: 1.05 })).toMatchObject({
      least: expect.closeTo(1.04, 9),
      most: expect.closeTo(1.06, 9),
    });
    expect(range({ estimatedMagnification: 1 })).toMatchObject({ least: 1, most: expect.closeTo(1.01, 9) });
    // Taken to 0.01 either way, more digits of it say nothing; 1000 / 977.37 as a file states it, 16 digits.
    expect(range({ estimatedMagnification: 1000 / 977.37 })).toMatchObject({
      basis: 'stated magnification 1.02, taken to 0.01 either way',
    });
  });
});
