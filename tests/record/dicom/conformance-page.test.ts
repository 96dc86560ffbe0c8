import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ACTIONS, STRICTER } from '../../../src/record/deidentify-actions.ts';
import * as codes from '../../../src/record/dicom/codes.ts';
import { dictionaryEntry } from '../../../src/record/dicom/dicom-write.ts';

const page = readFileSync('docs/dicom-conformance.md', 'utf8');
const rows = page.split('\n').filter((line) => line.startsWith('| '));

it('the conformance statement defines every code of our own, and no other', () => {
  const own = [
    codes.OWN_CODES,
    codes.QUANTITY_CODES,
    codes.METHOD_CODES,
    codes.APEX_CODES,
    codes.RAY_CODES,
    codes.ROLE_CODES,
    codes.CONSTRUCTION_CODES,
    codes.PROVENANCE_CODES,
  ].flatMap((table) => Object.values(table));
  const wanted = new Set(own.map(({ value, meaning }) => `| \`${value}\` | ${meaning} |`));
  expect(new Set(rows.filter((line) => /^\| `[A-Z0-9-]+` \|/.test(line)))).toEqual(wanted);
});

it('the conformance statement has every action of the table, with its tag', () => {
  for (const { keyword, annexE } of ACTIONS) {
    const start = `| ${keyword} | ${dictionaryEntry(keyword).tag} | ${annexE} |`;
    expect(
      rows.filter((line) => line.startsWith(start)),
      start,
    ).toHaveLength(1);
  }
  for (const { keyword } of STRICTER) expect(page).toContain(`| ${keyword} |`);
});
