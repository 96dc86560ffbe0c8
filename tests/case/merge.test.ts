import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply, removal } from '../../src/case/apply.ts';
import { type CaseDocument, caseId, recordId } from '../../src/case/document.ts';
import { sameStructure } from '../../src/case/equal.ts';
import { act, freshState } from '../../src/case/history.ts';
import { commonBase, merge, mergeErrorSentence, taking } from '../../src/case/merge.ts';
import { caseDocumentSchema } from '../../src/case/schema.ts';
import { actionOf, arbitraryEdits, type Edit } from './arbitrary.ts';
import {
  AT,
  caseOf,
  failed,
  film,
  free,
  idsOf,
  injury,
  mark,
  putting,
  settings,
  succeeded,
} from './samples.ts';

const put = (document: CaseDocument, ...records: Parameters<typeof putting>[1][]) =>
  succeeded(apply(document, putting(document, ...records)));
const without = (document: CaseDocument, id: string) =>
  succeeded(apply(document, removal(document, 'remove', AT, recordId(id))));

const axis = mark('mark-1', 'film-a', 'proximal-axis', free([0, 0], [0, 100]));
const length = mark('mark-2', 'film-a', 'length', free([0, 0], [0, 200]));
const base = caseOf(injury(), film('film-a'), axis);

const merged = (mine: CaseDocument, theirs: CaseDocument, from: CaseDocument | null = base) => {
  const { transaction, conflicts } = succeeded(merge(from, mine, theirs, AT));
  return { document: succeeded(apply(mine, transaction)), conflicts };
};

