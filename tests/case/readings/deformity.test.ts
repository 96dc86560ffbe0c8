import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord, MarkShape } from '../../../src/case/document.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { expectAsPrinted, workedExamples } from '../../geometry/worked-examples.ts';
import { assessed, at, films, knownReading, reading } from '../assessed.ts';
import { caseOf, injury, mark, settings } from '../samples.ts';

const conventional = workedExamples('deformity', z.object({ measured: z.number() }));

describe('deformity by the conventional normal', () => {
  it.each(conventional)('$name', (example) => {
    const found = assessed(...films('film-a', example.given.measured), settings({ normal: 'published' }));
    expectAsPrinted(example, { deformity: knownReading(found, 'film-a', 'deformity').value });
  });
});

describe('deformity', () => {
  const hands = (overrides: Partial<FilmRecord> = {}, otherTapped: 'left' | null = 'left') => [
    ...films('film-a', 32),
    ...films('film-b', 12, { hand: 'other', ...overrides }, otherTapped),
  ];

  it('is the measured angle less the other hand’s, and the variances add', () => {
    const found = assessed(...hands());
    const normal = knownReading(found, 'film-a', 'normal');
    expect(normal.value).toBeCloseTo(12, 9);
    expect(normal.basis).toBe('Other hand, lateral film of the other hand');
    const deformity = knownReading(found, 'film-a', 'deformity');
    expect(deformity.value).toBeCloseTo(20, 9);
    // √2 · 1.68810° = 2.38733°, since both films have axes of the same lengths.
    expect(deformity.standardUncertainty).toBeCloseTo(2.38733, 4);
    expect(deformity.apex).toBe('apex dorsal');
    expect(deformity.budget.reduce((sum, line) => sum + line.share, 0)).toBeCloseTo(1, 9);
  });

  it('is not taken from another view, nor from axes built otherwise', () => {
    const onlyOther = settings({ normal: 'other-hand' });
    const view = assessed(...hands({ view: 'oblique' }), onlyOther);
    expect(reading(view, 'film-a', 'deformity')).toMatchObject({
      state: 'missing',
      lacks: 'The other hand is not measured in the lateral view: add its film and place both axes there.',
    });
    const cortex: MarkShape = { construction: 'dorsal-cortex', points: [at(1000, 2000), at(1000, 1600)] };
    const built = assessed(
      ...hands(),
      mark('film-b/proximal-axis', 'film-b', 'proximal-axis', cortex),
      onlyOther,
    );
    expect(reading(built, 'film-a', 'normal')).toMatchObject({
      state: 'missing',
      lacks: expect.stringContaining('build both alike'),
    });
  });

  it('takes the best there is: the other hand, else a published norm, else zero', () => {
    const published = assessed(...films('film-a', 32));
    // literature.md: conventional head-to-neck angle 15°; its spread is assumed, SD 5°.
    const normal = knownReading(published, 'film-a', 'normal');
    expect(normal.value).toBe(15);
    expect(normal.standardUncertainty).toBeCloseTo(5, 9);
    // √(5² + 1.68810²) = 5.27727
    expect(knownReading(published, 'film-a', 'deformity').standardUncertainty).toBeCloseTo(5.27727, 4);
    expect(published.cautions.map((caution) => caution.id)).toContain('normal-from-table');

    const zero = assess(caseOf(injury({ region: 'head' }), ...films('film-a', 32)), SHIPPED_LIMIT_SETS);
    expect(knownReading(zero, 'film-a', 'normal')).toMatchObject({ value: 0, standardUncertainty: 0 });
    expect(knownReading(zero, 'film-a', 'deformity').value).toBeCloseTo(32, 9);
    expect(zero.cautions.map((caution) => caution.id)).toContain('normal-taken-as-zero');
  });

  it('needs the direction on both hands where the bone may be bent either way', () => {
    const pa = [
      ...films('film-a', 12, { view: 'pa' }),
      ...films('film-b', 4, { view: 'pa', hand: 'other' }, null),
      settings({ normal: 'other-hand' }),
    ];
    expect(reading(assessed(...pa), 'film-a', 'deformity')).toMatchObject({
      lacks:
        'Which way the bone is bent is not said: tap the radial side on the PA film of day 0 and on the PA film of the other hand.',
    });
  });
});

describe('comparison with limits', () => {
  const small = (apart: number, ...more: readonly CaseRecord[]) =>
    assessed(...films('film-a', apart), ...more);

  // Common practice: the small finger's neck is accepted up to 50–60° of deformity (limits.md).
  it.each([
    [20, 'inside the limit'],
    [55, 'cannot tell'],
    [75, 'past the limit'],
  ] as const)('says of a deformity of %d°: %s', (apart, outcome) => {
    const [first] = small(apart, settings({ normal: 'zero' })).comparisons;
    expect(first).toMatchObject({
      outcome,
      readingId: 'film-a/deformity',
      comparedWith: 'deformity',
      row: { band: { lo: 50, hi: 60 } },
    });
    expect(first?.words.toLowerCase()).toContain(outcome);
  });

  it('follows the order of the chosen sets and names those that are not here', () => {
    const found = small(30, settings({ limitSetIds: ['strict-neck', 'gone', 'common-practice-adult'] }));
    expect(found.comparisons.map((comparison) => comparison.limitSet.id)).toEqual([
      'strict-neck',
      'common-practice-adult',
    ]);
    expect(found.missingLimitSetIds).toEqual(['gone']);
  });

  it('waits until the finger, its part and the view are said', () => {
    const records = films('film-a', 20);
    expect(assess(caseOf(injury({ ray: null }), ...records), SHIPPED_LIMIT_SETS).comparisons).toEqual([]);
    expect(assess(caseOf(injury({ region: null }), ...records), SHIPPED_LIMIT_SETS).comparisons).toEqual([]);
    expect(assessed(...films('film-a', 20, { view: null })).comparisons).toEqual([]);
  });
});
