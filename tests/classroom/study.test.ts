import { describe, expect, it } from 'vitest';
import { drawnSet } from '../../src/classroom/drawn-sets.ts';
import {
  axesOf,
  joinedStudies,
  nextTurn,
  orderFor,
  ratedReadings,
  readStudy,
  type Study,
  withReading,
  writeStudy,
} from '../../src/classroom/study.ts';
import { agreementStudy } from '../../src/geometry/statistics/agreement-study.ts';
import { errorOf, normalDeviates, unwrap } from '../geometry/support.ts';

const study: Study = {
  id: 'class',
  title: 'Class of spring',
  films: drawnSet('everyday', 12, 9).films,
  raters: [
    { label: 'A', axes: null },
    { label: 'B', axes: null },
  ],
  rounds: 2,
  seed: 4711,
  readings: [],
};

/** Everybody measures everything: what they read follows from the film and, with a seed, from chance. */
function measured(of: Study, read: (film: number, rater: string) => number): Study {
  let current = of;
  for (const { label } of of.raters) {
    for (let turn = nextTurn(current, label); turn !== null; turn = nextTurn(current, label)) {
      const film = of.films.findIndex(({ id }) => id === turn?.film.id);
      current = withReading(current, {
        filmId: turn.film.id,
        rater: label,
        round: turn.round,
        value: read(film, label),
        standardUncertainty: 3,
      });
    }
  }
  return current;
}

describe('the order of a study', () => {
  it('shows every film once a round, and is drawn anew for every rater and round', () => {
    const orders = ['A', 'B'].flatMap((rater) =>
      [1, 2].map((round) => orderFor(study, rater, round).map(({ id }) => id)),
    );
    const all = study.films.map(({ id }) => id).sort();
    for (const order of orders) expect([...order].sort()).toEqual(all);
    expect(new Set(orders.map((order) => order.join(' '))).size).toBe(4);
    expect(orderFor(study, 'A', 1)).toEqual(orderFor({ ...study }, 'A', 1));
    expect(orderFor({ ...study, seed: 4712 }, 'A', 1)).not.toEqual(orderFor(study, 'A', 1));
  });

  it('favours no film: each comes first about equally often', () => {
    const first = new Map<string, number>();
    const draws = 6000;
    for (let seed = 0; seed < draws; seed += 1) {
      const [film] = orderFor({ ...study, seed }, 'A', 1);
      first.set(film!.id, (first.get(film!.id) ?? 0) + 1);
    }
    const expected = draws / study.films.length;
    const chi = [...first.values()].reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    // Chi-square with 11 degrees of freedom: 31.26 is passed once in a thousand (table of the chi-square distribution).
    expect(first.size).toBe(12);
    expect(chi).toBeLessThan(31.26);
  });

  it('goes on where a rater stopped, and ends when all is measured', () => {
    expect(nextTurn(study, 'A')).toMatchObject({ round: 1, number: 1, of: 24 });
    const whole = measured(study, (film) => 20 + film);
    expect(whole.readings).toHaveLength(48);
    expect(nextTurn(whole, 'A')).toBeNull();
    expect(nextTurn({ ...whole, readings: whole.readings.slice(0, 13) }, 'A')).toMatchObject({
      round: 2,
      number: 14,
    });
  });

  it('says how a rater has to draw, where methods are compared', () => {
    const raters = [{ label: 'canal', axes: 'canal' as const }, study.raters[1]!];
    expect(axesOf({ raters }, 'canal')).toBe('canal');
    expect(axesOf({ raters }, 'B')).toBeNull();
    expect(axesOf({ raters }, 'nobody')).toBeNull();
  });

  it('never changes a reading that was kept', () => {
    const reading = { filmId: 'film-1', rater: 'A', round: 1, value: 30, standardUncertainty: 3 };
    const once = withReading(study, reading);
    expect(withReading(once, { ...reading, value: 50 })).toEqual(once);
  });
});

describe('the file of a study', () => {
  const whole = measured(study, (film, rater) => 20 + 3 * film + (rater === 'B' ? 2 : 0));

  it('comes back as it was', () => {
    expect(unwrap(readStudy(writeStudy(whole)))).toEqual(whole);
  });

  it('is refused when a reading belongs to no film or rater, or two raters share a label', () => {
    const reading = { filmId: 'nowhere', rater: 'A', round: 1, value: 1, standardUncertainty: 1 };
    expect(errorOf(readStudy(writeStudy({ ...study, readings: [reading] })))).toMatchObject({
      path: 'readings.0',
    });
    expect(
      errorOf(readStudy(writeStudy({ ...study, readings: [{ ...reading, filmId: 'film-1', round: 3 }] }))),
    ).toMatchObject({ path: 'readings.0' });
    const once = { ...reading, filmId: 'film-1' };
    const twice = { ...study, readings: [once, { ...once, rater: 'B' }, { ...once, value: 9 }] };
    expect(errorOf(readStudy(writeStudy(twice)))).toEqual({
      kind: 'invalid',
      path: 'readings.2',
      problem: 'the same film, rater and round as readings.0',
    });
    const twins = { ...study, raters: [study.raters[0]!, study.raters[0]!] };
    expect(errorOf(readStudy(writeStudy(twins)))).toMatchObject({ path: 'raters' });
  });

  it('is put together from copies that raters measured on their own', () => {
    const of = (rater: string) => ({
      ...whole,
      readings: whole.readings.filter((one) => one.rater === rater),
    });
    const joined = unwrap(joinedStudies(of('A'), of('B')));
    expect(ratedReadings(joined)).toHaveLength(48);
    expect(agreementStudy(ratedReadings(joined))).toEqual(agreementStudy(ratedReadings(whole)));
    expect(errorOf(joinedStudies(whole, { ...whole, id: 'another' }))).toEqual({ kind: 'other-study' });
    // Where both hold the same one, the first copy's stands.
    const other = { ...whole, readings: whole.readings.map((one) => ({ ...one, value: 99 })) };
    expect(unwrap(joinedStudies(whole, other))).toEqual(whole);
  });
});

describe('what a study finds of simulated raters', () => {
  it('holds their known error: the spread of each and the difference between them', () => {
    const deviate = normalDeviates(31);
    const truth = study.films.map(() => 40 + 12 * deviate());
    const SPREAD = 2.5;
    const BIAS = 3;
    const whole = measured(
      study,
      (film, rater) => truth[film]! + (rater === 'B' ? BIAS : 0) + SPREAD * deviate(),
    );
    const found = agreementStudy(ratedReadings(whole));
    const { limits } = unwrap(found.pooledRepeats);
    expect(limits.low).toBeLessThan(SPREAD);
    expect(limits.high).toBeGreaterThan(SPREAD);
    const { meanDifference } = unwrap(found.pairs[0]!.limits);
    expect(meanDifference.interval.low).toBeLessThan(-BIAS);
    expect(meanDifference.interval.high).toBeGreaterThan(-BIAS);
    // Neither is so wide that it would hold anything.
    expect(limits.high / limits.low).toBeLessThan(2);
  });
});
