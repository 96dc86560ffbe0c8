import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Caution } from '../../src/tolerance/caution.ts';
import type { CautionFacts } from '../../src/tolerance/caution-facts.ts';
import { cautionsFor } from '../../src/tolerance/cautions.ts';
import { checksFor, EXAMINATION_CHECKS } from '../../src/tolerance/checks.ts';
import { facts, film, REASSURING, reading } from './caution-facts-builder.ts';

const ids = (from: CautionFacts): readonly string[] => cautionsFor(from).map((caution) => caution.id);

/** What a case with nothing wrong still says. */
const QUIET = ['angle-is-not-decision', 'second-look-only'];

const complete = (caution: Caution) => {
  for (const words of [caution.title, caution.why, caution.usually, caution.source])
    expect(words.trim().length, caution.id).toBeGreaterThan(3);
  expect(caution.why, caution.id).toMatch(/[.?]$/);
  expect(caution.usually, caution.id).toMatch(/\.$/);
};

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

describe('examination', () => {
  const childBase = { ray: 'ring', region: 'base', pattern: null, ageGroup: 'child' } as const;

  it.each(EXAMINATION_CHECKS.map((check) => [check.id, check] as const))(
    '%s, answered worryingly',
    (id, check) => {
      const raised = cautionsFor(
        facts({ injury: childBase, answers: { ...REASSURING, [id]: check.worrying } }),
      );
      const caution = raised.find((candidate) => candidate.id === id);
      expect(caution).toMatchObject({
        about: 'examination',
        grade: check.whenWorrying.grade,
        title: check.whenWorrying.title,
      });
      complete(caution!);
      expect(raised.some((candidate) => candidate.id === `${id}-not-checked`)).toBe(false);
    },
  );

  it.each(EXAMINATION_CHECKS.map((check) => [check.id, check] as const))('%s, not answered', (id, check) => {
    const { [id]: _, ...answers } = REASSURING;
    const raised = cautionsFor(facts({ injury: childBase, answers }));
    const caution = raised.find((candidate) => candidate.id === `${id}-not-checked`);
    expect(caution !== undefined).toBe(check.whenUnanswered !== null);
    if (caution !== undefined) complete(caution);
    expect(raised.some((candidate) => candidate.id === id)).toBe(false);
  });

  // Common practice, no source: what must stop the reader before any number.
  it.each(['knuckle-wound', 'open-fracture', 'circulation', 'tense-swelling', 'rotation'])(
    '%s stops, and is missed when it was not asked',
    (id) => {
      const check = EXAMINATION_CHECKS.find((candidate) => candidate.id === id);
      expect(check?.whenWorrying.grade).toBe('stop');
      expect(check?.whenUnanswered).not.toBeNull();
    },
  );

  it('knows which answer is the worrying one: "yes" but where the question asks for what is well', () => {
    const well = EXAMINATION_CHECKS.filter((check) => check.worrying === 'no').map((check) => check.id);
    expect(well).toEqual(['circulation', 'held-after-reduction']);
  });

  it('covers what the sources of section "cautions" name', () => {
    // Refer or operate flags of the Springer chapter, the family practice cards and the WikEM neck page.
    expect(new Set(EXAMINATION_CHECKS.map((check) => check.id))).toEqual(
      new Set([
        'knuckle-wound',
        'rotation',
        'open-fracture',
        'several-metacarpals',
        'comminuted',
        'joint-surface',
        'cmc-dislocation',
        'tense-swelling',
        'circulation',
        'held-after-reduction',
        'growth-plates',
        'bone-lesion',
      ]),
    );
  });

  it('takes a comminuted or articular pattern as the answer, unless the check itself was answered', () => {
    const { comminuted: _, 'joint-surface': __, ...open } = REASSURING;
    const of = (pattern: 'comminuted' | 'articular', answers: CautionFacts['answers']) =>
      ids(facts({ injury: { ...facts().injury, pattern }, answers }));
    expect(of('comminuted', open)).toContain('comminuted');
    expect(of('articular', open)).toContain('joint-surface');
    expect(of('comminuted', REASSURING)).not.toContain('comminuted');
    expect(of('articular', REASSURING)).not.toContain('joint-surface');
  });

  it('asks about growth plates in children only, about the carpometacarpal joint at the base only', () => {
    const asked = (injury: Parameters<typeof checksFor>[0]) => checksFor(injury).map((check) => check.id);
    expect(asked({ region: 'neck', ageGroup: 'adult' })).not.toContain('growth-plates');
    expect(asked({ region: 'neck', ageGroup: 'adult' })).not.toContain('cmc-dislocation');
    expect(asked({ region: 'base', ageGroup: 'child' })).toEqual(EXAMINATION_CHECKS.map((check) => check.id));
    expect(asked({ region: null, ageGroup: null })).toEqual(EXAMINATION_CHECKS.map((check) => check.id));
  });

  it('misses no check that is not known to be meant', () => {
    const injury = { ray: null, region: null, pattern: null, ageGroup: null };
    const raised = ids(facts({ injury, answers: {} }));
    expect(raised).toContain('rotation-not-checked');
    expect(raised).not.toContain('growth-plates-not-checked');
    expect(raised).not.toContain('cmc-dislocation-not-checked');
  });
});

