import type { StoreApi } from 'zustand/vanilla';
import type { Action, CaseState } from '../case/history.ts';
import type { Result } from '../geometry/result.ts';
import { CaseWriter, NOT_KEPT_YET } from '../storage/case-writer.ts';
import { loadCase } from '../storage/cases.ts';
import { type OpenStorage, openStorage } from '../storage/open-storage.ts';
import { askForPermanence, casesGoneSentence, noteCaseCount } from '../storage/permanence.ts';
import { type StorageError, storageErrorSentence } from '../storage/storage-error.ts';
import { listCases } from '../storage/summaries.ts';
import { filmsInFiles } from './film-files.ts';
import type { CaseKeeper } from './keeper.ts';
import type { AppState } from './state.ts';

/** Keeps cases and films in the browser's own storage; without any, work goes on and says that nothing is kept. */
export class StorageKeeper implements CaseKeeper {
  private readonly ready: Promise<OpenStorage | null>;
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
  }

  keep(state: CaseState, action: Action): void {
    void this.track((writer) => writer.write(state, action));
  }

  async begin(state: CaseState): Promise<void> {
    const opened = await this.ready;
    this.caseId = state.document.id;
    if (opened === null) return;
    const existing = await loadCase(opened.database, state.document.id);
    this.writer = new CaseWriter(opened.database, existing.ok ? existing.value : NOT_KEPT_YET);
    await this.track((writer) => writer.save(state, this.now()));
    const cases = await listCases(opened.database);
    if (cases.ok) noteCaseCount(localStorage, cases.value.length);
  }

  async last(): Promise<CaseState | null> {
    const opened = await this.ready;
    if (opened === null) return null;
    const cases = await listCases(opened.database);
    if (!cases.ok) return this.report(cases.error);
    if (opened.casesGone > 0) this.say(casesGoneSentence(opened.casesGone));
    const [latest] = cases.value;
    if (latest === undefined) return null;
    const loaded = await loadCase(opened.database, latest.id);
    if (!loaded.ok) return this.report(loaded.error);
    const { state, lostActions } = loaded.value;
    if (lostActions > 0)
      this.say(
        `The last ${lostActions} changes of this case could not be read and are missing. Check what is shown before you rely on it.`,
      );
    this.caseId = latest.id;
    this.writer = new CaseWriter(opened.database, loaded.value);
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

  private async open(): Promise<OpenStorage | null> {
    const opened = await openStorage({
      filmFiles: filmsInFiles(),
      notepad: localStorage,
      onBlocked: () =>
        this.say('Raybend is open in another tab in an older version. Close that tab to go on.'),
      onClosed: () => this.fail({ kind: 'connection-closed' }),
    });
    if (!opened.ok) return this.report(opened.error);
    opened.value.tabs.hear(({ kind, caseId }) => {
      if (caseId !== this.caseId) return;
      this.say(
        kind === 'case-removed'
          ? 'This case was removed in another tab. Save it to a file if you still need it.'
          : 'This case was changed in another tab. Reload to take the change over.',
      );
    });
    return opened.value;
  }

  private async track(write: (writer: CaseWriter) => Promise<Result<void, StorageError>>): Promise<void> {
    this.writing += 1;
    this.store.setState({ saved: { kind: 'saving' } });
    const opened = await this.ready;
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
    opened?.tabs.tell({ kind: 'case-changed', caseId: this.caseId });
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
