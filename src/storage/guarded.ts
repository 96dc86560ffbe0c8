import { failure, type Result, success } from '../geometry/result.ts';
import { type StorageError, storageErrorFrom } from './storage-error.ts';

/** Work on the browser's storage with what it throws as a value. */
export async function guarded<Value>(work: () => Promise<Value>): Promise<Result<Value, StorageError>> {
  try {
    return success(await work());
  } catch (thrown) {
    return failure(await storageErrorFrom(thrown));
  }
}
