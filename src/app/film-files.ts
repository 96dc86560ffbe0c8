import * as Comlink from 'comlink';
import type { FilmStore } from '../storage/films.ts';
import type { FilmStoreWorker } from '../workers/film-store.ts';

/** Films as files of this origin, written by a worker; only a worker may write them at once and for good. */
export function filmsInFiles(): FilmStore {
  const worker = new Worker(new URL('../workers/film-store.ts', import.meta.url), { type: 'module' });
  const remote = Comlink.wrap<FilmStoreWorker>(worker);
  return {
    put(sha256, bytes) {
      // The one copy; handed over, since a message that is not is copied once more on the other side.
      const copy = bytes.slice(0);
      return remote.put(sha256, Comlink.transfer(copy, [copy]));
    },
    get: (sha256) => remote.get(sha256),
    remove: (sha256) => remote.remove(sha256),
    list: () => remote.list(),
  };
}
