import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LimitQuantity, LimitRow } from '../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { NORMAL_TABLES } from '../../src/tolerance/normal-tables.ts';

/** The page is written by hand; this holds its tables to the data. */
const page = readFileSync('docs/limits/README.md', 'utf8');

const section = (heading: string): string => {
  const from = page.indexOf(`## ${heading}`);
  if (from < 0) throw new Error(`no section ${heading}`);
  const to = page.indexOf('\n## ', from + 1);
  return page.slice(from, to < 0 ? undefined : to);
};

/** One line for each cell with a number: "set part finger appliesTo text". */
const cellsOnPage = (heading: string): readonly string[] =>
  section(heading)
    .split('\n')
    .filter((line) => line.startsWith('| `'))
    .flatMap((line) => {
      const [set = '', part, appliesTo, ...fingers] = line
        .split('|')
        .slice(1, -1)
        .map((cell) => cell.trim());
      return ['thumb', 'index', 'middle', 'ring', 'small'].flatMap((finger, index) =>
        fingers[index] === '–'
          ? []
          : [`${set.replaceAll('`', '')} ${part} ${finger} ${appliesTo} ${fingers[index]}`],
      );
    });

const asPrinted = ({ band, comparison }: LimitRow): string => {
  const [lo, hi] = [band?.lo, band?.hi];
  return `${comparison === 'less than' ? '<' : ''}${lo === hi ? lo : `${lo}–${hi}`}`;
};

const cellsInData = (quantity: LimitQuantity): readonly string[] =>
  SHIPPED_LIMIT_SETS.flatMap((set) =>
    set.rows
      .filter((row) => row.quantity === quantity && row.band !== null)
      .flatMap((row) =>
        row.regions.flatMap((region) =>
          row.rays.map((ray) => `${set.id} ${region} ${ray} ${set.appliesTo} ${asPrinted(row)}`),
        ),
      ),
  );

describe('the page on limits', () => {
  it.each([
    ['Apex dorsal angulation, degrees', 'apex-dorsal'],
    ['Shortening, millimetres', 'shortening'],
    ['Step in a joint surface, millimetres', 'joint-step'],
  ] as const)('%s: every cell and no other', (heading, quantity) => {
    expect(cellsOnPage(heading).toSorted()).toEqual(cellsInData(quantity).toSorted());
  });

  it('has a table for each quantity with numbers', () => {
    expect(cellsInData('coronal')).toEqual([]);
    expect(cellsInData('rotation')).toEqual([]);
  });

  it('names every table of normals', () => {
    const named = [...section('Normals').matchAll(/^\| `([^`]+)`/gm)].map((match) => match[1]);
    expect(named.toSorted()).toEqual(NORMAL_TABLES.map((table) => table.id).toSorted());
  });
});
