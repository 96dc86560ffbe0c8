import type { StoreApi } from 'zustand/vanilla';
import type { Action, CaseState } from '../case/history.ts';
import type { Result } from '../geometry/result.ts';
import { CaseWriter } from '../storage/case-writer.ts';
import { listCases, loadCase, namedFilms } from '../storage/cases.ts';
import { DATABASE_NAME, openDatabase } from '../storage/database.ts';
import { type FilmStore, filmsInDatabase, filmsInEither, sweepFilms } from '../storage/films.ts';
import { askForPermanence, casesGone, casesGoneSentence, noteCaseCount } from '../storage/permanence.ts';
import type { Database } from '../storage/rows.ts';
import { type StorageError, storageErrorSentence } from '../storage/storage-error.ts';
import { connectTabs, type Tabs } from '../storage/tabs.ts';
import { filmsInFiles } from './film-files.ts';
import type { CaseKeeper } from './keeper.ts';
import type { AppState } from './state.ts';

/** While a tab is open it holds this shared, so that no other tab sweeps films that are just being written. */
const FILMS_LOCK = 'raybend-films';

/** Keeps cases and films in the browser's own storage; without any, work goes on and says that nothing is kept. */
export class StorageKeeper implements CaseKeeper {
  private readonly ready: Promise<{ database: Database; films: FilmStore } | null>;
  private readonly tabs: Tabs = connectTabs(DATABASE_NAME);
  private readonly memory = new Map<string, ArrayBuffer>();
  private writer: CaseWriter | null = null;
  private caseId = '';
  private writing = 0;
  private asked = false;

  constructor(
    private readonly store: StoreApi<AppState>,
    private readonly say: (text: string) => void,
    private readonly now: () => string,
  ) {
    this.ready = this.open();
    this.tabs.hear(({ kind, caseId }) => {
      if (caseId !== this.caseId) return;
      this.say(
        kind === 'case-removed'
          ? 'This case was removed in another tab. Save it to a file if you still need it.'
          : 'This case was changed in another tab. Reload to take the change over.',
      );
    });
  }

  keep(state: CaseState, action: Action): void {
    void this.track((writer) => writer.write(state, action));
  }

  async begin(state: CaseState): Promise<void> {
    const opened = await this.ready;
    this.caseId = state.document.id;
    if (opened === null) return;
    const existing = await loadCase(opened.database, state.document.id);
    this.writer = new CaseWriter(opened.database, existing.ok ? existing.value.sequence : 0, {});
    await this.track((writer) => writer.save(state, this.now()));
    const cases = await listCases(opened.database);
    if (cases.ok) noteCaseCount(localStorage, cases.value.length);
  }

  async last(): Promise<CaseState | null> {
    const opened = await this.ready;
    if (opened === null) return null;
    const cases = await listCases(opened.database);
    if (!cases.ok) return this.report(cases.error);
    const gone = casesGone(localStorage, cases.value.length);
    if (gone > 0) this.say(casesGoneSentence(gone));
    const [latest] = cases.value;
    if (latest === undefined) return null;
    const loaded = await loadCase(opened.database, latest.id);
    if (!loaded.ok) return this.report(loaded.error);
    const { state, sequence, lostActions, unknownFields } = loaded.value;
    if (lostActions > 0)
      this.say(
        `The last ${lostActions} changes of this case could not be read and are missing. Check what is shown before you rely on it.`,
      );
    this.caseId = latest.id;
    this.writer = new CaseWriter(opened.database, sequence, unknownFields);
    return state;
  }

  async keepFilm(sha256: string, bytes: ArrayBuffer): Promise<void> {
    const opened = await this.ready;
    const kept = opened === null ? null : await opened.films.put(sha256, bytes.slice(0));
    if (kept?.ok) return;
    this.memory.set(sha256, bytes.slice(0));
    if (kept !== null) this.report(kept.error);
  }

  async filmBytes(sha256: string): Promise<ArrayBuffer | null> {
    const remembered = this.memory.get(sha256);
    if (remembered !== undefined) return remembered.slice(0);
    const opened = await this.ready;
    if (opened === null) return null;
    const found = await opened.films.get(sha256);
    return found.ok ? found.value : this.report(found.error);
  }

  private async open(): Promise<{ database: Database; films: FilmStore } | null> {
    const opened = await openDatabase(DATABASE_NAME, {
      onBlocked: () =>
        this.say('Raybend is open in another tab in an older version. Close that tab to go on.'),
      onClosed: () => this.fail({ kind: 'connection-closed' }),
    });
    if (!opened.ok) return this.report(opened.error);
    const database = opened.value;
    const films = filmsInEither(filmsInFiles(), filmsInDatabase(database));
    await this.sweep(database, films);
    return { database, films };
  }

  /** Removes films that no case names, unless another tab is open and may be writing one. */
  private async sweep(database: Database, films: FilmStore): Promise<void> {
    await navigator.locks?.request(FILMS_LOCK, { ifAvailable: true }, async (lock) => {
      if (lock === null) return;
      const named = await namedFilms(database);
      if (named.ok) await sweepFilms(films, named.value);
    });
    void navigator.locks?.request(FILMS_LOCK, { mode: 'shared' }, () => new Promise(() => undefined));
  }

  private async track(write: (writer: CaseWriter) => Promise<Result<void, StorageError>>): Promise<void> {
    this.writing += 1;
    this.store.setState({ saved: { kind: 'saving' } });
    await this.ready;
    const done = this.writer === null ? null : await write(this.writer);
    this.writing -= 1;
    if (done === null) {
      this.store.setState({ saved: { kind: 'not-saved', why: 'this window keeps nothing' } });
      return;
    }
    if (!done.ok) {
      this.fail(done.error);
      return;
    }
    this.tabs.tell({ kind: 'case-changed', caseId: this.caseId });
    if (this.writing === 0) this.store.setState({ saved: { kind: 'saved' } });
    await this.askOnce();
  }

  /** Asks the browser to keep what is here, once a case is kept. */
  private async askOnce(): Promise<void> {
    if (this.asked) return;
    this.asked = true;
    await askForPermanence();
  }

  private fail(error: StorageError): void {
    this.store.setState({ saved: { kind: 'not-saved', why: 'save the case to a file' } });
    this.report(error);
  }

  private report(error: StorageError): null {
    this.say(storageErrorSentence(error));
    return null;
  }
}
