import { describe, expect, it } from 'vitest';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord, MarkRole } from '../../../src/case/document.ts';
import { readingInWords } from '../../../src/case/format.ts';
import type { Reading } from '../../../src/case/reading.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark, settings } from '../samples.ts';

type Pair = readonly [number, number];

const noScale: FilmRecord['spacing'] = {
  kind: 'ratio',
  rowToColumn: 1,
  origin: 'assumed-square',
  conflicts: [],
};
/** A photograph without a scale, unless told otherwise. */
const photograph = (id: string, overrides: Partial<FilmRecord> = {}) =>
  film(id, { shows: 'fist', view: null, viewFrom: null, spacing: noScale, ...overrides });
const across = (filmId: string, role: MarkRole, from: Pair, to: Pair) =>
  mark(`${filmId}/${role}`, filmId, role, {
    construction: 'segment',
    from: filmPoint(...from),
    to: filmPoint(...to),
  });
const tap = (filmId: string, at: Pair) =>
  mark(`${filmId}/covering-edge`, filmId, 'covering-edge', { construction: 'point', at: filmPoint(...at) });

/** The reference upright, 100 pixels long; the finger's nail goes `aside` columns to the right in as many rows up. */
const nails = (filmId: string, aside: number, rows: number) => [
  across(filmId, 'reference-nail', [500, 600], [500, 500]),
  across(filmId, 'finger-nail', [700, 600], [700 + aside, 600 - rows]),
];

const assessed = (...records: readonly CaseRecord[]) =>
  assess(caseOf(injury(), settings(), ...records), SHIPPED_LIMIT_SETS);
const of = (readings: readonly Reading[], id: string) => readings.find((reading) => reading.id === id);
const valueAt = (readings: readonly Reading[], id: string) => {
  const found = of(readings, id);
  return found?.state === 'known' ? found.value : found?.lacks;
};

