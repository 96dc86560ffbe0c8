import { deleteDB, openDB } from 'idb';
import { failure, type Result, success } from '../geometry/result.ts';
import type { Database, Schema } from './rows.ts';
import { type StorageError, storageErrorFrom } from './storage-error.ts';
import { checkUpgrades, UPGRADES, type Upgrade } from './upgrades.ts';

export const DATABASE_NAME = 'raybend';

export interface DatabaseEvents {
  /** Opening waits for another tab with an older Raybend to be closed. Ask the person to close it. */
  readonly onBlocked: () => void;
  /** This connection is gone; nothing is kept from now on. */
  readonly onClosed: () => void;
}

/**
 * Opens the database, making or upgrading its stores.
 *
 * Waits, having called `onBlocked`, while another tab holds an older version open. Gives way itself when a
 * newer Raybend in another tab wants to upgrade.
 *
 * @param upgrades - The steps up from nothing; the version of the database is their number.
 *
 * Fails with `database-too-new`, or `not-available` where the browser has none.
 */
export async function openDatabase(
  name: string,
  events: DatabaseEvents,
  upgrades: readonly Upgrade[] = UPGRADES,
): Promise<Result<Database, StorageError>> {
  checkUpgrades(upgrades);
  const version = upgrades.length;
  try {
    const database = await openDB<Schema>(name, version, {
      upgrade(opened, from) {
        for (const upgrade of upgrades.filter(({ to }) => to > from)) upgrade.run(opened);
      },
      blocked: () => events.onBlocked(),
      blocking: (_current, _wanted, event) => {
        (event.target as IDBDatabase).close();
        events.onClosed();
      },
      terminated: () => events.onClosed(),
    });
    return success(database);
  } catch (thrown) {
    const kind = thrown instanceof Error || thrown instanceof DOMException ? thrown.name : '';
    if (kind === 'VersionError') return failure({ kind: 'database-too-new', known: version });
    if (thrown instanceof TypeError || thrown instanceof ReferenceError) {
      return failure({ kind: 'not-available', detail: 'it has no database' });
    }
    return failure(await storageErrorFrom(thrown));
  }
}

/** Removes everything that is kept. For the person who asks for it, and for tests. */
export const eraseDatabase = (name: string): Promise<void> => deleteDB(name);
