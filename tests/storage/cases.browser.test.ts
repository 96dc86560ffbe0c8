import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { act } from '../../src/case/history.ts';
import { CaseWriter, NOT_KEPT_YET } from '../../src/storage/case-writer.ts';
import { appendAction, compactCase, loadCase, removeCase, saveCase } from '../../src/storage/cases.ts';
import { storageErrorSentence } from '../../src/storage/storage-error.ts';
import { listCases, namedFilms } from '../../src/storage/summaries.ts';
import { actionOf, arbitraryEdits } from '../case/arbitrary.ts';
import { AT, caseOf, failed, film, injury, succeeded } from '../case/samples.ts';
import { connection, freshName, named, newState } from './support.ts';

const asNew = (state: ReturnType<typeof newState>) => ({ state, unknownFields: {} });

describe('a case on this computer', () => {
  it('comes back as it was after any edits, in another connection', async () => {
    const name = freshName();
    const database = await connection(name);
    let run = 0;
    await fc.assert(
      fc.asyncProperty(arbitraryEdits, async (edits) => {
        run += 1;
        let state = { ...newState(`case-${run}`) };
        const writer = new CaseWriter(database, NOT_KEPT_YET);
        succeeded(await writer.save(state, AT));
        for (const edit of edits) {
          const action = actionOf(edit, state);
          const next = act(state, action);
          if (!next.ok) continue;
          state = next.value;
          succeeded(await writer.write(state, action));
        }
        const other = await connection(name);
        const kept = succeeded(await loadCase(other, `case-${run}`));
        expect(kept.state).toEqual(state);
        expect(kept.lostActions).toBe(0);
      }),
      { numRuns: 15 },
    );
  });

  it('keeps undo over a restart', async () => {
    const database = await connection(freshName());
    const start = newState('case-1');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(start, AT));
    const one = named(start, 'one');
    const two = named(one.state, 'two');
    succeeded(await writer.write(one.state, one.action));
    succeeded(await writer.write(two.state, two.action));
    const undone = succeeded(act(two.state, { kind: 'undo', at: AT }));
    succeeded(await writer.write(undone, { kind: 'undo', at: AT }));
    const { state } = succeeded(await loadCase(database, 'case-1'));
    expect(injuryOf(state.document).label).toBe('one');
    const redone = succeeded(act(state, { kind: 'redo', at: AT }));
    expect(injuryOf(redone.document).label).toBe('two');
  });

  it('is listed, the one changed last first, and can be removed', async () => {
    const database = await connection(freshName());
    for (const [id, at] of [
      ['case-1', '2026-03-01T00:00:00.000Z'],
      ['case-2', '2026-03-03T00:00:00.000Z'],
      ['case-3', '2026-03-02T00:00:00.000Z'],
    ] as const) {
      succeeded(await saveCase(database, asNew(named(newState(id), `label of ${id}`).state), 0, at));
    }
    const listed = succeeded(await listCases(database));
    expect(listed.map((row) => row.label)).toEqual(['label of case-2', 'label of case-3', 'label of case-1']);
    succeeded(await removeCase(database, 'case-3'));
    expect(succeeded(await listCases(database)).map((row) => row.id)).toEqual(['case-2', 'case-1']);
    expect(failed(await loadCase(database, 'case-3'))).toEqual({ kind: 'case-not-found', caseId: 'case-3' });
  });

  it('names its films, also those that undo could bring back', async () => {
    const database = await connection(freshName());
    const withFilm = { ...newState('case-1'), document: caseOf(film('film-a', { sha256: 'a'.repeat(64) })) };
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(withFilm, AT));
    const removal = {
      kind: 'do' as const,
      transaction: {
        label: 'remove film',
        at: AT,
        steps: [{ id: film('film-a').id, before: film('film-a', { sha256: 'a'.repeat(64) }), after: null }],
      },
    };
    const without = succeeded(act(withFilm, removal));
    succeeded(await writer.write(without, removal));
    expect(succeeded(await namedFilms(database))).toEqual(new Set(['a'.repeat(64)]));
    succeeded(await compactCase(database, asNew(without), 2, AT));
    expect(succeeded(await namedFilms(database))).toEqual(new Set(['a'.repeat(64)]));
  });

  it('is the same after its log was put into the checkpoint', async () => {
    const database = await connection(freshName());
    let { state } = named(newState('case-1'), 'start');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(state, AT));
    for (let count = 0; count < 210; count += 1) {
      const next = named(state, `name ${count}`);
      state = next.state;
      succeeded(await writer.write(state, next.action));
    }
    expect(await database.count('transactions')).toBeLessThan(20);
    const kept = succeeded(await loadCase(database, 'case-1'));
    expect(kept.state).toEqual(state);
    const last = named(kept.state, 'after');
    succeeded(await appendAction(database, last.state, last.action, kept.sequence));
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(last.state);
  });

  it('keeps fields of a later version', async () => {
    const database = await connection(freshName());
    succeeded(
      await saveCase(database, { state: newState('case-1'), unknownFields: { weather: 'rain' } }, 0, AT),
    );
    expect(succeeded(await loadCase(database, 'case-1')).unknownFields).toEqual({ weather: 'rain' });
  });
});

