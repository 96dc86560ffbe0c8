import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RAYS, type Ray, REGIONS, type Region } from '../../src/tolerance/anatomy.ts';
import type { LimitQuantity } from '../../src/tolerance/limit-set.ts';
import { limitSetSchema } from '../../src/tolerance/limit-set-schema.ts';
import { DEFAULT_LIMIT_SET_ID, findRow, SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import published from './published-limits.json';

interface PublishedRow {
  readonly set: string;
  readonly source: string;
  readonly region: Region;
  readonly quantity: LimitQuantity;
  /** As printed, by finger; "none" where the source accepts nothing and gives no number. */
  readonly printed: Readonly<Partial<Record<Ray, string>>>;
}

const rows = published as readonly PublishedRow[];

const setOf = (id: string) => {
  const set = SHIPPED_LIMIT_SETS.find((candidate) => candidate.id === id);
  if (set === undefined) throw new Error(`no set ${id}`);
  return set;
};

/** "50-60" → [50, 60]; "20" → [20, 20]; "<30" → [30, 30] with its comparison. */
function asBand(printed: string) {
  if (printed === 'none') return { band: null, comparison: null };
  const numbers = printed.replace('<', '').split('-').map(Number);
  return {
    band: { lo: numbers[0], hi: numbers.at(-1) },
    comparison: printed.startsWith('<') ? 'less than' : 'up to',
  };
}

describe('shipped limit sets', () => {
  it.each(rows)('$set, $region, $quantity: as printed', ({ set, region, quantity, printed, source }) => {
    expect(source).not.toBe('');
    for (const ray of RAYS) {
      const row = findRow(setOf(set), ray, region, quantity);
      const text = printed[ray];
      if (text === undefined) {
        expect(row, `${ray}: the source says nothing`).toBeNull();
        continue;
      }
      const { band, comparison } = asBand(text);
      expect(row?.band, ray).toEqual(band);
      if (comparison !== null) expect(row?.comparison, ray).toBe(comparison);
    }
  });

  it('holds nothing that the printed table does not', () => {
    const printedKeys = new Set(
      rows.flatMap((row) =>
        Object.keys(row.printed).map((ray) => `${row.set} ${ray} ${row.region} ${row.quantity}`),
      ),
    );
    const shippedKeys = SHIPPED_LIMIT_SETS.flatMap((set) =>
      set.rows.flatMap((row) =>
        row.rays.flatMap((ray) => row.regions.map((region) => `${set.id} ${ray} ${region} ${row.quantity}`)),
      ),
    );
    expect(new Set(shippedKeys)).toEqual(printedKeys);
  });

  it('loads every file of the folder, each named by its id', () => {
    const files = readdirSync('src/tolerance/sets').filter((name) => name.endsWith('.json'));
    expect(SHIPPED_LIMIT_SETS.map((set) => `${set.id}.json`).toSorted()).toEqual(files.toSorted());
  });

  it.each(SHIPPED_LIMIT_SETS.map((set) => [set.id, set] as const))(
    '%s: valid, sourced, not local',
    (_, set) => {
      expect(limitSetSchema.parse(set)).toEqual(set);
      expect(set.local).toBe(false);
      expect(set.source.citation.length).toBeGreaterThan(20);
      if (set.source.kind === 'common-practice')
        expect(set.source.citation).toBe('common practice, no single source');
    },
  );

  it('begins with the default, which is common practice and compared with the deformity', () => {
    expect(SHIPPED_LIMIT_SETS[0]?.id).toBe(DEFAULT_LIMIT_SET_ID);
    expect(SHIPPED_LIMIT_SETS[0]?.appliesTo).toBe('deformity');
  });

  it('compares a deformity only where the source says that the normal is taken off', () => {
    // WikEM neck page, 2016: measured minus 15; the default by design; no other source says it.
    expect(SHIPPED_LIMIT_SETS.filter((set) => set.appliesTo !== 'not stated').map((set) => set.id)).toEqual([
      'common-practice-adult',
      'subtract-the-normal-first',
    ]);
    expect(setOf('subtract-the-normal-first').method.normalSubtractedDegrees).toBe(15);
  });

  it('lets the shaft tolerate less than the neck, and the index less than the small finger', () => {
    // Facts of the trade: common practice, no source.
    const hi = (ray: Ray, region: Region) =>
      findRow(setOf(DEFAULT_LIMIT_SET_ID), ray, region, 'apex-dorsal')?.band?.hi ?? Number.NaN;
    expect(hi('small', 'shaft')).toBeLessThan(hi('small', 'neck'));
    expect(hi('ring', 'shaft')).toBeLessThan(hi('ring', 'neck'));
    for (const region of ['neck', 'shaft'] as const) {
      expect(hi('index', region)).toBe(20);
      expect(hi('middle', region)).toBeLessThan(hi('ring', region));
      expect(hi('ring', region)).toBeLessThan(hi('small', region));
    }
  });

  it('tolerates rotation nowhere', () => {
    for (const set of SHIPPED_LIMIT_SETS)
      for (const row of set.rows.filter((candidate) => candidate.quantity === 'rotation')) {
        expect(row.band).toBeNull();
        expect(row.note).not.toBeNull();
      }
    for (const ray of RAYS)
      for (const region of REGIONS)
        expect(findRow(setOf(DEFAULT_LIMIT_SET_ID), ray, region, 'rotation')).not.toBeNull();
  });
});
