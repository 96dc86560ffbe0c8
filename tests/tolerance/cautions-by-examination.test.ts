import { describe, expect, it } from 'vitest';
import type { CautionFacts } from '../../src/tolerance/caution-facts.ts';
import { cautionsFor } from '../../src/tolerance/cautions.ts';
import { checksFor, EXAMINATION_CHECKS } from '../../src/tolerance/checks.ts';
import { facts, REASSURING } from './caution-facts-builder.ts';
import { complete, ids } from './said-cautions.ts';

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
