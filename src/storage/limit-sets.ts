import type { Result } from '../geometry/result.ts';
import { guarded } from './guarded.ts';
import type { Database, LimitSetRow } from './rows.ts';
import type { StorageError } from './storage-error.ts';
import { written } from './written.ts';

type Kept<Value> = Promise<Result<Value, StorageError>>;

/** Every local protocol kept here, by id. What is in one is for the reader to check. */
export const listLimitSets = (database: Database): Kept<readonly LimitSetRow[]> =>
  guarded(() => database.getAll('limitSets'));

/** Keeps a local protocol, in place of one of the same id. */
export const putLimitSet = (database: Database, row: LimitSetRow): Kept<void> =>
  guarded(async () => {
    const transaction = database.transaction('limitSets', 'readwrite', { durability: 'strict' });
    await written(transaction, [transaction.store.put(row)]);
  });

/** Removes a local protocol; one that is not there is no failure. */
export const removeLimitSet = (database: Database, id: string): Kept<void> =>
  guarded(() => database.delete('limitSets', id));