describe('two tabs on one case', () => {
  it('do not overwrite one another', async () => {
    const name = freshName();
    const [here, there] = [await connection(name), await connection(name)];
    const start = newState('case-1');
    const [mine, theirs] = [
      new CaseWriter(here, NOT_KEPT_YET),
      new CaseWriter(there, { ...NOT_KEPT_YET, sequence: 1 }),
    ];
    succeeded(await mine.save(start, AT));
    const [left, right] = [named(start, 'theirs'), named(start, 'mine')];
    succeeded(await theirs.write(left.state, left.action));
    const refused = failed(await mine.write(right.state, right.action));
    expect(refused).toEqual({
      kind: 'changed-elsewhere',
      caseId: 'case-1',
      expectedSequence: 1,
      foundSequence: 2,
    });
    expect(storageErrorSentence(refused)).toContain('changed in another tab');
    // Not by a whole save either, however often it is tried.
    const again = named(right.state, 'mine again');
    expect(failed(await mine.write(again.state, again.action)).kind).toBe('changed-elsewhere');
    expect(injuryOf(succeeded(await loadCase(here, 'case-1')).state.document).label).toBe('theirs');
  });

  it('write in turn what is asked for at the same time', async () => {
    const database = await connection(freshName());
    const start = newState('case-1');
    const one = named(start, 'one');
    const two = named(one.state, 'two');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    const answers = await Promise.all([
      writer.save(start, AT),
      writer.write(one.state, one.action),
      writer.write(two.state, two.action),
    ]);
    expect(answers.map((answer) => answer.ok)).toEqual([true, true, true]);
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(two.state);
  });
});

describe('what is damaged', () => {
  it('costs the actions that cannot be read, and says how many', async () => {
    const database = await connection(freshName());
    const start = newState('case-1');
    const one = named(start, 'one');
    const two = named(one.state, 'two');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(start, AT));
    succeeded(await writer.write(one.state, one.action));
    succeeded(await writer.write(two.state, two.action));
    await database.delete('transactions', ['case-1', 2]);
    const kept = succeeded(await loadCase(database, 'case-1'));
    expect(kept.state).toEqual(start);
    expect(kept.lostActions).toBe(2);
    // What is done next must not be lost with them.
    const next = new CaseWriter(database, kept);
    const after = named(kept.state, 'after');
    succeeded(await next.write(after.state, after.action));
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(after.state);
  });

  it.each([
    ['no action', null],
    ['an action of no kind', {}],
    ['an action without a transaction', { kind: 'do' }],
    [
      'nonsense for a finger',
      {
        kind: 'do',
        transaction: {
          label: 'set the finger',
          at: AT,
          steps: [
            { id: 'injury', before: injury({ label: 'one' }), after: injury({ ray: 'sixth' as 'small' }) },
          ],
        },
      },
    ],
  ])('never becomes a case: %s', async (_, action) => {
    const database = await connection(freshName());
    const one = named(newState('case-1'), 'one');
    succeeded(await saveCase(database, asNew(one.state), 0, AT));
    await database.put('transactions', { caseId: 'case-1', sequence: 2, action });
    await database.put('summaries', { ...(await database.get('summaries', 'case-1'))!, sequence: 2 });
    const kept = succeeded(await loadCase(database, 'case-1'));
    expect(kept.state).toEqual(one.state);
    expect(kept.lostActions).toBe(1);
  });

  it('is said, when it is the case itself', async () => {
    const database = await connection(freshName());
    await database.put('cases', { id: 'case-1', sequence: 1, file: { format: 'raybend-case', version: 1 } });
    const error = failed(await loadCase(database, 'case-1'));
    expect(error.kind).toBe('case-unreadable');
    expect(storageErrorSentence(error)).toContain('cannot be read');
  });

  it('does not stop the writer: a write after a failed one keeps the whole case', async () => {
    const name = freshName();
    const database = await connection(name);
    const start = newState('case-1');
    const one = named(start, 'one');
    const two = named(one.state, 'two');
    const writer = new CaseWriter(database, NOT_KEPT_YET);
    succeeded(await writer.save(start, AT));
    // An action that the browser cannot clone fails to be written.
    const unclonable = { ...one.action, extra: () => undefined };
    expect(failed(await writer.write(one.state, unclonable)).kind).toBe('failed');
    succeeded(await writer.write(two.state, two.action));
    expect(succeeded(await loadCase(database, 'case-1')).state).toEqual(two.state);
  });
});
