import { type Result, success } from '../geometry/result.ts';
import { guarded } from './guarded.ts';
import type { Database } from './rows.ts';
import type { StorageError } from './storage-error.ts';
import { written } from './written.ts';

type Kept<Value> = Promise<Result<Value, StorageError>>;

/** Where the bytes of films lie, under their SHA-256 in lower-case hexadecimal. */
export interface FilmStore {
  /** Keeps a film's bytes, which stay with the caller: copying them takes the page's time, so nobody does it twice. */
  put(sha256: string, bytes: ArrayBuffer): Kept<void>;
  /** Null when the film is not kept here. */
  get(sha256: string): Kept<ArrayBuffer | null>;
  remove(sha256: string): Kept<void>;
  list(): Kept<readonly string[]>;
}

/** Films in the database, for browsers without a private file system. */
export const filmsInDatabase = (database: Database): FilmStore => ({
  put: (sha256, bytes) =>
    guarded(async () => {
      const transaction = database.transaction('films', 'readwrite', { durability: 'strict' });
      await written(transaction, [transaction.store.put({ sha256, bytes })]);
      return undefined;
    }),
  get: (sha256) => guarded(async () => (await database.get('films', sha256))?.bytes ?? null),
  remove: (sha256) => guarded(() => database.delete('films', sha256)),
  list: () => guarded(() => database.getAllKeys('films')),
});

/**
 * Films in `first`, and in `second` whatever `first` cannot take because the browser does not offer it. A film
 * is looked for in both, so that nothing is lost when a browser learns or forgets to offer a file system.
 */
export const filmsInEither = (first: FilmStore, second: FilmStore): FilmStore => ({
  async put(sha256, bytes) {
    const kept = await first.put(sha256, bytes);
    return !kept.ok && kept.error.kind === 'not-available' ? second.put(sha256, bytes) : kept;
  },
  async get(sha256) {
    const found = await first.get(sha256);
    if (found.ok && found.value !== null) return found;
    const other = await second.get(sha256);
    if (other.ok && other.value !== null) return other;
    return found.ok || found.error.kind === 'not-available' ? other : found;
  },
  async remove(sha256) {
    const removed = await first.remove(sha256);
    const other = await second.remove(sha256);
    return removed.ok || removed.error.kind === 'not-available' ? other : removed;
  },
  async list() {
    const found = await first.list();
    if (!found.ok && found.error.kind !== 'not-available') return found;
    const other = await second.list();
    if (!other.ok) return other;
    return success([...new Set([...(found.ok ? found.value : []), ...other.value])]);
  },
});

/**
 * Removes films that no case names. Run once at the start, before anything is opened: a film is written before
 * the case that names it.
 *
 * @param named - SHA-256 of every film that a kept case or its history names.
 * @returns How many were removed.
 */
export async function sweepFilms(films: FilmStore, named: ReadonlySet<string>): Kept<number> {
  const kept = await films.list();
  if (!kept.ok) return kept;
  const orphans = kept.value.filter((sha256) => !named.has(sha256));
  for (const sha256 of orphans) {
    const removed = await films.remove(sha256);
    if (!removed.ok) return removed;
  }
  return success(orphans.length);
}
