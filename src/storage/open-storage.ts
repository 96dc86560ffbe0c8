import { type Result, success } from '../geometry/result.ts';
import { DATABASE_NAME, type DatabaseEvents, openDatabase } from './database.ts';
import { type FilmStore, filmsInDatabase, filmsInEither, sweepFilms } from './films.ts';
import { mendSummaries } from './mend-summaries.ts';
import { casesGone, type Notepad, noteCaseCount } from './permanence.ts';
import type { Database } from './rows.ts';
import type { StorageError } from './storage-error.ts';
import { listCases, namedFilms } from './summaries.ts';
import { connectTabs, holdPlace, type Tabs, whenAlone } from './tabs.ts';

export interface StorageOptions extends DatabaseEvents {
  /** Another name than the app's own is for tests. */
  readonly name?: string;
  /** The worker of `workers/film-store.ts` through comlink; null where workers cannot be had. */
  readonly filmFiles: FilmStore | null;
  /** `localStorage`. */
  readonly notepad: Notepad;
}

export interface OpenStorage {
  readonly database: Database;
  readonly films: FilmStore;
  readonly tabs: Tabs;
  /** How many cases were here at the last visit and are gone; `casesGoneSentence` says it. */
  readonly casesGone: number;
  close(): void;
}

/**
 * Opens all that is kept on this computer: the database, upgraded if need be, the films, and the channel to
 * other tabs. Sweeps films that no case names, but only when this is the only tab: another one may just be
 * keeping a film whose case comes next. Nor is anything swept while it is not known which films a case names.
 */
export async function openStorage(options: StorageOptions): Promise<Result<OpenStorage, StorageError>> {
  const { name = DATABASE_NAME, filmFiles, notepad } = options;
  const opened = await openDatabase(name, options);
  if (!opened.ok) return opened;
  const database = opened.value;
  const inDatabase = filmsInDatabase(database);
  const films = filmFiles === null ? inDatabase : filmsInEither(filmFiles, inDatabase);
  const listed = await listCases(database);
  if (!listed.ok) return listed;
  const gone = casesGone(notepad, listed.value.length);
  noteCaseCount(notepad, listed.value.length);
  // Where the sweep fails, films take room for longer; the next start tries again.
  if (gone === 0) await whenAlone(name, () => sweep(database, films));
  const leave = await holdPlace(name);
  const tabs = connectTabs(name);
  return success({
    database,
    films,
    tabs,
    casesGone: gone,
    close() {
      tabs.close();
      leave();
      database.close();
    },
  });
}

async function sweep(database: Database, films: FilmStore): Promise<void> {
  if (!(await mendSummaries(database))) return;
  const named = await namedFilms(database);
  if (named.ok) await sweepFilms(films, named.value);
}
