import { describe, expect, it } from 'vitest';
import {
  agreementStudy,
  errorsAgainstTruth,
  type RatedReading,
} from '../../../src/geometry/statistics/agreement-study.ts';
import { errorOf, normalDeviates, unwrap } from '../support.ts';

// Bland and Altman, Lancet 1986;i:307–310: peak flow of 17 people in l/min, each meter read twice.
const FLOW: readonly (readonly [number, number, number, number])[] = [
  [494, 490, 512, 525],
  [395, 397, 430, 415],
  [516, 512, 520, 508],
  [434, 401, 428, 444],
  [476, 470, 500, 500],
  [557, 611, 600, 625],
  [413, 415, 364, 460],
  [442, 431, 380, 390],
  [650, 638, 658, 642],
  [433, 429, 445, 432],
  [417, 420, 432, 420],
  [656, 633, 626, 605],
  [267, 275, 260, 227],
  [478, 492, 477, 467],
  [178, 165, 259, 268],
  [423, 372, 350, 370],
  [427, 421, 451, 443],
];
const flowReadings: readonly RatedReading[] = FLOW.flatMap((row, person) =>
  row.map((value, index) => ({
    subject: `person ${person + 1}`,
    rater: index < 2 ? 'Wright' : 'mini Wright',
    value,
  })),
);

// Shrout and Fleiss, Psychol Bull 1979;86:420–428: six subjects, four judges.
const JUDGED = [
  [9, 2, 5, 8],
  [6, 1, 3, 2],
  [8, 4, 6, 8],
  [7, 1, 2, 6],
  [10, 5, 6, 9],
  [6, 2, 4, 7],
];
const judged = (rows: readonly (readonly number[])[]): readonly RatedReading[] =>
  rows.flatMap((row, subject) =>
    row.map((value, rater) => ({ subject: `${subject}`, rater: `${rater}`, value })),
  );

describe('an agreement study', () => {
  it('gives what Bland and Altman print for two meters, and their repeatability', () => {
    const study = agreementStudy(flowReadings);
    expect(study.pairs).toHaveLength(1);
    const [pair] = study.pairs;
    expect([pair?.first, pair?.second]).toEqual(['Wright', 'mini Wright']);
    const limits = unwrap(pair!.limits);
    // Printed: −2.1 and 38.8 (from memory of the paper).
    expect(limits.meanDifference.value).toBeCloseTo(-2.1, 1);
    expect(limits.sd).toBeCloseTo(38.8, 1);
    // Printed repeatability, 2 × the root mean square difference: 43.2 and 56.4 (from memory). s_w is that over 2√2,
    // within the rounding of their intermediate figures.
    const [wright, mini] = study.repeats.map(({ found }) => unwrap(found).withinSubjectSd);
    expect(Math.abs((wright ?? 0) - 43.2 / (2 * Math.SQRT2))).toBeLessThan(0.05);
    expect(Math.abs((mini ?? 0) - 56.4 / (2 * Math.SQRT2))).toBeLessThan(0.05);
    expect(unwrap(study.repeats[0]!.found).degreesOfFreedom).toBe(17);
    // SciPy 1.10.1, odr with the SDs of the repeats: slope 0.956144 ± 0.08457; t of 15 degrees of freedom 2.131.
    const { slope, interval, errors } = unwrap(pair!.proportion);
    expect(slope).toBeCloseTo(0.956144, 6);
    expect(interval.high - slope).toBeCloseTo(2.131 * 0.08457, 2);
    expect(slope - interval.low).toBeCloseTo(2.131 * 0.08457, 2);
    expect(errors).toBe('from repeats');
  });

  it('gives Shrout and Fleiss’s coefficients, and leaves out for them a subject somebody missed', () => {
    // Printed: .17, .29, .71 (from memory of the paper).
    const whole = agreementStudy(judged(JUDGED));
    const found = unwrap(whole.correlations);
    expect(found.oneWaySingle.value).toBeCloseTo(0.17, 2);
    expect(found.randomSingle.value).toBeCloseTo(0.29, 2);
    expect(found.fixedSingle.value).toBeCloseTo(0.71, 2);
    const missed = agreementStudy([...judged(JUDGED), { subject: 'seventh', rater: '0', value: 40 }]);
    expect(missed.subjects).toHaveLength(7);
    expect(missed.complete).toHaveLength(6);
    expect(unwrap(missed.correlations).randomSingle).toEqual(found.randomSingle);
    expect(missed.columns[0]?.values[6]).toBe(40);
    expect(missed.columns[1]?.values[6]).toBeNull();
  });

  it('takes first readings for agreement, whatever comes between them', () => {
    // All of the mini meter's readings first, person by person backwards; each person's two stay in order.
    const shuffled = [...flowReadings].sort(
      (one, other) =>
        Number(one.rater === 'Wright') - Number(other.rater === 'Wright') ||
        other.subject.localeCompare(one.subject),
    );
    const limits = unwrap(agreementStudy(shuffled).pairs[0]!.limits);
    const straight = unwrap(agreementStudy(flowReadings).pairs[0]!.limits);
    expect(Math.abs(limits.meanDifference.value)).toBeCloseTo(Math.abs(straight.meanDifference.value), 9);
    expect(limits.sd).toBeCloseTo(straight.sd, 9);
  });

  it('lets the rounds of a single rater stand for raters', () => {
    const alone = flowReadings.filter(({ rater }) => rater === 'Wright');
    const study = agreementStudy(alone);
    expect(study.columns.map(({ label }) => label)).toEqual(['Wright, round 1', 'Wright, round 2']);
    // Differences of the two rounds by hand: their sum over 17.
    const mean = FLOW.reduce((sum, [one, two]) => sum + one - two, 0) / 17;
    expect(unwrap(study.pairs[0]!.limits).meanDifference.value).toBeCloseTo(mean, 9);
    expect(unwrap(study.pairs[0]!.proportion).errors).toBe('of one rater');
  });

  it('fails part by part', () => {
    const study = agreementStudy([{ subject: 'a', rater: 'A', value: 3 }]);
    expect(errorOf(study.correlations)).toMatchObject({ kind: 'too-few-subjects' });
    expect(errorOf(study.pooledRepeats)).toEqual({ kind: 'no-repeats' });
    expect(study.pairs).toEqual([]);
    expect(agreementStudy([]).subjects).toEqual([]);
  });
});

