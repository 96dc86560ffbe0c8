import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { ACTIONS, type Action, KEPT, STRICTER } from '../../../src/record/deidentify-actions.ts';
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

/** What each action is called on the page. */
const ACTION_WORDS: Readonly<Record<Action, string>> = {
  remove: 'left out',
  empty: 'no value',
  'subject-code': 'code of the subject',
  'subject-name': 'code of the subject, as a name',
  'replace-uid': 'keyed hash',
  'shift-date': 'moved back by the subject’s days',
  midnight: '000000',
  'clean-items': 'kept; items by this table',
};

it('the conformance statement has the table of actions as it is done, and nothing more', () => {
  const done = [...ACTIONS, ...STRICTER.map((row) => ({ ...row, annexE: '–' }))].map(
    ({ keyword, annexE, action }) =>
      `| ${keyword} | ${dictionaryEntry(keyword).tag} | ${annexE} | ${ACTION_WORDS[action]} |`,
  );
  const start = rows.indexOf('| attribute | tag | Annex E | here |');
  expect(start).toBeGreaterThan(0);
  expect(rows.slice(start + 1)).toEqual(done);
});

it('the conformance statement lists every attribute that is kept, and no other', () => {
  const line = page.split('\n').find((text) => text.startsWith('Kept as they are: '));
  expect(line?.replace('Kept as they are: ', '').replace(/\.$/, '').split(', ')).toEqual([...KEPT]);
});
