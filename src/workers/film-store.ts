import * as Comlink from 'comlink';
import { failure, type Result, reasonOf, success } from '../geometry/result.ts';
import { sha256Of } from './sha256.ts';

/** Why the file store cannot do what was asked. `kind`s are those of storage. */
export type FilmStoreError =
  | { readonly kind: 'not-available'; readonly detail: string }
  | { readonly kind: 'quota-exceeded'; readonly usage: null }
  | { readonly kind: 'film-mismatch'; readonly sha256: string; readonly found: string }
  | { readonly kind: 'failed'; readonly detail: string };

/** What the page may ask of this worker, through comlink. Films are named by their SHA-256, lower-case hex. */
export interface FilmStoreWorker {
  /** Keeps a film; a film that is there already is left as it is. Pass `bytes` with `Comlink.transfer`. */
  put(sha256: string, bytes: ArrayBuffer): Promise<Result<void, FilmStoreError>>;
  /** A film's bytes, checked against its name; null when it is not kept. A damaged file is removed. */
  get(sha256: string): Promise<Result<ArrayBuffer | null, FilmStoreError>>;
  remove(sha256: string): Promise<Result<void, FilmStoreError>>;
  list(): Promise<Result<readonly string[], FilmStoreError>>;
}

const FOLDER = 'films';

const worker: FilmStoreWorker = {
  put: (sha256, bytes) =>
    guarded(async () => {
      const found = await sha256Of(bytes);
      if (found !== sha256) return failure({ kind: 'film-mismatch', sha256, found });
      const folder = await filmFolder();
      const before = await readFile(folder, sha256);
      if (before !== null && (await sha256Of(before)) === sha256) return success(undefined);
      try {
        await writeFile(folder, sha256, bytes);
      } catch (thrown) {
        // Half a film is worse than none: it takes the room that was missing.
        await folder.removeEntry(sha256).catch(() => undefined);
        throw thrown;
      }
      return success(undefined);
    }),

  get: (sha256) =>
    guarded(async () => {
      const folder = await filmFolder();
      const bytes = await readFile(folder, sha256);
      if (bytes === null) return success(null);
      const found = await sha256Of(bytes);
      if (found === sha256) return Comlink.transfer(success(bytes), [bytes]);
      await folder.removeEntry(sha256);
      return failure({ kind: 'film-mismatch', sha256, found });
    }),

  remove: (sha256) =>
    guarded(async () => {
      const folder = await filmFolder();
      await folder.removeEntry(sha256).catch(unlessNotFound);
      return success(undefined);
    }),

  list: () =>
    guarded(async () => {
      const names: string[] = [];
      for await (const name of (await filmFolder()).keys()) names.push(name);
      return success(names);
    }),
};

async function filmFolder(): Promise<FileSystemDirectoryHandle> {
  const root = await navigator.storage.getDirectory();
  return root.getDirectoryHandle(FOLDER, { create: true });
}

async function writeFile(folder: FileSystemDirectoryHandle, name: string, bytes: ArrayBuffer): Promise<void> {
  const file = await folder.getFileHandle(name, { create: true });
  const access = await file.createSyncAccessHandle();
  try {
    access.truncate(0);
    const written = access.write(bytes, { at: 0 });
    // A full disk can end a write early without throwing.
    if (written !== bytes.byteLength) throw new DOMException('only part was written', 'QuotaExceededError');
    access.flush();
  } finally {
    access.close();
  }
}

async function readFile(folder: FileSystemDirectoryHandle, name: string): Promise<ArrayBuffer | null> {
  try {
    const file = await folder.getFileHandle(name);
    return await (await file.getFile()).arrayBuffer();
  } catch (thrown) {
    return unlessNotFound(thrown);
  }
}

function unlessNotFound(thrown: unknown): null {
  if (thrown instanceof DOMException && thrown.name === 'NotFoundError') return null;
  throw thrown;
}

async function guarded<Value>(
  work: () => Promise<Result<Value, FilmStoreError>>,
): Promise<Result<Value, FilmStoreError>> {
  try {
    return await work();
  } catch (thrown) {
    if (thrown instanceof DOMException && thrown.name === 'QuotaExceededError') {
      return failure({ kind: 'quota-exceeded', usage: null });
    }
    if (thrown instanceof TypeError) {
      return failure({ kind: 'not-available', detail: 'it has no private file system' });
    }
    if (thrown instanceof DOMException && thrown.name === 'SecurityError') {
      return failure({ kind: 'not-available', detail: 'it refuses its private file system' });
    }
    return failure({ kind: 'failed', detail: reasonOf(thrown) });
  }
}

Comlink.expose(worker);
