import { describe, expect, it } from 'vitest';
import {
  proportionalDifference,
  proportionSentence,
} from '../../../src/geometry/statistics/proportional-difference.ts';
import { repeatability } from '../../../src/geometry/statistics/repeatability.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';

/** Films from about 10 to 70°, each read twice by two with these errors; the second reads `slope` times the truth. */
function simulated(seed: number, films: number, slope: number, errors: readonly [number, number]) {
  const deviate = normalDeviates(seed);
  const rows = Array.from({ length: films }, () => {
    const truth = 40 + 15 * deviate();
    const twice = (value: number, error: number) => [value + error * deviate(), value + error * deviate()];
    return [twice(truth, errors[0]), twice(slope * truth - 3, errors[1])] as const;
  });
  return {
    pairs: rows.map(([one, other]) => [one[0]!, other[0]!] as const),
    repeats: [
      unwrap(repeatability(rows.map(([one]) => one))),
      unwrap(repeatability(rows.map(([, other]) => other))),
    ] as const,
  };
}

describe('a proportional difference', () => {
  it.each([
    { slope: 1, errors: [3, 3], repeats: false },
    { slope: 1.2, errors: [3, 3], repeats: false },
    { slope: 1, errors: [1, 5], repeats: true },
  ] as const)(
    'of slope $slope is held by the 95 % limits about 95 times in 100: errors $errors',
    ({ slope, errors, repeats }) => {
      const studies = 400;
      let held = 0;
      let sum = 0;
      for (let seed = 1; seed <= studies; seed += 1) {
        const study = simulated(seed, 15, slope, errors);
        const found = unwrap(proportionalDifference(study.pairs, repeats ? study.repeats : [null, null]));
        expect(found.errors).toBe(repeats ? 'from repeats' : 'alike');
        if (found.interval.low <= slope && slope <= found.interval.high) held += 1;
        sum += found.slope;
      }
      // Three standard errors of a share of 0.95 in 400 are 0.033; the slope itself is off by far less than 2 %.
      expect(Math.abs(held / studies - 0.95)).toBeLessThan(0.033);
      expect(Math.abs(sum / studies - slope)).toBeLessThan(0.02);
    },
  );

  it('is not made by an error in the first, which flattens the ordinary line', () => {
    // Reliability of A 15² / (15² + 8²) = 0.78: the ordinary slope of y on x would be that.
    let sum = 0;
    for (let seed = 1; seed <= 100; seed += 1)
      sum += unwrap(proportionalDifference(simulated(seed, 60, 1, [8, 8]).pairs, [null, null])).slope;
    expect(Math.abs(sum / 100 - 1)).toBeLessThan(0.03);
  });

  it('takes the errors from repeats only where both have ten degrees of freedom', () => {
    const pairs = [10, 20, 30, 40].map((value) => [value, value + (value % 20 ? 1 : -1)] as const);
    const of = (films: number) =>
      unwrap(repeatability(Array.from({ length: films }, (_, film) => [film, film + 1])));
    const errorsOf = (first: number | null, second: number | null) =>
      unwrap(
        proportionalDifference(pairs, [
          first === null ? null : of(first),
          second === null ? null : of(second),
        ]),
      ).errors;
    expect(errorsOf(10, 10)).toBe('from repeats');
    expect(errorsOf(10, 9)).toBe('alike');
    expect(errorsOf(10, null)).toBe('alike');
    const exact = unwrap(repeatability(Array.from({ length: 10 }, (_, film) => [film, film])));
    expect(unwrap(proportionalDifference(pairs, [exact, exact])).errors).toBe('alike');
  });

  it('is said in a sentence, or why it cannot be told', () => {
    const steady = [10, 20, 30, 40, 50].map(
      (value, index) => [value, value + [1, -1, 0, 1, -1][index]!] as const,
    );
    const alike = proportionSentence(proportionalDifference(steady, [null, null]), 'A', 'B', '°');
    expect(alike).toMatch(
      /^Where A reads 1° more, B reads 0\.9\d° more \(95 % limits 0\.\d\d° to 1\.\d\d°\): no proportional difference seen\. The errors of both are taken as alike/,
    );
    const higher = steady.map(([x, y]) => [x, 2 * y] as const);
    expect(proportionSentence(proportionalDifference(higher, [null, null]), 'A', 'B', '')).toContain(
      ': B reads proportionally higher.',
    );
    const lower = steady.map(([x, y]) => [2 * x, y] as const);
    expect(proportionSentence(proportionalDifference(lower, [null, null]), 'A', 'B', '')).toContain(
      ': B reads proportionally lower.',
    );
    const two = proportionalDifference(steady.slice(0, 2), [null, null]);
    expect(errorOf(two)).toEqual({ kind: 'too-few-pairs', found: 2, needed: 3 });
    expect(proportionSentence(two, 'A', 'B', '°')).toContain('2 read by both, and a line needs 3');
    const same = proportionalDifference(
      steady.map(([x]) => [x, 5] as const),
      [null, null],
    );
    expect(proportionSentence(same, 'A', 'B', '°')).toContain('one of the two read everything alike');
    const heap = proportionalDifference(
      [
        [10, 11],
        [11, 10],
        [12, 11.2],
        [10.5, 11.4],
      ],
      [null, null],
    );
    expect(errorOf(heap).kind).toBe('not-told');
    expect(proportionSentence(heap, 'A', 'B', '°')).toContain('differs too little for the errors of reading');
  });
});