describe('simulated raters of known error', () => {
  /** Two rounds by three raters with these systematic errors, on subjects spread over 20–60°. */
  const BIAS = { A: 0, B: 2, C: -1 } as const;
  const SPREAD = 3;
  const simulated = (seed: number, films = 15) => {
    const deviate = normalDeviates(seed);
    const truth = new Map<string, number>();
    const readings: RatedReading[] = [];
    for (let film = 0; film < films; film += 1) truth.set(`film ${film}`, 40 + 12 * deviate());
    for (let round = 0; round < 2; round += 1) {
      for (const [subject, value] of truth) {
        for (const [rater, bias] of Object.entries(BIAS)) {
          readings.push({ subject, rater, value: value + bias + SPREAD * deviate() });
        }
      }
    }
    return { truth, readings };
  };

  it('are recovered within the study’s own 95 % limits about 95 times in 100', () => {
    const studies = 150;
    const held = { sd: 0, bias: 0, difference: 0 };
    for (let seed = 1; seed <= studies; seed += 1) {
      const { truth, readings } = simulated(seed);
      const study = agreementStudy(readings);
      const { limits } = unwrap(study.pooledRepeats);
      if (limits.low <= SPREAD && SPREAD <= limits.high) held.sd += 1;
      const ofB = errorsAgainstTruth(readings, truth).find(({ rater }) => rater === 'B')!;
      const error = unwrap(ofB.limits).meanDifference.interval;
      if (error.low <= BIAS.B && BIAS.B <= error.high) held.bias += 1;
      const pair = study.pairs.find(({ first, second }) => first === 'A' && second === 'B')!;
      const apart = unwrap(pair.limits).meanDifference.interval;
      if (apart.low <= BIAS.A - BIAS.B && BIAS.A - BIAS.B <= apart.high) held.difference += 1;
    }
    // Three standard errors of a share of 0.95 in 150: 3 √(0.95 · 0.05 / 150) = 0.053.
    for (const count of Object.values(held)) expect(Math.abs(count / studies - 0.95)).toBeLessThan(0.053);
  });

  it('do not hold the wrong error: twice the spread is outside the limits of nearly every study', () => {
    let held = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const { limits } = unwrap(agreementStudy(simulated(seed).readings).pooledRepeats);
      if (limits.low <= 2 * SPREAD && 2 * SPREAD <= limits.high) held += 1;
    }
    expect(held).toBe(0);
  });

  it('give a root mean square error of bias and spread together', () => {
    // √(2² + 3²) = 3.606 for rater B; 600 readings, so its standard error is about 0.1.
    const { truth, readings } = simulated(7, 300);
    const ofB = errorsAgainstTruth(readings, truth).find(({ rater }) => rater === 'B')!;
    expect(ofB.readings).toBe(600);
    expect(Math.abs(ofB.rms - Math.hypot(2, 3))).toBeLessThan(0.3);
    expect(errorsAgainstTruth(readings, new Map())).toEqual([]);
  });
});