describe('merging two versions of a case', () => {
  it('takes over what only they changed, and keeps what only I changed', () => {
    const mine = put(base, injury({ pattern: 'spiral' }));
    const theirs = put(base, { ...axis, shape: free([5, 5], [5, 105]) }, length);
    const { document, conflicts } = merged(mine, theirs);
    expect(conflicts).toEqual([]);
    expect(document).toEqual(put(mine, { ...axis, shape: free([5, 5], [5, 105]) }, length));
  });

  it('leaves as mine what both changed differently, and reports both versions', () => {
    const mine = put(base, injury({ ray: 'ring' }));
    const theirs = put(base, injury({ ray: 'index' }), length);
    const { document, conflicts } = merged(mine, theirs);
    expect(conflicts).toEqual([
      { id: 'injury', base: injury(), mine: injury({ ray: 'ring' }), theirs: injury({ ray: 'index' }) },
    ]);
    expect(document).toEqual(put(mine, length));
    expect(succeeded(apply(document, taking(conflicts, AT))).records[recordId('injury')]).toEqual(
      injury({ ray: 'index' }),
    );
  });

  it('asks nothing where both changed alike', () => {
    const same = put(base, injury({ ray: 'ring' }));
    expect(merged(same, structuredClone(same))).toEqual({ document: same, conflicts: [] });
  });

  it('removes what one side removed and the other left alone', () => {
    expect(merged(base, without(base, 'film-a')).document).toEqual(without(base, 'film-a'));
    expect(merged(without(base, 'film-a'), base).document).toEqual(without(base, 'film-a'));
  });

  it.each<[string, CaseDocument, CaseDocument]>([
    ['they removed a film on which I placed a mark', put(base, length), without(base, 'film-a')],
    ['I removed a film on which they placed a mark', without(base, 'film-a'), put(base, length)],
    ['they removed a film that I changed', put(base, film('film-a', { day: 9 })), without(base, 'film-a')],
    ['I removed a film that they changed', without(base, 'film-a'), put(base, film('film-a', { day: 9 }))],
    [
      'I removed a film on which they moved a mark',
      without(base, 'film-a'),
      put(base, { ...axis, shape: free([5, 5], [5, 105]) }),
    ],
    [
      'they removed a film on which I moved a mark',
      put(base, { ...axis, shape: free([5, 5], [5, 105]) }),
      without(base, 'film-a'),
    ],
  ])('decides a film together with its marks: %s', (_, mine, theirs) => {
    const { document, conflicts } = merged(mine, theirs);
    expect(document).toEqual(mine);
    expect(conflicts.map((conflict) => conflict.id).toSorted()).toEqual([
      'film-a',
      'mark-1',
      ...('mark-2' in { ...mine.records, ...theirs.records } ? ['mark-2'] : []),
    ]);
    expect(sameStructure(succeeded(apply(document, taking(conflicts, AT))), theirs)).toBe(true);
  });

  it('keeps what only one side has when it is not known what both started from', () => {
    const mine = put(base, settings({ normal: 'zero' }));
    const theirs = put(base, length);
    const { document, conflicts } = merged(mine, theirs, null);
    expect(idsOf(document)).toContain('mark-2');
    expect(conflicts.map((conflict) => conflict.id)).toEqual(['settings']);
  });

  it('refuses two different cases', () => {
    const other = { ...base, id: caseId('case-2') };
    const error = failed(merge(null, base, other, AT));
    expect(error).toEqual({ kind: 'another-case', mine: 'case-1', theirs: 'case-2' });
    expect(mergeErrorSentence(error)).toContain('case-1 and case-2');
  });

  it('finds what both started from in their histories', () => {
    fc.assert(
      fc.property(arbitraryEdits, arbitraryEdits, arbitraryEdits, (before, here, there) => {
        const shared = edited(freshState(base), before);
        const [mine, theirs] = [edited(shared, here), edited(shared, there)];
        const found = commonBase(mine, theirs);
        expect(found).not.toBeNull();
        // Both may have gone on alike, or back behind where they parted; either way both came through it.
        for (const side of [mine, theirs]) {
          const { transactions, position } = side.history;
          const passed = Array.from({ length: position + 1 }, (_, count) =>
            transactions.slice(0, count).reduce((at, one) => succeeded(apply(at, one)), base),
          );
          expect(passed.some((document) => sameStructure(document, found))).toBe(true);
        }
      }),
      { numRuns: 50 },
    );
    expect(commonBase(freshState(base), freshState(put(base, length)))).toBeNull();
  });

  it('loses neither side, whatever was done: mine or theirs stands, and the rest is reported', () => {
    fc.assert(
      fc.property(arbitraryEdits, arbitraryEdits, (here, there) => {
        const [mine, theirs] = [edited(freshState(base), here), edited(freshState(base), there)].map(
          (state) => state.document,
        ) as [CaseDocument, CaseDocument];
        const { document, conflicts } = merged(mine, theirs);
        expect(caseDocumentSchema.safeParse(document).success).toBe(true);
        const reported = new Set(conflicts.map((conflict) => conflict.id as string));
        for (const id of new Set([...idsOf(mine), ...idsOf(theirs), ...idsOf(base)])) {
          const [now, before, left, right] = [document, base, mine, theirs].map(({ records }) => records[id]);
          const mineChanged = !sameStructure(before, left);
          const theirsChanged = !sameStructure(before, right);
          if (reported.has(id)) expect(now).toEqual(left);
          else if (theirsChanged && !mineChanged) expect(now).toEqual(right);
          else expect(now).toEqual(left);
          if (mineChanged && theirsChanged && !sameStructure(left, right)) expect(reported).toContain(id);
        }
        // Taking all of theirs after all leaves no difference that they made.
        const all = succeeded(apply(document, taking(conflicts, AT)));
        for (const { id, theirs: right } of conflicts) expect(all.records[id] ?? null).toEqual(right);
      }),
      { numRuns: 400 },
    );
  });
});

const edited = (start: ReturnType<typeof freshState>, edits: readonly Edit[]) =>
  edits.reduce((state, edit) => {
    const next = act(state, actionOf(edit, state));
    return next.ok ? next.value : state;
  }, start);
