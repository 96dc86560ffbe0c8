import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  act,
  type CaseState,
  canRedo,
  canUndo,
  freshState,
  redoName,
  undoName,
} from '../../src/case/history.ts';
import { arbitraryEdits, stateAfter } from './arbitrary.ts';
import { AT, caseOf, failed, film, free, injury, mark, putting, succeeded } from './samples.ts';

const axis = mark('mark-1', 'film-a', 'distal-axis', free([0, 0], [0, 100]));

const repeat = (state: CaseState, kind: 'undo' | 'redo'): CaseState => {
  const next = act(state, { kind, at: AT });
  return next.ok ? repeat(next.value, kind) : state;
};

describe('history', () => {
  it('names what is undone and redone', () => {
    const start = freshState(caseOf(film('film-a')));
    const placed = succeeded(
      act(start, {
        kind: 'do',
        transaction: { ...putting(start.document, axis), label: 'place distal axis' },
      }),
    );
    const moved = { ...axis, shape: free([3, 0], [3, 100]) };
    const after = succeeded(
      act(placed, {
        kind: 'do',
        transaction: { ...putting(placed.document, moved), label: 'move distal axis' },
      }),
    );
    expect(undoName(after.history)).toBe('Undo move distal axis');
    expect(redoName(after.history)).toBe('Redo');
    const back = succeeded(act(after, { kind: 'undo', at: AT }));
    expect(back.document).toEqual(placed.document);
    expect(undoName(back.history)).toBe('Undo place distal axis');
    expect(redoName(back.history)).toBe('Redo move distal axis');
  });

  it('drops what was undone when something new is done', () => {
    const start = freshState(caseOf());
    const left = succeeded(
      act(start, { kind: 'do', transaction: putting(start.document, injury({ hand: 'left' })) }),
    );
    const back = succeeded(act(left, { kind: 'undo', at: AT }));
    expect(canRedo(back.history)).toBe(true);
    const right = succeeded(
      act(back, { kind: 'do', transaction: putting(back.document, injury({ hand: 'right' })) }),
    );
    expect(canRedo(right.history)).toBe(false);
    expect(right.history.transactions).toHaveLength(1);
  });

  it('refuses, by name, when there is nothing to undo or redo', () => {
    const start = freshState(caseOf());
    expect(failed(act(start, { kind: 'undo', at: AT })).kind).toBe('nothing-to-undo');
    expect(failed(act(start, { kind: 'redo', at: AT })).kind).toBe('nothing-to-redo');
    expect(canUndo(start.history)).toBe(false);
  });

  it('does not record a transaction that changes nothing', () => {
    const start = freshState(caseOf(injury()));
    const same = succeeded(act(start, { kind: 'do', transaction: putting(start.document, injury()) }));
    expect(same).toBe(start);
  });

  it('returns the last document when all is undone and then redone', () => {
    fc.assert(
      fc.property(arbitraryEdits, (edits) => {
        const end = repeat(stateAfter(edits), 'redo');
        const bottom = repeat(end, 'undo');
        expect(bottom.document).toEqual(caseOf(film('film-a')));
        expect(repeat(bottom, 'redo')).toEqual(end);
      }),
    );
  });

  it('survives being written as JSON, position and all', () => {
    fc.assert(
      fc.property(arbitraryEdits, (edits) => {
        const end = stateAfter(edits);
        const read = JSON.parse(JSON.stringify(end)) as CaseState;
        const [undone, undoneFromRead] = [repeat(end, 'undo'), repeat(read, 'undo')];
        expect(undoneFromRead.history.position).toBe(undone.history.position);
        expect(undoneFromRead.document).toEqual(undone.document);
      }),
    );
  });
});
