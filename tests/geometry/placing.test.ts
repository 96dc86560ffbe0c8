import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  isShortForPlacing,
  NOMINAL_PLACING_ERROR_MM,
  nominalUnitsPerMm,
  placingError,
} from '../../src/geometry/placing.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { freeAxis, placed } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const nominal = workedExamples(
  'nominal-scale',
  z.object({ ray: z.enum(['thumb', 'index', 'middle', 'ring', 'small']), length: z.number() }),
);

describe('placing error', () => {
  it('is the stated assumption until the user’s repeats say better', () => {
    expect(placingError(null)).toMatchObject({ standardUncertainty: NOMINAL_PLACING_ERROR_MM });
    expect(placingError(null).basis.degreesOfFreedom).toBe(Infinity);
    const own = placingError(0.3, { text: 'from 12 repeats', degreesOfFreedom: 11 });
    expect(own).toMatchObject({ standardUncertainty: 0.3, basis: { degreesOfFreedom: 11 } });
  });

  it.each(nominal)('in columns, from the bone itself: $name', (example) => {
    const { ray, length } = example.given;
    const perMm = nominalUnitsPerMm(ray, { from: planePoint(3, 5), to: planePoint(3, 5 + length) });
    expectAsPrinted(example, { value: perMm });
    expect(placingError(null, undefined, perMm).standardUncertainty).toBeCloseTo(0.5 * perMm, 9);
  });

  it('flags axes below 20 placing errors, and not at them', () => {
    expect(isShortForPlacing(freeAxis([0, 0], 9.99, 0), placed(0.5))).toBe(true);
    expect(isShortForPlacing(freeAxis([0, 0], 10, 0), placed(0.5))).toBe(false);
  });
});
