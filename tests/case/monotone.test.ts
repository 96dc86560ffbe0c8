import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../../src/case/document.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { RAYS, REGIONS } from '../../src/tolerance/anatomy.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark, settings } from './samples.ts';

/** From marks to outcome, over every set that ships: what is worse in the bone is never better in words. */
const RANK = { 'no limit on file': 0, 'inside the limit': 1, 'cannot tell': 2, 'past the limit': 3 } as const;

const { spacing: atDetector } = film('any');
const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
const line = (id: string, role: 'length' | 'joint-surface' | 'joint-edges', from: number[], to: number[]) =>
  mark(`${id}/${role}`, id, role, {
    construction: 'segment',
    from: filmPoint(from[0] ?? 0, from[1] ?? 0),
    to: filmPoint(to[0] ?? 0, to[1] ?? 0),
  });

interface Broken {
  /** Apex dorsal, degrees. */
  readonly angle: number;
  readonly shorterMm: number;
  readonly stepMm: number;
}

/** Outcome by reading and limit set. */
function outcomes(
  where: Pick<InjuryRecord, 'ray' | 'region'>,
  { angle, shorterMm, stepMm }: Broken,
  placing: Partial<SettingsRecord>,
): ReadonlyMap<string, keyof typeof RANK> {
  const lean = (angle * Math.PI) / 180;
  const { comparisons } = assess(
    caseOf(
      injury(where),
      settings({ ...placing, limitSetIds: SHIPPED_LIMIT_SETS.map(({ id }) => id), normal: 'zero' }),
      film('side', { spacing }),
      mark('side/proximal-axis', 'side', 'proximal-axis', free([1000, 2000], [1000, 1600])),
      mark(
        'side/distal-axis',
        'side',
        'distal-axis',
        free([1000, 1500], [1000 + 300 * Math.sin(lean), 1500 - 300 * Math.cos(lean)]),
      ),
      mark('side/dorsal-side', 'side', 'dorsal-side', { construction: 'point', at: filmPoint(400, 1700) }),
      film('front', { view: 'pa', spacing }),
      film('sound', { view: 'pa', hand: 'other', spacing }),
      line('front', 'length', [1000, 2000], [1000, 1400 + 10 * shorterMm]),
      line('sound', 'length', [1000, 2000], [1000, 1400]),
      line('front', 'joint-surface', [1000, 1000], [1200, 1000]),
      line('front', 'joint-edges', [1210, 1000], [1230, 1000 + 10 * stepMm]),
    ),
    SHIPPED_LIMIT_SETS,
  );
  return new Map(
    comparisons.map(({ readingId, limitSet, row, comparedWith, outcome }) => [
      [readingId, limitSet.id, row?.id ?? '-', comparedWith].join(' '),
      outcome,
    ]),
  );
}

const where = fc.record({ ray: fc.constantFrom(...RAYS), region: fc.constantFrom(...REGIONS) });
const broken = fc.record({
  angle: fc.double({ min: 4, max: 60, noNaN: true }),
  shorterMm: fc.double({ min: 0.5, max: 10, noNaN: true }),
  stepMm: fc.double({ min: 0.2, max: 5, noNaN: true }),
});
const more = fc.double({ min: 0, max: 25, noNaN: true });

describe('outcomes of a whole case', () => {
  it('never improve with a larger angle, shortening or step', () => {
    const seen = new Set<string>();
    fc.assert(
      fc.property(where, broken, more, (bone, less, by) => {
        const before = outcomes(bone, less, {});
        const after = outcomes(
          bone,
          { angle: less.angle + by, shorterMm: less.shorterMm + by / 5, stepMm: less.stepMm + by / 10 },
          {},
        );
        expect([...after.keys()]).toEqual([...before.keys()]);
        for (const [key, outcome] of before) {
          seen.add(outcome);
          expect(RANK[after.get(key) ?? 'no limit on file'], key).toBeGreaterThanOrEqual(RANK[outcome]);
        }
      }),
    );
    // Otherwise nothing was held against anything.
    expect([...seen].toSorted()).toEqual(Object.keys(RANK).toSorted());
  });

  it('never become certain with a larger placing error', () => {
    fc.assert(
      fc.property(where, broken, fc.double({ min: 0, max: 1.5, noNaN: true }), (bone, out, wider) => {
        const before = outcomes(bone, out, { placingErrorMm: 0.2 });
        for (const [key, outcome] of outcomes(bone, out, { placingErrorMm: 0.2 + wider }))
          expect([before.get(key), 'cannot tell'], key).toContain(outcome);
      }),
    );
  });
});
