import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import type { Anova } from '../../../src/geometry/statistics/anova.ts';
import { intraclassCorrelations } from '../../../src/geometry/statistics/icc.ts';
import { between, errorOf, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples('icc', z.object({ rows: z.array(z.array(z.number())) }));
const names = [
  'oneWaySingle',
  'randomSingle',
  'fixedSingle',
  'oneWayMean',
  'randomMean',
  'fixedMean',
] as const;

const squaresAndFreedom = (anova: Anova): Readonly<Record<string, number>> =>
  Object.fromEntries(
    (['between', 'within', 'judges', 'residual', 'total'] as const).flatMap((line) => [
      [`${line}Squares`, anova[line].squares],
      [`${line}Freedom`, anova[line].degreesOfFreedom],
    ]),
  );

describe('intraclass correlation', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(intraclassCorrelations(example.given.rows));
    const { anova } = found;
    const coefficients = names.flatMap((name) => [
      [name, found[name].value],
      [`${name}Low`, found[name].limits.low],
      [`${name}High`, found[name].limits.high],
    ]);
    expectAsPrinted(example, {
      ...(Object.fromEntries(coefficients) as Record<string, number>),
      between: anova.between.meanSquare,
      within: anova.within.meanSquare,
      judges: anova.judges.meanSquare,
      residual: anova.residual.meanSquare,
      oneWayRatio: anova.oneWay.ratio,
      twoWayRatio: anova.twoWay.ratio,
      ...squaresAndFreedom(anova),
    });
    // Sums of squares and degrees of freedom add up, one-way and two-way.
    const { between: b, within: w, judges: j, residual: e, total } = anova;
    expect(b.squares + w.squares).toBeCloseTo(total.squares, 8);
    expect(b.squares + j.squares + e.squares).toBeCloseTo(total.squares, 8);
    expect(b.degreesOfFreedom + j.degreesOfFreedom + e.degreesOfFreedom).toBe(total.degreesOfFreedom);
  });

  it('does not depend on the order of subjects or raters, nor on the unit or zero of the readings', () => {
    const table = fc
      .tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 2, max: 4 }))
      .chain(([n, k]) =>
        fc
          .uniqueArray(fc.integer({ min: 0, max: 90 }), { minLength: n * k, maxLength: n * k })
          .map((cells) => Array.from({ length: n }, (_, row) => cells.slice(row * k, (row + 1) * k))),
      );
    fc.assert(
      fc.property(table, between(0.5, 4), between(-50, 50), (rows, times, plus) => {
        const still = unwrap(intraclassCorrelations(rows));
        const other = unwrap(
          intraclassCorrelations(
            [...rows].reverse().map((row) => [...row].reverse().map((x) => times * x + plus)),
          ),
        );
        for (const name of names) {
          // The mean forms run off to −∞ where subjects hardly differ: so 1 / (1 − ICC), which stays within (0, ∞).
          const [a, b] = [still[name], other[name]].map(({ value }) => 1 / (1 - value));
          expect((b ?? 0) / (a ?? 1)).toBeCloseTo(1, 6);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('keeps the limits of two subjects within what two raters can correlate, and in their order', () => {
    // Shrout and Fleiss's approximation gives −6.2 here; no correlation of two lies below −1.
    const { randomSingle, randomMean } = unwrap(
      intraclassCorrelations([
        [10.5, 12],
        [20, 19],
      ]),
    );
    expect(randomSingle.limits.low).toBe(-1);
    expect(randomMean.limits.low).toBe(Number.NEGATIVE_INFINITY);
    expect(randomMean.limits.high).toBeGreaterThan(randomMean.value);
  });

  it('is 1 for raters who agree, and tells a constant difference apart from it', () => {
    const same = unwrap(
      intraclassCorrelations([
        [10, 10],
        [25, 25],
        [40, 40],
      ]),
    );
    expect(same.randomSingle).toEqual({ value: 1, limits: { low: 1, high: 1 } });
    expect(same.fixedSingle.value).toBe(1);
    const shifted = unwrap(
      intraclassCorrelations([
        [10, 15],
        [25, 30],
        [40, 45],
      ]),
    );
    expect(shifted.fixedSingle.value).toBeCloseTo(1, 9);
    // Subjects 10, 25, 40 (+ 2.5): B = 2 · 225 = 450, J = 6 · 2.5² = 37.5, E = 0: 450 / (450 + 2 · 37.5 / 3) = 450 / 475.
    expect(shifted.randomSingle.value).toBeCloseTo(450 / 475, 9);
  });

  it('says what the table lacks, and where', () => {
    expect(errorOf(intraclassCorrelations([[1, 2]]))).toEqual({
      kind: 'too-few-subjects',
      found: 1,
      needed: 2,
    });
    expect(errorOf(intraclassCorrelations([[1], [2]]))).toEqual({
      kind: 'too-few-raters',
      found: 1,
      needed: 2,
    });
    expect(errorOf(intraclassCorrelations([[1, 2], [3]]))).toEqual({
      kind: 'gap-in-table',
      row: 1,
      column: 1,
    });
    expect(
      errorOf(
        intraclassCorrelations([
          [1, 2],
          [3, 4, 5],
        ]),
      ),
    ).toEqual({
      kind: 'gap-in-table',
      row: 1,
      column: 2,
    });
    expect(
      errorOf(
        intraclassCorrelations([
          [1, Number.NaN],
          [3, 4],
        ]),
      ),
    ).toEqual({
      kind: 'gap-in-table',
      row: 0,
      column: 1,
    });
    expect(
      errorOf(
        intraclassCorrelations([
          [5, 5],
          [5, 5],
        ]),
      ),
    ).toEqual({ kind: 'no-spread' });
    // Means of 2, 2 and 2, and of 0.2 and 0.2, which differ in the last bit: (1,k) would be minus infinity.
    for (const rows of [
      [
        [1, 3],
        [2, 2],
        [3, 1],
      ],
      [
        [0.1, 0.3],
        [0.2, 0.2],
      ],
    ])
      expect(errorOf(intraclassCorrelations(rows))).toEqual({ kind: 'no-between-subject-variance' });
  });
});
