import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleQuantityIn, compareWithSet } from '../../src/tolerance/compare-with-set.ts';
import type { AppliesTo, LimitSet } from '../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';

/** A set with one row: small finger neck, apex dorsal, 50–60°; numbers of common practice. */
const neckSet = (appliesTo: AppliesTo): LimitSet => ({
  format: 'raybend-limit-set',
  version: 1,
  id: 'one-row',
  revision: 1,
  title: 'One row',
  appliesTo,
  method: { view: null, constructions: null, normalSubtractedDegrees: null },
  population: 'adult',
  source: { kind: 'local', citation: 'made for this test', year: null },
  note: null,
  local: true,
  rows: [
    {
      id: 'neck',
      rays: ['small'],
      regions: ['neck'],
      quantity: 'apex-dorsal',
      band: { lo: 50, hi: 60 },
      unit: 'degrees',
      comparison: 'up to',
      note: null,
    },
  ],
});

const NECK = { ray: 'small', region: 'neck' } as const;

const known = (value: number, standardUncertainty = 1) => ({
  value,
  standardUncertainty,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
});

const angle = (measured: number, deformity: number | null, signed = true) =>
  ({
    quantity: 'apex-dorsal',
    measured: known(measured),
    deformity: deformity === null ? null : known(deformity),
    signed,
  }) as const;

describe('which value is compared', () => {
  // With u = 1: inside up to 48, past from 62; measured 70 and deformity 40 fall on either side.
  it.each([
    ['measured', 'past the limit', 'measured'],
    ['deformity', 'inside the limit', 'deformity'],
    ['not stated', 'cannot tell', 'both'],
  ] as const)('a set for %s: %s', (appliesTo, outcome, comparedWith) => {
    expect(compareWithSet(neckSet(appliesTo), NECK, angle(70, 40))).toMatchObject({ outcome, comparedWith });
  });

  it('says why it cannot tell when measured and deformity disagree', () => {
    const compared = compareWithSet(neckSet('not stated'), NECK, angle(70, 40));
    expect(compared.reason).toBe('measured-and-deformity-differ');
    expect(compared.probabilityPast).toBeNull();
    expect(compared.words).toBe(
      'Cannot tell against the limit of 50–60°: the source does not say whether the normal is taken off first. As measured (70.0°): past the limit; less the normal (40.0°): inside the limit.',
    );
  });

  it('keeps the outcome when both agree, at the less certain of the two', () => {
    const past = compareWithSet(neckSet('not stated'), NECK, angle(80, 62.5));
    expect(past).toMatchObject({ outcome: 'past the limit', comparedWith: 'both' });
    // P(z ≤ 2.5) = 0.9938 (normal table), that of the deformity.
    expect(past.probabilityPast).toBeCloseTo(0.9938, 4);
    expect(past.words).toContain('62.5°');
    const inside = compareWithSet(neckSet('not stated'), NECK, angle(47, 20));
    expect(inside).toMatchObject({ outcome: 'inside the limit' });
    expect(inside.words).toContain('the measured angle of 47.0°');
    // The deformity is smaller but carries the spread of the normal: (50 − 38)/5 = 2.4, P = 0.9918.
    const wide = compareWithSet(neckSet('not stated'), NECK, { ...angle(40, 0), deformity: known(38, 5) });
    expect(wide.words).toContain('the deformity of 38° lies below it, about 99 in 100 sure');
  });

  it('measures certainty of "inside" at the lower end of the band', () => {
    // (50 − 46)/2 = 2, P = 0.9772; (50 − 30)/8 = 2.5. At the upper end the order would be the other: 7 and 3.75.
    const inside = compareWithSet(neckSet('not stated'), NECK, {
      ...angle(0, 0),
      measured: known(46, 2),
      deformity: known(30, 8),
    });
    expect(inside.words).toContain('the measured angle of 46° lies below it, about 98 in 100 sure');
  });

  it('lets the likelier past speak where neither can tell', () => {
    const undecided = compareWithSet(neckSet('not stated'), NECK, angle(61, 52));
    expect(undecided).toMatchObject({ outcome: 'cannot tell', comparedWith: 'both' });
    // P(z ≤ 1) = 0.8413 (normal table).
    expect(undecided.probabilityPast).toBeCloseTo(0.8413, 4);
  });

  it('cannot tell without a normal where a deformity may be meant', () => {
    for (const appliesTo of ['deformity', 'not stated'] as const)
      expect(compareWithSet(neckSet(appliesTo), NECK, angle(70, null))).toMatchObject({
        outcome: 'cannot tell',
        reason: 'deformity-missing',
      });
    expect(compareWithSet(neckSet('measured'), NECK, angle(70, null)).outcome).toBe('past the limit');
  });
});

