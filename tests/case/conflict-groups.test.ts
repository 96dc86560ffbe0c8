import { describe, expect, it } from 'vitest';
import { apply } from '../../src/case/apply.ts';
import { conflictGroups } from '../../src/case/conflict-groups.ts';
import { type CaseDocument, recordId } from '../../src/case/document.ts';
import { merge, taking } from '../../src/case/merge.ts';
import { AT, caseOf, film, free, injury, mark, succeeded } from './samples.ts';

const axis = (to: number) => free([0, 0], [to, 100]);
const without = (document: CaseDocument, ...ids: readonly string[]): CaseDocument => ({
  ...document,
  records: Object.fromEntries(Object.entries(document.records).filter(([id]) => !ids.includes(id))),
});

describe('conflicts as a person decides them', () => {
  const base = caseOf(injury({ label: 'a' }), film('f', { day: 3 }), mark('m', 'f', 'distal-axis', axis(1)));

  it('are named by what they are about', () => {
    const mine = caseOf(
      injury({ label: 'b' }),
      film('f', { day: 3 }),
      mark('m', 'f', 'distal-axis', axis(2)),
    );
    const theirs = caseOf(
      injury({ label: 'c' }),
      film('f', { day: 3 }),
      mark('m', 'f', 'distal-axis', axis(3)),
    );
    const { conflicts } = succeeded(merge(base, mine, theirs, AT));
    expect(conflictGroups(mine, conflicts).map(({ name }) => name)).toEqual([
      'the injury and its label',
      'the distal axis on the lateral film of day 3',
    ]);
  });

  it('keep a film that one side removed together with what the other placed on it', () => {
    const mine = without(base, 'f', 'm');
    const theirs = caseOf(
      injury({ label: 'a' }),
      film('f', { day: 3 }),
      mark('m', 'f', 'distal-axis', axis(3)),
    );
    const { conflicts } = succeeded(merge(base, mine, theirs, AT));
    const groups = conflictGroups(mine, conflicts);
    expect(groups.map(({ name }) => name)).toEqual(['the lateral film of day 3']);
    expect(groups[0]!.conflicts.map(({ id }) => id).sort()).toEqual(['f', 'm']);
    // Taken together the two leave a case; the mark alone would not.
    const taken = succeeded(apply(mine, taking(groups[0]!.conflicts, AT)));
    expect(taken.records[recordId('m')]).toEqual(theirs.records[recordId('m')]);
  });
});