describe('injury', () => {
  it.each([
    ['small-finger-base', { ray: 'small', region: 'base' }],
    ['thumb-base', { ray: 'thumb', region: 'base' }],
    ['thumb-own-rules', { ray: 'thumb', region: 'shaft' }],
    ['child', { ageGroup: 'child' }],
  ] as const)('%s', (id, change) => {
    const raised = cautionsFor(facts({ injury: { ...facts().injury, ...change } }));
    const caution = raised.find((candidate) => candidate.id === id);
    complete(caution!);
  });

  it('sends the thumb of a child to its own guideline', () => {
    const injury = { ray: 'thumb', region: 'shaft', pattern: null, ageGroup: 'child' } as const;
    const child = cautionsFor(facts({ injury })).find((caution) => caution.id === 'child');
    expect(child?.why).toContain('own guideline');
  });
});

describe('films', () => {
  const spacing = film().spacing;
  const ratio = { kind: 'ratio', rowToColumn: 1, origin: 'PixelAspectRatio', conflicts: [] } as const;

  it.each([
    ['side-disagrees', { statedSide: 'L' }],
    ['oblique-view', { view: 'oblique' }],
    ['view-not-said', { view: null }],
    ['short-lever', { axes: [{ name: 'distal axis', lengthMm: 5.9, lengthInPlacingErrors: 11.8 }] }],
    [
      'short-for-placing-error',
      { axes: [{ name: 'distal axis', lengthMm: 9, lengthInPlacingErrors: 19.9 }] },
    ],
    ['few-pixels', { reachPixels: 114 }],
    ['few-pixels', { reachPixels: 229, lossy: true }],
    ['slanted-photograph', { slant: { upToDegrees: null } }],
    ['slanted-photograph', { slant: { upToDegrees: 6.24 } }],
    ['pixel-shape-assumed', { spacing: { ...ratio, origin: 'assumed-square' } }],
    ['spacing-conflict', { spacing: { ...spacing, conflicts: ['Two spacings disagree.'] } }],
    ['no-spacing', { spacing: ratio }],
    ['mirrored', { mirrored: true }],
    ['burned-in-text', { burnedIn: true }],
    ['spacing-at-detector', { spacing: { ...spacing, plane: 'detector' } }],
    ['spacing-plane-not-known', { spacing: { ...spacing, plane: 'not-known' } }],
    ['unequal-spacing', { spacing: { ...spacing, rowSpacingMm: 0.2 } }],
    ['unequal-spacing', { spacing: { ...ratio, rowToColumn: 1.2 } }],
    ['lossy-compression', { lossy: true }],
    ['invented-film', { invented: true }],
  ] as const)('%s', (id, change) => {
    const other = film({ name: 'PA of day 0', view: 'pa', axes: [] });
    const raised = cautionsFor(facts({ films: [film(change as Parameters<typeof film>[0]), other] }));
    const caution = raised.find((candidate) => candidate.id === id);
    expect(caution).toMatchObject({ about: 'film', films: ['film of day 0'] });
    complete(caution!);
  });

  it('names every film it concerns, once', () => {
    const films = [film({ lossy: true }), film({ name: 'PA of day 0', view: 'pa', lossy: true })];
    const lossy = cautionsFor(facts({ films })).filter((caution) => caution.id === 'lossy-compression');
    expect(lossy.map((caution) => caution.films)).toEqual([['film of day 0', 'PA of day 0']]);
  });

  it('asks for twice the pixels after compression with loss, where a whole one is the least that is placed to', () => {
    expect(ids(facts({ films: [film({ reachPixels: 229 })] }))).not.toContain('few-pixels');
    expect(ids(facts({ films: [film({ reachPixels: 230, lossy: true })] }))).not.toContain('few-pixels');
    // Two axes of half that length, placed to one pixel: √2 · √2 · 1 / (230 / 2) rad.
    expect((4 / 230) * (180 / Math.PI)).toBeCloseTo(1, 2);
  });

  it('is quiet at the thresholds: 6 mm, 20 placing errors, 115 pixels', () => {
    const axes = [{ name: 'distal axis', lengthMm: 6, lengthInPlacingErrors: 20 }];
    const raised = ids(facts({ films: [film({ axes, reachPixels: 115 }), film({ view: 'pa' })] }));
    expect(raised).not.toContain('few-pixels');
    // 115 pixels is where two axes of half that length, placed to half a pixel, give 1°: 2/115 rad.
    expect((2 / 115) * (180 / Math.PI)).toBeCloseTo(1, 2);
    expect(raised).not.toContain('short-lever');
    expect(raised).not.toContain('short-for-placing-error');
  });

  it('counts the lever in placing errors where there are no millimetres', () => {
    const axes = [{ name: 'distal axis', lengthMm: null, lengthInPlacingErrors: 10 }];
    expect(ids(facts({ films: [film({ axes, spacing: ratio }), film({ view: 'pa' })] }))).toContain(
      'short-for-placing-error',
    );
  });

  it('is quiet about what the file does not say', () => {
    const silent = film({ lossy: null, burnedIn: null, statedSide: null });
    expect(ids(facts({ films: [silent, film({ view: 'pa' })] }))).toEqual(QUIET);
  });

  it('minds an oblique film only when something is read from it', () => {
    expect(ids(facts({ films: [film(), film({ view: 'oblique', axes: [] })] }))).not.toContain(
      'oblique-view',
    );
  });

  it('never offers a conversion for oblique films', () => {
    // Lamraski 2006: oblique reads up to 35° high; geometry alone says low. No cosine.
    const oblique = cautionsFor(facts({ films: [film({ view: 'oblique' })] })).find(
      (caution) => caution.id === 'oblique-view',
    );
    expect(oblique?.why).toContain('35°');
    expect(oblique?.why).toContain('no safe conversion');
  });

  it('takes the side of either hand, and no side for "both" or "unpaired"', () => {
    const side = (statedSide: 'L' | 'R' | 'B' | 'U' | null, expectedSide: 'left' | 'right' | null) =>
      ids(facts({ films: [film({ statedSide, expectedSide }), film({ view: 'pa' })] })).includes(
        'side-disagrees',
      );
    expect(side('R', 'left')).toBe(true);
    expect(side('R', 'right')).toBe(false);
    expect(side('B', 'left')).toBe(false);
    expect(side('U', 'left')).toBe(false);
    expect(side('L', null)).toBe(false);
  });

  it('asks for a second view of the injured hand, whatever the other hand has', () => {
    expect(ids(facts({ films: [film(), film({ hand: 'other', view: 'pa' })] }))).toContain('one-view-only');
    expect(ids(facts({ films: [film(), film({ name: 'day 7' })] }))).toContain('one-view-only');
    expect(ids(facts({ films: [] }))).not.toContain('one-view-only');
  });
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