describe('direction', () => {
  it('does not call a bone bent surely the other way "inside"', () => {
    const compared = compareWithSet(neckSet('deformity'), NECK, angle(-10, -20));
    expect(compared).toMatchObject({ outcome: 'no limit on file', reason: 'bends-the-other-way' });
    expect(compared.words).toContain('20.0° is apex volar');
  });

  it('takes a tilt that may be none as the limit means it', () => {
    expect(compareWithSet(neckSet('deformity'), NECK, angle(14, -1)).outcome).toBe('inside the limit');
  });

  it('says what it takes for granted where the side is not marked', () => {
    const words = (signed: boolean) =>
      compareWithSet(neckSet('deformity'), NECK, angle(20, 20, signed)).words;
    expect(words(false)).toContain('20.0° (side not marked, taken as apex dorsal)');
    expect(words(true)).not.toContain('not marked');
    expect(compareWithSet(neckSet('deformity'), NECK, angle(5, -10, false)).outcome).toBe('no limit on file');
  });

  it('compares sideways bends by their size', () => {
    const set = neckSet('measured');
    const sideways = { ...set, rows: set.rows.map((row) => ({ ...row, quantity: 'coronal' as const })) };
    const compared = compareWithSet(sideways, NECK, {
      quantity: 'coronal',
      measured: known(-70),
      deformity: null,
      signed: true,
    });
    expect(compared.outcome).toBe('past the limit');
  });

  it('names the angle by its view', () => {
    expect([
      angleQuantityIn('lateral'),
      angleQuantityIn('oblique'),
      angleQuantityIn('pa'),
      angleQuantityIn(null),
    ]).toEqual(['apex-dorsal', 'apex-dorsal', 'coronal', null]);
  });
});

describe('nothing to compare with', () => {
  const common = SHIPPED_LIMIT_SETS[0]!;

  it('has no limit on file for the base of a finger', () => {
    const compared = compareWithSet(common, { ray: 'small', region: 'base' }, angle(30, 30));
    expect(compared).toMatchObject({ outcome: 'no limit on file', reason: 'no-row', row: null });
    expect(compared.words).toBe(
      'No limit on file: “Common practice (adult)” says nothing about apex dorsal angulation of the small finger base.',
    );
  });

  it('says what applies where the row holds no number', () => {
    const set = neckSet('deformity');
    const bare = {
      ...set,
      rows: set.rows.map((row) => ({ ...row, band: null, note: 'Ask the hand clinic.' })),
    };
    expect(compareWithSet(bare, NECK, angle(30, 30))).toMatchObject({
      outcome: 'no limit on file',
      reason: 'no-number',
      words: 'No limit on file as a number: Ask the hand clinic.',
    });
  });

  it('compares shortening and steps, which have one value, whatever the set applies to', () => {
    const shortened = compareWithSet(common, NECK, { quantity: 'shortening', value: known(8) });
    expect(shortened).toMatchObject({ outcome: 'past the limit', comparedWith: 'value' });
    expect(shortened.words).toBe(
      'Past the limit of 2–5\u2009mm: 8.0\u2009mm lies above it, more than 99 in 100 sure.',
    );
    const step = compareWithSet(
      common,
      { ray: 'ring', region: 'head' },
      { quantity: 'joint-step', value: known(0.5, 0.5) },
    );
    expect(step.outcome).toBe('cannot tell');
  });
});

describe('words', () => {
  // An uncertainty of 1.96 bears one decimal (JCGM 100:2008, 7.2.6).
  it.each([
    // z = ±3 and 0.25: P = 0.9987 and 0.5987 (normal table).
    [63, 'Past the limit of 50–60°: the deformity of 63.0° lies above it, more than 99 in 100 sure.'],
    [47, 'Inside the limit of 50–60°: the deformity of 47.0° lies below it, more than 99 in 100 sure.'],
    [
      60.25,
      'Cannot tell against the limit of 50–60°: the deformity of 60.3° has an interval that reaches across it; about 60 in 100 that it is past the upper end.',
    ],
    [
      55,
      'Cannot tell against the limit of 50–60°: the deformity of 55.0° lies in the range over which opinion differs; less than 1 in 100 that it is past the upper end.',
    ],
  ])('%f°', (value, words) => {
    expect(compareWithSet(neckSet('deformity'), NECK, angle(value, value)).words).toBe(words);
  });

  it('always begin with the outcome', () => {
    const number = fc.double({ min: -90, max: 150, noNaN: true });
    fc.assert(
      fc.property(
        fc.constantFrom(...SHIPPED_LIMIT_SETS),
        number,
        number,
        fc.boolean(),
        (set, measured, deformity, signed) => {
          const { outcome, words } = compareWithSet(set, NECK, angle(measured, deformity, signed));
          expect(words.toLowerCase().startsWith(outcome.replace(' the limit', ''))).toBe(true);
          expect(words.endsWith('.')).toBe(true);
        },
      ),
    );
  });
});

it('never improves with a larger angle, measured and deformity together', () => {
  const rank = {
    'no limit on file': 0,
    'inside the limit': 1,
    'cannot tell': 2,
    'past the limit': 3,
  } as const;
  const number = fc.double({ min: -60, max: 120, noNaN: true });
  fc.assert(
    fc.property(
      fc.constantFrom('measured', 'deformity', 'not stated'),
      number,
      fc.double({ min: 0, max: 20, noNaN: true }),
      fc.double({ min: 0, max: 40, noNaN: true }),
      (appliesTo, measured, normal, step) => {
        const at = (value: number) =>
          compareWithSet(neckSet(appliesTo), NECK, angle(value, value - normal)).outcome;
        // Bent the other way there is no limit; measured and deformity on either side of that is undecided.
        fc.pre(measured - normal > 2);
        expect(rank[at(measured + step)]).toBeGreaterThanOrEqual(rank[at(measured)]);
      },
    ),
  );
});
