import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RAYS, REGIONS } from '../../src/tolerance/anatomy.ts';
import type { LimitSet } from '../../src/tolerance/limit-set.ts';
import { LIMIT_QUANTITIES, QUANTITY_UNIT } from '../../src/tolerance/limit-set.ts';
import { parseLimitSet, serializeLimitSet } from '../../src/tolerance/limit-set-file.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { copySet } from '../../src/tolerance/local-protocol.ts';

const local = copySet(SHIPPED_LIMIT_SETS[0]!, { id: 'ward-protocol', title: 'Ward protocol' });

/** The text of the local set with something changed in it. */
const changed = (
  change: (set: Record<string, unknown> & { rows: Record<string, unknown>[] }) => void,
): string => {
  const set = JSON.parse(serializeLimitSet(local));
  change(set);
  return JSON.stringify(set);
};

const failureOf = (text: string) => {
  const read = parseLimitSet(text, 'ward.json');
  if (read.ok) throw new Error('was read');
  return read.error;
};

describe('a limit set file that cannot be read says why', () => {
  it('without quoting the bytes of a picture, and says when it is empty', () => {
    // The first bytes of every PNG file (PNG, 5.2), as a browser reads them for text.
    const png = new TextDecoder().decode(Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10, 0, 0, 0, 13));
    expect(failureOf(png)).toMatchObject({
      kind: 'not-json',
      message: expect.stringMatching(
        /^[^\uFFFD]* holds no plain text: it is a file of another kind[^\uFFFD]*$/,
      ),
    });
    expect(failureOf('\n')).toMatchObject({ kind: 'not-json', message: expect.stringContaining('is empty') });
  });

  it.each([
    ['not-json', '{ "format": '],
    ['not-a-limit-set', '[]'],
    ['not-a-limit-set', 'null'],
    ['not-a-limit-set', '{"format": "something-else"}'],
    ['version-too-new', changed((set) => Object.assign(set, { version: 2 }))],
    ['shipped-id', serializeLimitSet(SHIPPED_LIMIT_SETS[0]!)],
  ])('%s', (kind, text) => {
    const error = failureOf(text);
    expect(error.kind).toBe(kind);
    expect(error.message).toMatch(/^ward\.json /);
    expect(error.message).toMatch(/\.$/);
  });

  it.each([
    [
      'ends exchanged',
      (row: Record<string, unknown>) => Object.assign(row, { band: { lo: 30, hi: 20 } }),
      'rows[1].band',
      /lower end above/,
    ],
    [
      'a bound below zero',
      (row: Record<string, unknown>) => Object.assign(row, { band: { lo: -1, hi: 20 } }),
      'rows[1].band.lo',
      /below zero/,
    ],
    [
      'an angle in millimetres',
      (row: Record<string, unknown>) => Object.assign(row, { unit: 'millimetres' }),
      'rows[1].unit',
      /angles are in degrees/,
    ],
    [
      'a finger that is none',
      (row: Record<string, unknown>) => Object.assign(row, { rays: ['fifth'] }),
      'rows[1].rays[0]',
      /"small"/,
    ],
    [
      'no finger at all',
      (row: Record<string, unknown>) => Object.assign(row, { rays: [] }),
      'rows[1].rays',
      /no finger/,
    ],
    [
      'a misspelt key',
      (row: Record<string, unknown>) => Object.assign(row, { bnad: null }),
      'rows[1]',
      /bnad/,
    ],
    [
      'neither number nor note',
      (row: Record<string, unknown>) => Object.assign(row, { band: null, note: null }),
      'rows[1].note',
      /note/,
    ],
    [
      'a question answered twice',
      (row: Record<string, unknown>) => Object.assign(row, { rays: ['index'] }),
      'rows[1]',
      /already answered by row "neck-index-middle"/,
    ],
    [
      'an id used twice',
      (row: Record<string, unknown>) => Object.assign(row, { id: 'neck-index-middle' }),
      'rows[1]',
      /same id/,
    ],
  ] as const)('row 2 with %s', (_, change, path, reason) => {
    const error = failureOf(changed((set) => change(set.rows[1]!)));
    if (error.kind !== 'invalid') throw new Error(error.kind);
    const problem = error.problems.find((candidate) => candidate.path === path);
    expect(problem?.reason).toMatch(reason);
    expect(problem?.row).toMatch(/^row 2 \("neck-/);
    expect(error.message).toContain('row 2');
  });

  it('says a field in words, and as it stands in the file', () => {
    const error = failureOf(changed((set) => Object.assign(set.rows[1]!, { band: { lo: -1, hi: 20 } })));
    expect(error.message).toContain('the lower end of the limit (band.lo) is below zero');
  });

  it('names every problem, also those that are in no row', () => {
    const error = failureOf(
      changed((set) => {
        Object.assign(set, { title: ' ', rows: set.rows.map((row) => ({ ...row, regions: [] })) });
      }),
    );
    if (error.kind !== 'invalid') throw new Error(error.kind);
    expect(error.problems).toHaveLength(1 + local.rows.length);
    expect(error.message).toContain('title: is empty');
  });
});

describe('a limit set file that can be read', () => {
  it('is local whatever it says of itself', () => {
    const read = parseLimitSet(
      changed((set) => Object.assign(set, { local: false })),
      'ward.json',
    );
    expect(read.ok && read.value.local).toBe(true);
  });

  const row = fc.record({
    quantity: fc.constantFrom(...LIMIT_QUANTITIES),
    band: fc.option(
      fc.tuple(fc.float({ min: 0, max: 90, noNaN: true }), fc.float({ min: 0, max: 90, noNaN: true })),
    ),
    comparison: fc.constantFrom('up to', 'less than'),
  });

  it('comes back from its own text as it was', () => {
    // One row for each of some bones, so that no two answer the same question.
    const bones = fc.subarray(
      RAYS.flatMap((ray) => REGIONS.map((region) => ({ ray, region }))),
      { minLength: 1 },
    );
    fc.assert(
      fc.property(bones, fc.array(row, { minLength: 20, maxLength: 20 }), (places, contents) => {
        const rows = places.map(({ ray, region }, index) => {
          const { quantity, band, comparison } = contents[index]!;
          return {
            id: `${ray}-${region}`,
            rays: [ray],
            regions: [region],
            quantity,
            // The sum with 0 turns −0, which JSON cannot hold, into 0.
            band: band === null ? null : { lo: Math.min(...band) + 0, hi: Math.max(...band) + 0 },
            unit: QUANTITY_UNIT[quantity],
            comparison,
            note: 'note',
          } as const;
        });
        const set: LimitSet = { ...local, rows };
        expect(parseLimitSet(serializeLimitSet(set), 'ward.json')).toEqual({ ok: true, value: set });
      }),
    );
  });
});
