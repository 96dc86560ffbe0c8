import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';

const FOLDER = 'tests/worked-examples';

/** "number as printed", with sign, decimals and exponent. */
const PRINTED = /^-?\d+(?:\.(\d+))?(?:[eE]([+-]?\d+))?$/;

const row = z
  .object({
    name: z.string().min(1),
    kind: z.enum(['published', 'constructed', 'cross-checked']),
    /** Who says so: author, year, page or table; library and version; or the derivation. */
    source: z.string().min(10),
    /** Numbers in docs/REFERENCES.md. */
    references: z.array(z.number().int().positive()).optional(),
    given: z.unknown(),
    /** One value, or several by name. */
    expected: z.union([z.string().regex(PRINTED), z.record(z.string(), z.string().regex(PRINTED))]),
    within: z
      .object({ value: z.number().positive(), because: z.string().min(5) })
      .strict()
      .optional(),
  })
  .strict();

const table = z
  .object({ quantity: z.string().min(1), unit: z.string().min(1), rows: z.array(row).min(1) })
  .strict();

export interface Example<Given> {
  readonly name: string;
  readonly kind: 'published' | 'constructed' | 'cross-checked';
  readonly source: string;
  readonly given: Given;
  readonly expected: Readonly<Record<string, string>>;
  readonly within: number | null;
}

/** Half a unit in the last place of a number as printed. */
export function halfLastPlace(printed: string): number {
  const [, decimals = '', exponent = '0'] = PRINTED.exec(printed) ?? [];
  return 0.5 * 10 ** (Number(exponent) - decimals.length);
}

/**
 * Reads and checks a table, and adds a test that each row says where it comes from.
 *
 * @param name - File name without `.json`.
 * @param given - What the rows' `given` must be.
 * @returns Rows; a single expected value is under the name `value`.
 */
export function workedExamples<Given>(name: string, given: z.ZodType<Given>): readonly Example<Given>[] {
  const read = table.parse(JSON.parse(readFileSync(join(FOLDER, `${name}.json`), 'utf8')));
  describe(`table ${name}`, () => {
    it('names a source for every row, and a reference that exists for every published one', () => {
      const references = existsSync('docs/REFERENCES.md') ? readFileSync('docs/REFERENCES.md', 'utf8') : '';
      const numbered = new Set([...references.matchAll(/^(\d+)\. /gm)].map(([, number]) => Number(number)));
      for (const { name: rowName, kind, references: cited = [] } of read.rows) {
        if (kind === 'published') expect(cited, rowName).not.toEqual([]);
        for (const number of cited) expect(numbered, `${rowName}: reference ${number}`).toContain(number);
      }
    });
    it('names each row once', () => {
      const names = read.rows.map((example) => example.name);
      expect(names).toEqual([...new Set(names)]);
    });
  });
  return read.rows.map((example) => ({
    name: example.name,
    kind: example.kind,
    source: example.source,
    given: given.parse(example.given),
    expected: typeof example.expected === 'string' ? { value: example.expected } : example.expected,
    within: example.within?.value ?? null,
  }));
}

/** Compares every expected value of a row with what was found under the same name; none may be missing. */
export function expectAsPrinted(
  example: Example<unknown>,
  found: Readonly<Record<string, number | null>>,
): void {
  for (const [name, printed] of Object.entries(example.expected)) {
    const value = found[name];
    if (value === undefined || value === null) {
      throw new Error(`${example.name}: nothing was found for "${name}".`);
    }
    const allowed = example.within ?? halfLastPlace(printed);
    // A billionth of the allowance, so that a value exactly half-way still counts as printed.
    const off = Math.abs(value - Number(printed)) - allowed * (1 + 1e-9);
    expect(
      off,
      `${example.name}: ${name} is ${value}, expected ${printed} ± ${allowed} (${example.source})`,
    ).toBeLessThanOrEqual(0);
  }
}
