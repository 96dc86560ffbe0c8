import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apply,
  applyErrorSentence,
  change,
  emptyCase,
  invert,
  isEmpty,
  putRecord,
  removal,
  removeRecord,
} from '../../src/case/apply.ts';
import { caseId, recordId } from '../../src/case/document.ts';
import { arbitraryRecord } from './arbitrary.ts';
import { AT, caseOf, failed, film, free, idsOf, injury, mark, putting, succeeded } from './samples.ts';

const axis = mark('mark-1', 'film-a', 'proximal-axis', free([0, 0], [0, 100]));

describe('apply', () => {
  it('puts a record and leaves the document given as it was', () => {
    const before = caseOf();
    const after = succeeded(apply(before, putting(before, film('film-a'), axis)));
    expect(idsOf(after)).toEqual(['injury', 'examination', 'settings', 'film-a', 'mark-1']);
    expect(idsOf(before)).toEqual(['injury', 'examination', 'settings']);
  });

  it('refuses a step whose before is not what the document holds, and changes nothing', () => {
    const before = caseOf(film('film-a'), axis);
    const stale = putting(before, { ...axis, shape: free([0, 0], [5, 100]) });
    const moved = succeeded(apply(before, putting(before, { ...axis, shape: free([1, 1], [1, 101]) })));
    expect(failed(apply(moved, stale))).toEqual({
      kind: 'not-as-expected',
      label: 'put records',
      recordId: 'mark-1',
    });
  });

  it('compares by structure, whatever the order of the fields', () => {
    const before = caseOf(film('film-a'), axis);
    const { kind, id, filmId, role, shape, provenance } = axis;
    const reordered = { provenance, shape, role, filmId, id, kind };
    const transaction = { label: 'move', at: AT, steps: [{ id, before: reordered, after: null }] };
    expect(idsOf(succeeded(apply(before, transaction)))).not.toContain('mark-1');
  });

  it('removes a film together with its marks, and only those, in one transaction', () => {
    const other = mark('mark-2', 'film-b', 'proximal-axis', free([0, 0], [0, 50]));
    const before = caseOf(film('film-a'), film('film-b'), axis, other);
    const removed = removal(before, 'remove film', AT, recordId('film-a'));
    expect(removed.steps.map((step) => step.id)).toEqual(['mark-1', 'film-a']);
    const after = succeeded(apply(before, removed));
    expect(idsOf(after)).toEqual(['injury', 'examination', 'settings', 'film-b', 'mark-2']);
    expect(succeeded(apply(after, invert(removed)))).toEqual(before);
  });

  it('refuses to leave a mark without its film, whether the film goes or never was', () => {
    const before = caseOf(film('film-a'), axis);
    const filmOnly = {
      label: 'remove film',
      at: AT,
      steps: [{ id: recordId('film-a'), before: film('film-a'), after: null }],
    };
    expect(failed(apply(before, filmOnly))).toMatchObject({
      kind: 'mark-without-film',
      recordId: 'mark-1',
      filmId: 'film-a',
    });
    expect(failed(apply(caseOf(), putting(caseOf(), axis))).kind).toBe('mark-without-film');
  });

  it('refuses to remove what every case has, and to turn a record into another kind', () => {
    const before = caseOf();
    expect(failed(apply(before, removal(before, 'remove', AT, recordId('injury')))).kind).toBe(
      'fixed-record-removed',
    );
    const film2 = film('injury');
    expect(failed(apply(before, putting(before, film2))).kind).toBe('wrong-record');
    const misnamed = { id: recordId('film-b'), before: null, after: film('film-a') };
    expect(failed(apply(before, { label: 'put', at: AT, steps: [misnamed] })).kind).toBe('wrong-record');
  });

  it('makes no step of a record that is there already', () => {
    const document = caseOf(injury());
    expect(isEmpty(change(document, 'set hand', AT, injury()))).toBe(true);
    expect(isEmpty(change(document, 'set hand', AT, injury({ hand: 'left' })))).toBe(false);
  });

  it('gives back the document when a transaction is followed by its inverse', () => {
    fc.assert(
      fc.property(fc.array(arbitraryRecord, { maxLength: 6 }), arbitraryRecord, (held, put) => {
        const films = [film('film-a'), film('film-b')];
        const document = caseOf(...films, ...held);
        const transaction = putting(document, put);
        const there = succeeded(apply(document, transaction));
        expect(there.records[put.id]).toEqual(put);
        expect(succeeded(apply(there, invert(transaction)))).toEqual(document);
        expect(invert(invert(transaction))).toEqual(transaction);
      }),
    );
  });

  it('undoes two steps on one record in reverse order', () => {
    const start = caseOf(film('film-a'));
    const [first, second] = [axis, { ...axis, shape: free([9, 9], [9, 109]) }];
    const twice = {
      label: 'place and move',
      at: AT,
      steps: [
        { id: axis.id, before: null, after: first },
        { id: axis.id, before: first, after: second },
      ],
    };
    const there = succeeded(apply(start, twice));
    expect(there.records[axis.id]).toEqual(second);
    expect(succeeded(apply(there, invert(twice)))).toEqual(start);
  });

  it('takes one action that both puts and removes', () => {
    const document = caseOf(film('film-a'), axis);
    const replaced = film('film-b');
    const steps = [...removeRecord(document, recordId('film-a')), putRecord(document, replaced)];
    const after = succeeded(apply(document, { label: 'replace the film', at: AT, steps }));
    expect(idsOf(after)).toEqual(['injury', 'examination', 'settings', 'film-b']);
    expect(removeRecord(document, recordId('film-z'))).toEqual([]);
  });

  it('says what was refused and what to do', () => {
    const document = caseOf();
    const error = failed(apply(document, removal(document, 'remove injury', AT, recordId('injury'))));
    expect(applyErrorSentence(error)).toBe(
      '“remove injury” would remove injury, which every case has, so nothing was changed. Clear its entries instead.',
    );
  });

  it('starts from a case in which nothing is said', () => {
    const { records } = emptyCase(caseId('x'));
    expect(records[recordId('injury')]).toMatchObject({ hand: null, ray: null, region: null, label: '' });
    expect(records[recordId('examination')]).toMatchObject({ answers: {} });
  });
});
