import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { limitsOfAgreement } from '../../../src/geometry/statistics/bland-altman.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples(
  'limits-of-agreement',
  z.object({ pairs: z.array(z.tuple([z.number(), z.number()])) }),
);

describe('limits of agreement', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(limitsOfAgreement(example.given.pairs));
    expectAsPrinted(example, {
      mean: found.meanDifference.value,
      sd: found.sd,
      meanError: found.meanDifference.standardError,
      lower: found.lower.value,
      upper: found.upper.value,
      limitError: found.lower.standardError,
      upperFrom: (found.upper.interval.low - found.meanDifference.value) / found.sd,
      upperTo: (found.upper.interval.high - found.meanDifference.value) / found.sd,
    });
    const swapped = unwrap(limitsOfAgreement(example.given.pairs.map(([first, second]) => [second, first])));
    expect(swapped.lower.value).toBeCloseTo(-found.upper.value, 9);
    expect(swapped.upper.interval.high).toBeCloseTo(-found.lower.interval.low, 9);
  });

  it('have intervals that hold the true limit about 95 times in 100', () => {
    // 1000 studies of 30 pairs, differences N(1, 2): the true upper limit is 1 + 1.96 · 2 = 4.92.
    const deviate = normalDeviates(17);
    let held = 0;
    for (let study = 0; study < 1000; study += 1) {
      const pairs = Array.from({ length: 30 }, () => [1 + 2 * deviate(), 0] as const);
      const { interval } = unwrap(limitsOfAgreement(pairs)).upper;
      if (interval.low <= 4.92 && 4.92 <= interval.high) held += 1;
    }
    expect(Math.abs(held / 1000 - 0.95)).toBeLessThan(0.021); // three standard errors of a share of 0.95 in 1000
  });

  it('have intervals that do not jump where the closed form takes over from the exact one', () => {
    const deviate = normalDeviates(4);
    const pairs = Array.from({ length: 151 }, () => [deviate(), 0] as const);
    const reach = (count: number) => {
      const { upper, meanDifference, sd } = unwrap(limitsOfAgreement(pairs.slice(0, count)));
      return [upper.interval.low, upper.interval.high].map((end) => (end - meanDifference.value) / sd);
    };
    const [exact, closed] = [reach(150), reach(151)];
    expect(Math.abs((exact[0] ?? 0) - (closed[0] ?? 9))).toBeLessThan(0.01);
    expect(Math.abs((exact[1] ?? 0) - (closed[1] ?? 9))).toBeLessThan(0.01);
  });

  it('need three pairs without gaps', () => {
    expect(
      errorOf(
        limitsOfAgreement([
          [1, 2],
          [2, 3],
        ]),
      ),
    ).toMatchObject({ found: 2, needed: 3 });
    expect(
      errorOf(
        limitsOfAgreement([
          [1, 2],
          [2, Number.NaN],
          [3, 3],
        ]),
      ),
    ).toEqual({
      kind: 'gap-in-pairs',
      row: 1,
    });
  });
});
