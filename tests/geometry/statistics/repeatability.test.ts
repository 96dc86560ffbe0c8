import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { smallestDetectableChange } from '../../../src/geometry/statistics/change.ts';
import {
  placingErrorFromLines,
  placingErrorFromRepeats,
} from '../../../src/geometry/statistics/placing-repeats.ts';
import { repeatability } from '../../../src/geometry/statistics/repeatability.ts';
import { planePoint } from '../../../src/geometry/units.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples('repeatability', z.object({ subjects: z.array(z.array(z.number())) }));

describe('within-subject SD', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(repeatability(example.given.subjects));
    // Of two readings each, the root mean square of the differences is √2 s_w.
    expectAsPrinted(example, {
      ...found,
      limits: null,
      twiceRootMeanSquare: 2 * Math.SQRT2 * found.withinSubjectSd,
    });
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

describe('placing error from an axis placed again', () => {
  /** A bone along (0.8, 0.6); each point slides along it by up to 8 mm, and is off by `error` on both coordinates. */
  const studyOf = (deviate: () => number, error: number, each: 1 | 2) =>
    Array.from({ length: 6 }, () => {
      const at = (station: number) => {
        const slid = station + 4 * Math.max(-2, Math.min(2, deviate()));
        const scatter = error / Math.sqrt(each);
        return planePoint(0.8 * slid + scatter * deviate(), 0.6 * slid + scatter * deviate());
      };
      return { one: at(0), other: at(60) };
    });

  it.each([1, 2] as const)('finds the spread it was made with, whatever slides (%i to a point)', (each) => {
    const deviate = normalDeviates(21);
    let squares = 0;
    for (let study = 0; study < 1000; study += 1) {
      const found = unwrap(placingErrorFromLines(studyOf(deviate, 0.4, each), each));
      expect(found.basis.degreesOfFreedom).toBe(10);
      squares += found.standardUncertainty ** 2;
    }
    // A mean of 1000 variances of 10 degrees of freedom is known to 1.4 %; three times that is 4 %, 2 % of the SD.
    expect(Math.abs(Math.sqrt(squares / 1000) / 0.4 - 1)).toBeLessThan(0.03);
  });

  it('takes the offsets across the line at the mean places of its points', () => {
    // Lines along x at heights 0, 1, −1 (twice each): squares 4 at each end; SD √(8 / 10) = 0.894427.
    const lines = [0, 1, -1, 0, 1, -1].map((height, i) => ({
      one: planePoint(i, height),
      other: planePoint(50 - i, height),
    }));
    expect(unwrap(placingErrorFromLines(lines, 1)).standardUncertainty).toBeCloseTo(0.894427, 6);
    expect(unwrap(placingErrorFromLines(lines, 2)).standardUncertainty).toBeCloseTo(Math.SQRT2 * 0.894427, 6);
  });

  it('wants six placings', () => {
    const lines = Array.from({ length: 5 }, () => ({ one: planePoint(0, 0), other: planePoint(9, 0) }));
    expect(errorOf(placingErrorFromLines(lines, 1))).toEqual({
      kind: 'too-few-repeats',
      degreesOfFreedom: 8,
      needed: 10,
    });
    expect(errorOf(placingErrorFromLines([], 1)).degreesOfFreedom).toBe(0);
  });
});

const changes = workedExamples('smallest-change', z.object({ sd: z.number(), icc: z.number() }));

describe('smallest detectable change', () => {
  const known = (standardUncertainty: number) => ({
    standardUncertainty,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
  });

  it('is 1.96 times the two uncertainties in quadrature where their spread is known', () => {
    expect(smallestDetectableChange(known(3), known(4))).toBeCloseTo(9.8, 12); // 1.96 · 5
    // Literature: SEM 1.89° gives a 95 % detectable change of 5.24° (1.96 · √2 · 1.89).
    expect(smallestDetectableChange(known(1.89), known(1.89))).toBeCloseTo(5.24, 2);
  });

  it('takes Student’s t for the repeats that stand behind both readings, counted once', () => {
    // Soong 2004, table A.4: t of 10 degrees of freedom 2.228, of 20 2.086.
    const repeated = (degreesOfFreedom: number) => ({ standardUncertainty: 3, degreesOfFreedom });
    expect(
      Math.abs(smallestDetectableChange(repeated(10), repeated(10)) / Math.hypot(3, 3) - 2.228),
    ).toBeLessThan(0.0005);
    expect(
      Math.abs(smallestDetectableChange(repeated(20), repeated(20)) / Math.hypot(3, 3) - 2.086),
    ).toBeLessThan(0.0005);
    // JCGM 100:2008, G.4.1: of one estimated and one known variance alike, ν = 2² · 5 = 20.
    expect(Math.abs(smallestDetectableChange(repeated(5), known(3)) / Math.hypot(3, 3) - 2.086)).toBeLessThan(
      0.0005,
    );
  });

  it('is passed by chance 5 times in 100, however few the repeats', () => {
    const deviate = normalDeviates(14);
    const draws = 20_000;
    const passed = { student: 0, normal: 0 };
    for (let draw = 0; draw < draws; draw += 1) {
      const squares = Array.from({ length: 10 }, () => deviate() ** 2).reduce((sum, one) => sum + one, 0);
      const estimate = { standardUncertainty: Math.sqrt(squares / 10), degreesOfFreedom: 10 };
      const difference = Math.abs(deviate() - deviate());
      if (difference > smallestDetectableChange(estimate, estimate)) passed.student += 1;
      if (difference > 1.96 * Math.SQRT2 * estimate.standardUncertainty) passed.normal += 1;
    }
    // Three standard errors of a share of 0.05 in 20 000: 0.0046. By 1.96 it would be 0.078 (t of 10 beyond 1.96).
    expect(Math.abs(passed.student / draws - 0.05)).toBeLessThan(0.0046);
    expect(passed.normal / draws).toBeGreaterThan(0.07);
  });

  it.each(changes)('$name', (example) => {
    const { sd, icc } = example.given;
    const sem = sd * Math.sqrt(1 - icc);
    expectAsPrinted(example, { sem, change: smallestDetectableChange(known(sem), known(sem)) });
  });
});
