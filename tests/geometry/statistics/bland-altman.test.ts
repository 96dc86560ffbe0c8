import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { limitsOfAgreement } from '../../../src/geometry/statistics/bland-altman.ts';
import { repeatability } from '../../../src/geometry/statistics/repeatability.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';
import { expectAsPrinted, workedExamples } from '../worked-examples.ts';

const examples = workedExamples(
  'limits-of-agreement',
  z.object({ pairs: z.array(z.tuple([z.number(), z.number()])) }),
);

type Pairs = readonly (readonly [number, number])[];
const half = ([one, other]: readonly [number, number]): number => (one + other) / 2;
const pairs = z.array(z.tuple([z.number(), z.number()]));
const corrected = workedExamples('corrected-agreement', z.object({ first: pairs, second: pairs }));

describe('limits of agreement', () => {
  it.each(examples)('$name', (example) => {
    const found = unwrap(limitsOfAgreement(example.given.pairs));
    const { value: mean } = found.meanDifference;
    const rounded = { mean: Number(mean.toFixed(1)), sd: Number(found.sd.toFixed(1)) };
    expectAsPrinted(example, {
      mean,
      sd: found.sd,
      lowerTwoSd: mean - 2 * found.sd,
      upperTwoSd: mean + 2 * found.sd,
      lowerAsRounded: rounded.mean - 2 * rounded.sd,
      upperAsRounded: rounded.mean + 2 * rounded.sd,
      limitErrorOf1986: Math.sqrt((3 * found.sd ** 2) / found.pairs),
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

  it.each(corrected)('$name', (example) => {
    const { first, second } = example.given;
    // Bland and Altman 1986: the means of two scatter less than single readings, by what the repeats take away.
    const ofMeans = unwrap(
      limitsOfAgreement(first.map((pair, i) => [half(pair), half(second[i] ?? [0, 0])])),
    ).sd;
    const rootMeanSquare = (pairs: Pairs) => Math.SQRT2 * unwrap(repeatability(pairs)).withinSubjectSd;
    const aboutMean = (pairs: Pairs) => unwrap(limitsOfAgreement(pairs)).sd;
    const corrects = (repeats: (pairs: Pairs) => number) =>
      Math.hypot(ofMeans, repeats(first) / 2, repeats(second) / 2);
    expectAsPrinted(example, {
      byRootMeanSquare: corrects(rootMeanSquare),
      aboutTheMean: corrects(aboutMean),
    });
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
