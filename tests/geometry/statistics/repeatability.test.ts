import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { smallestDetectableChange } from '../../../src/geometry/statistics/change.ts';
import { placingErrorFromRepeats } from '../../../src/geometry/statistics/placing-repeats.ts';
import { repeatability } from '../../../src/geometry/statistics/repeatability.ts';
import { planePoint } from '../../../src/geometry/units.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples('repeatability', z.object({ subjects: z.array(z.array(z.number())) }));

describe('within-subject SD', () => {
  it.each(examples)('$name', (example) => {
    expectAsPrinted(example, { ...unwrap(repeatability(example.given.subjects)), limits: null });
  });

  it('has limits that hold the true SD 95 times in 100', () => {
    const deviate = normalDeviates(3);
    let held = 0;
    for (let study = 0; study < 2000; study += 1) {
      const subjects = Array.from({ length: 6 }, (_, i) => [0, 1, 2].map(() => 10 * i + 1.5 * deviate()));
      const { limits } = unwrap(repeatability(subjects));
      if (limits.low <= 1.5 && 1.5 <= limits.high) held += 1;
    }
    expect(Math.abs(held / 2000 - 0.95)).toBeLessThan(0.015); // three standard errors of a share of 0.95 in 2000
  });

  it('needs one subject measured twice', () => {
    expect(errorOf(repeatability([[1], [2]]))).toEqual({ kind: 'no-repeats' });
  });
});

describe('placing error from repeats', () => {
  it('finds the spread it was made with', () => {
    const deviate = normalDeviates(8);
    const points = Array.from({ length: 60 }, (_, i) =>
      Array.from({ length: 5 }, () => planePoint(10 * i + 0.35 * deviate(), 7 * i + 0.35 * deviate())),
    );
    const found = unwrap(placingErrorFromRepeats(points));
    expect(found.basis.degreesOfFreedom).toBe(480);
    expect(Math.abs(found.standardUncertainty / 0.35 - 1)).toBeLessThan(0.1); // three standard errors at 480
  });

  it('leaves the assumption alone below ten degrees of freedom', () => {
    const twice = [planePoint(0, 0), planePoint(1, 1)];
    // Four points placed twice: two coordinates each, one degree of freedom each: eight.
    expect(errorOf(placingErrorFromRepeats([twice, twice, twice, twice]))).toEqual({
      kind: 'too-few-repeats',
      degreesOfFreedom: 8,
      needed: 10,
    });
    expect(placingErrorFromRepeats([twice, twice, twice, twice, twice]).ok).toBe(true);
    expect(errorOf(placingErrorFromRepeats([])).degreesOfFreedom).toBe(0);
  });
});

describe('smallest detectable change', () => {
  it('is 1.96 times the two uncertainties in quadrature', () => {
    expect(smallestDetectableChange(3, 4)).toBeCloseTo(9.8, 12); // 1.96 · 5
    // Literature: SEM 1.89° gives a 95 % detectable change of 5.24° (1.96 · √2 · 1.89).
    expect(smallestDetectableChange(1.89, 1.89)).toBeCloseTo(5.24, 2);
  });
});