describe('a photograph of the fist', () => {
  it('gives the direction of the nail and its difference from the mirrored other hand', () => {
    // 60 aside and 80 up: atan(3/4) = 36.87° clockwise. The other hand leans by atan(5/12) = 22.62° the other way,
    // which on the mirrored hand is the same way: 36.87 − 22.62.
    const { readings } = assessed(
      photograph('here'),
      photograph('there', { hand: 'other' }),
      ...nails('here', 60, 80),
      ...nails('there', -50, 120),
    );
    const [here, there] = [Math.atan2(3, 4), Math.atan2(5, 12)].map((angle) => (angle * 180) / Math.PI);
    expect(valueAt(readings, 'here/nail-direction')).toBeCloseTo(here!, 9);
    expect(valueAt(readings, 'there/nail-direction')).toBeCloseTo(-there!, 9);
    expect(valueAt(readings, 'here/nail-direction-difference')).toBeCloseTo(here! - there!, 9);
    expect(of(readings, 'there/nail-direction-difference')).toBeUndefined();
    expect(of(readings, 'here/nail-direction-difference')).toMatchObject({
      basis: expect.stringContaining('in support of the look at the hand, which decides'),
      definition:
        'Direction of the nail on the fist photograph of day 0, less the same on the mirrored fist photograph of the other hand.',
    });
  });

  it('turns the other way where the photograph is mirrored', () => {
    const plain = assessed(photograph('here'), ...nails('here', 60, 80)).readings;
    const mirrored = assessed(photograph('here', { mirrored: true }), ...nails('here', 60, 80)).readings;
    expect(valueAt(mirrored, 'here/nail-direction')).toBe(-(valueAt(plain, 'here/nail-direction') as number));
  });

  it('gives the overlap as a share of the neighbouring nail, the other hand beside it and not taken off', () => {
    const neighbour = (id: string) => across(id, 'neighbour-nail', [800, 500], [880, 500]);
    const { readings } = assessed(
      photograph('here'),
      photograph('there', { hand: 'other' }),
      neighbour('here'),
      neighbour('there'),
      tap('here', [820, 560]),
      tap('there', [792, 560]),
    );
    // 20 of 80 columns covered; on the other hand 8 short of them.
    expect(valueAt(readings, 'here/nail-overlap')).toBeCloseTo(25, 9);
    expect(valueAt(readings, 'there/nail-overlap')).toBeCloseTo(-10, 9);
    const here = of(readings, 'here/nail-overlap');
    if (here?.state !== 'known') throw new Error('an overlap was expected');
    expect(here.unit).toBe('percent of nail width');
    expect(readingInWords(here)).toContain('25\u2009% of the nail');
    expect(here.basis).toMatch(/^Other hand −10\u2009% of the nail ±/);
  });

  it('takes half a millimetre for a twentieth of the longest nail where there is no scale', () => {
    const { readings } = assessed(photograph('here'), ...nails('here', 60, 80));
    const found = of(readings, 'here/nail-direction');
    if (found?.state !== 'known') throw new Error('a direction was expected');
    // 10 mm are 100 pixels, 0.5 mm are 5: each nail's direction √2 · 5/100 rad, both together √2 times that.
    expect(found.standardUncertainty).toBeCloseTo((2 * 5 * 180) / (100 * Math.PI), 4);
    expect(found.budget[0]?.basis).toContain('guessed from the longest nail marked');
    const scaled = assessed(photograph('here', { spacing: film('any').spacing }), ...nails('here', 60, 80));
    expect(of(scaled.readings, 'here/nail-direction')).toMatchObject({
      budget: [{ basis: 'assumed 0.5 mm per coordinate' }, { basis: 'assumed 0.5 mm per coordinate' }],
    });
  });

  it('says how far a slant may put a direction off', () => {
    const { readings } = assessed(
      photograph('here', { slant: { upToDegrees: 3.25 } }),
      ...nails('here', 60, 80),
    );
    expect(of(readings, 'here/nail-direction')).toMatchObject({
      leavesOut: expect.stringContaining('may be 3.3° off'),
    });
  });

  it.each([
    [
      'the other nail',
      [across('here', 'finger-nail', [0, 9], [0, 0])],
      'nail-direction',
      /reference finger.*mark it/,
    ],
    [
      'the finger',
      [across('here', 'reference-nail', [0, 9], [0, 0])],
      'nail-direction',
      /nail of the finger.*mark it/,
    ],
    [
      'the other hand',
      nails('here', 60, 80),
      'nail-direction-difference',
      /add a photograph of the other fist/,
    ],
    [
      'the edge',
      [across('here', 'neighbour-nail', [0, 0], [90, 0])],
      'nail-overlap',
      /foremost edge.*mark it/,
    ],
    ['the width', [tap('here', [4, 4])], 'nail-overlap', /width of the neighbouring nail.*mark it/],
    [
      'a length',
      [across('here', 'neighbour-nail', [8, 8], [8, 8]), tap('here', [4, 4])],
      'nail-overlap',
      /no length, because its points coincide/,
    ],
    [
      'a direction',
      [...nails('here', 60, 80).slice(0, 1), across('here', 'finger-nail', [0, 10], [0, 0])],
      'nail-direction',
      /too short to have a direction/,
    ],
    [
      'the way from fold to tip',
      [...nails('here', 60, 80).slice(0, 1), across('here', 'finger-nail', [760, 520], [700, 600])],
      'nail-direction',
      /point 143° apart.*each from the fold to the tip/,
    ],
  ] as const)('says that %s is wanting, and gives no number', (_, marks, quantity, sentence) => {
    expect(valueAt(assessed(photograph('here'), ...marks).readings, `here/${quantity}`)).toMatch(sentence);
  });

  it('asks to mark the other hand when its photograph bears no nails', () => {
    const { readings } = assessed(
      photograph('here'),
      photograph('there', { hand: 'other' }),
      ...nails('here', 60, 80),
    );
    expect(valueAt(readings, 'here/nail-direction-difference')).toMatch(/mark the same two nails there/);
  });

  it('is compared with no limit, is in no series, and settles nothing', () => {
    const bare = assessed(photograph('here'), photograph('there', { hand: 'other' }));
    const marked = assessed(
      photograph('here'),
      photograph('there', { hand: 'other' }),
      ...nails('here', 60, 80),
      ...nails('there', 60, 80),
      across('here', 'neighbour-nail', [800, 500], [880, 500]),
      tap('here', [870, 560]),
    );
    expect(marked.comparisons).toEqual([]);
    expect(marked.course).toEqual([]);
    expect(marked.cautions).toEqual(bare.cautions);
    expect(marked.next).toEqual(bare.next);
    // It is no film to measure an angle on: one is still asked for.
    expect(marked.next).toMatchObject({ line: 'film' });
  });

  it('bears no angle, though axes stood on it before it was said to be a photograph', () => {
    const axes = [
      mark('here/proximal-axis', 'here', 'proximal-axis', free([1000, 2000], [1000, 1600])),
      mark('here/distal-axis', 'here', 'distal-axis', free([1000, 1500], [1100, 1220])),
    ];
    expect(assessed(film('here'), ...axes).readings.map(({ quantity }) => quantity)).toContain('angulation');
    expect(assessed(photograph('here'), ...axes).readings).toEqual([]);
  });
});
