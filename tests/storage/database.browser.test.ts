import { describe, expect, it } from 'vitest';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { type Action, act } from '../../src/case/history.ts';
import { CaseWriter } from '../../src/storage/case-writer.ts';
import { loadCase, saveCase } from '../../src/storage/cases.ts';
import { openDatabase } from '../../src/storage/database.ts';
import { filmsInDatabase } from '../../src/storage/films.ts';
import { listLimitSets } from '../../src/storage/limit-sets.ts';
import { namedFilms } from '../../src/storage/summaries.ts';
import { checkUpgrades, UPGRADES, type Upgrade } from '../../src/storage/upgrades.ts';
import { checkLimitSet } from '../../src/tolerance/limit-set-file.ts';
import { AT, failed, putting, succeeded } from '../case/samples.ts';
import { makeVersion1, makeVersion2 } from './old-databases.ts';
import { connection, freshName, newState } from './support.ts';

const QUIET = { onBlocked: () => undefined, onClosed: () => undefined };

/** A step that a later Raybend might have. */
const NEXT: readonly Upgrade[] = [
  ...UPGRADES,
  {
    to: UPGRADES.length + 1,
    run: (database) => {
      (database as unknown as IDBDatabase).createObjectStore('later');
    },
  },
];

const opened = (request: IDBOpenDBRequest): Promise<IDBDatabase> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

describe('the database', () => {
  it('of version 1 opens with all that is in it', async () => {
    const name = freshName();
    await makeVersion1(name);
    const database = await connection(name);
    const { state, sequence, lostActions } = succeeded(await loadCase(database, 'case-of-version-1'));
    expect(injuryOf(state.document)).toMatchObject({ label: 'Right small finger', pattern: 'oblique' });
    expect(sequence).toBe(4);
    expect(lostActions).toBe(0);
    const [film] = succeeded(await namedFilms(database));
    const bytes = succeeded(await filmsInDatabase(database).get(film ?? ''));
    expect([...new Uint8Array(bytes ?? new ArrayBuffer())]).toEqual([1, 2, 3]);
  });

  it('of version 1 takes what is done today, and gives it back', async () => {
    const name = freshName();
    await makeVersion1(name);
    const database = await connection(name);
    const kept = succeeded(await loadCase(database, 'case-of-version-1'));
    expect(kept.olderFormat).toBe(true);
    const writer = new CaseWriter(database, kept);
    let { state } = kept;
    // Films have a moment since version 2 of the case file; a log that was appended to would not replay.
    const film = Object.values(state.document.records).find((record) => record.kind === 'film')!;
    for (const moment of ['before-reduction', 'follow-up'] as const) {
      const action: Action = { kind: 'do', transaction: putting(state.document, { ...film, moment }) };
      state = succeeded(act(state, action));
      succeeded(await writer.write(state, action));
    }
    const again = succeeded(await loadCase(await connection(name), 'case-of-version-1'));
    expect(again).toMatchObject({ state, lostActions: 0, olderFormat: false });
  });

  it('of version 1 gets a place for local protocols, and none of them', async () => {
    const name = freshName();
    await makeVersion1(name);
    const database = await connection(name);
    expect(succeeded(await listLimitSets(database))).toEqual([]);
  });

  it('of version 2 opens with its local protocol, which still validates', async () => {
    const name = freshName();
    await makeVersion2(name);
    const database = await connection(name);
    const [row] = succeeded(await listLimitSets(database));
    expect(row?.id).toBe('house-rules');
    const set = succeeded(checkLimitSet(row?.file, 'The kept set'));
    expect(set).toMatchObject({ title: 'House rules', revision: 3, local: true });
    expect(succeeded(await loadCase(database, 'case-of-version-1')).sequence).toBe(4);
  });

  it('keeps what is in it through an upgrade', async () => {
    const name = freshName();
    await makeVersion1(name);
    const database = succeeded(await openDatabase(name, QUIET, NEXT));
    expect(succeeded(await loadCase(database, 'case-of-version-1')).sequence).toBe(4);
    expect([...database.objectStoreNames]).toContain('later');
    database.close();
  });

  it('has upgrades without a gap', () => {
    expect(() => checkUpgrades(UPGRADES)).not.toThrow();
    expect(() => checkUpgrades([...UPGRADES, { to: UPGRADES.length + 2, run: () => undefined }])).toThrow();
  });

  it('of a newer Raybend is refused by name', async () => {
    const name = freshName();
    (await opened(indexedDB.open(name, 99))).close();
    expect(failed(await openDatabase(name, QUIET))).toEqual({
      kind: 'database-too-new',
      known: UPGRADES.length,
    });
  });

  it('gives way to a newer Raybend in another tab, and says so', async () => {
    const name = freshName();
    let closed = 0;
    const database = succeeded(
      await openDatabase(name, {
        ...QUIET,
        onClosed: () => {
          closed += 1;
        },
      }),
    );
    const newer = succeeded(await openDatabase(name, QUIET, NEXT));
    expect(closed).toBe(1);
    const refused = failed(await saveCase(database, { state: newState('case-1'), unknownFields: {} }, 0, AT));
    expect(refused.kind).toBe('connection-closed');
    newer.close();
  });

  it('waits for an older Raybend that does not give way, and says so', async () => {
    const name = freshName();
    // A tab that hangs does not answer the request to close.
    const hanging = await opened(indexedDB.open(name, 1));
    let blocked = 0;
    const database = succeeded(
      await openDatabase(
        name,
        {
          ...QUIET,
          onBlocked: () => {
            blocked += 1;
            hanging.close();
          },
        },
        NEXT,
      ),
    );
    expect(blocked).toBe(1);
    database.close();
  });
});
