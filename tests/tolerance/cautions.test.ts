import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cautionsFor } from '../../src/tolerance/cautions.ts';
import { EXAMINATION_CHECKS } from '../../src/tolerance/checks.ts';
import { facts, film, REASSURING, reading } from './caution-facts-builder.ts';
import { complete, ids, QUIET } from './said-cautions.ts';

it('says little of an examined hand on good films, but never nothing', () => {
  expect(ids(facts())).toEqual(QUIET);
  const empty = {
    injury: { ray: null, region: null, pattern: null, ageGroup: null },
    answers: REASSURING,
    films: [],
    readings: [],
    changes: [],
  };
  expect(ids(empty)).toEqual(['second-look-only']);
});

describe('readings', () => {
  const comparison = reading().comparisons[0]!;

  it.each([
    [
      'limits-of-another-age',
      { comparisons: [{ ...comparison, population: 'child', limitSetTitle: 'Children, shaft' }] },
      'Children, shaft',
    ],
    ['cannot-tell', { comparisons: [{ ...comparison, outcome: 'cannot tell' }] }, 'not the same as inside'],
    [
      'limit-sets-disagree',
      { comparisons: [comparison, { ...comparison, outcome: 'past the limit' }] },
      '15° to 70°',
    ],
    [
      'limit-drawn-otherwise',
      { comparisons: [{ ...comparison, methodMismatch: '“Strict” is for another view.' }] },
      'is for another view',
    ],
    ['normal-drawn-otherwise', { normalMismatch: '“Bend” follows the canal.' }, 'follows the canal'],
    ['normal-from-table', { normalFrom: 'published' }, '10°'],
    ['normal-taken-as-zero', { normalFrom: 'zero' }, 'overstated'],
    ['direction-not-marked', { signed: false }, 'no sign'],
  ] as const)('%s', (id, change, words) => {
    const raised = cautionsFor(facts({ readings: [reading(change as Parameters<typeof reading>[0])] }));
    const caution = raised.find((candidate) => candidate.id === id);
    expect(caution).toMatchObject({ about: 'reading', films: [] });
    expect(caution?.why).toContain(words);
    complete(caution!);
  });

  it('says when the spread of the norm is assumed', () => {
    const why = (normalSpreadAssumed: boolean) =>
      cautionsFor(facts({ readings: [reading({ normalFrom: 'published', normalSpreadAssumed })] })).find(
        (caution) => caution.id === 'normal-from-table',
      )?.why;
    expect(why(true)).toContain('an assumption');
    expect(why(false)).not.toContain('an assumption');
  });

  it('sees no disagreement in a set that has no limit on file', () => {
    const comparisons = [comparison, { ...comparison, outcome: 'no limit on file' as const }];
    expect(ids(facts({ readings: [reading({ comparisons })] }))).toEqual(QUIET);
  });

  it('sees no disagreement between two readings, which may be of two days', () => {
    const past = reading({ comparisons: [{ ...comparison, outcome: 'past the limit' }] });
    expect(ids(facts({ readings: [past, reading()] }))).not.toContain('limit-sets-disagree');
  });

  it('says that the angle is not the decision, inside and past alike, once there is an outcome', () => {
    const of = (outcome: 'inside the limit' | 'past the limit' | 'no limit on file') =>
      ids(facts({ readings: [reading({ comparisons: [{ ...comparison, outcome }] })] }));
    expect(of('inside the limit')).toContain('angle-is-not-decision');
    expect(of('past the limit')).toContain('angle-is-not-decision');
    expect(of('no limit on file')).not.toContain('angle-is-not-decision');
  });
});

describe('order', () => {
  const answers = fc.dictionary(
    fc.constantFrom(...EXAMINATION_CHECKS.map((check) => check.id)),
    fc.constantFrom('yes' as const, 'no' as const),
  );
  const anyFilm = fc
    .record({
      view: fc.constantFrom('pa' as const, 'oblique' as const, 'lateral' as const, null),
      statedSide: fc.constantFrom('L' as const, 'R' as const, null),
      mirrored: fc.boolean(),
      lossy: fc.boolean(),
      invented: fc.boolean(),
    })
    .map((change) => film(change));
  const anyFacts = fc
    .record({
      answers,
      films: fc.array(anyFilm, { maxLength: 3 }),
      ageGroup: fc.constantFrom('adult' as const, 'child' as const, null),
    })
    .map(({ ageGroup, ...rest }) => facts({ ...rest, injury: { ...facts().injury, ageGroup } }));

  it('is worst first, each once, and ends with what is always on', () => {
    const rank = { stop: 0, warn: 1, note: 2 } as const;
    fc.assert(
      fc.property(anyFacts, (given) => {
        const cautions = cautionsFor(given);
        const ranks = cautions.map((caution) => rank[caution.grade]);
        expect(ranks).toEqual(ranks.toSorted((one, other) => one - other));
        expect(new Set(cautions.map((caution) => caution.id)).size).toBe(cautions.length);
        expect(cautions.at(-1)?.id).toBe('second-look-only');
      }),
    );
  });

  it('does not move when a caution comes or goes', () => {
    fc.assert(
      fc.property(anyFacts, (given) => {
        const before = ids(given);
        const after = ids({ ...given, films: given.films.map((one) => ({ ...one, lossy: true })) });
        expect(after.filter((id) => id !== 'lossy-compression' && id !== 'few-pixels')).toEqual(
          before.filter((id) => id !== 'lossy-compression' && id !== 'few-pixels'),
        );
      }),
    );
  });

  it('puts what the hand shows before what the film does', () => {
    const raised = cautionsFor(
      facts({
        answers: { ...REASSURING, rotation: 'yes' },
        films: [film({ statedSide: 'L' }), film({ view: 'pa' })],
      }),
    );
    expect(raised.slice(0, 2).map((caution) => caution.id)).toEqual(['rotation', 'side-disagrees']);
  });
});
