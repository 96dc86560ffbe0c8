import type { StoreApi } from 'zustand/vanilla';
import { type Action, act, actionErrorSentence, type CaseState } from '../case/history.ts';
import { failure, type Result } from '../geometry/result.ts';
import { CaseWriter, NOT_KEPT_YET } from '../storage/case-writer.ts';
import { type KeptCase, loadCase, removeCase, saveCase } from '../storage/cases.ts';
import { listLimitSets, putLimitSet, removeLimitSet } from '../storage/limit-sets.ts';
import { type OpenStorage, openStorage } from '../storage/open-storage.ts';
import {
  askForPermanence,
  casesGoneSentence,
  noteCaseCount,
  permanence,
  roomUsed,
} from '../storage/permanence.ts';
import { type StorageError, storageErrorSentence } from '../storage/storage-error.ts';
import { type CaseSummary, listCases } from '../storage/summaries.ts';
import { filmsInFiles } from './film-files.ts';
import type { CaseKeeper, ProtocolKeeper, WholeCase } from './keeper.ts';
import { notepad } from './notepad.ts';
import type { AppState } from './state.ts';

export interface KeeperEvents {
  say(text: string): void;
  /** The case on screen was changed in another tab; `text` says so, and the two can be put together. */
  changedElsewhere(text: string): void;
}

/** Which case was on screen last, outside the database. */
const ON_SCREEN_KEY = 'raybend-case-on-screen';

const NOT_AVAILABLE: StorageError = { kind: 'not-available', detail: 'it has no database' };

/** Keeps cases and films in the browser's own storage; without any, work goes on and says that nothing is kept. */
export class StorageKeeper implements CaseKeeper, ProtocolKeeper {
  private readonly ready: Promise<OpenStorage | null>;
  private readonly memory = new Map<string, ArrayBuffer>();
  /** By the case: while one takes the place of another, what is still done to that one is kept as its own. */
  private readonly writers = new Map<string, CaseWriter>();
  private caseId = '';
  private writing = 0;
  private asked = false;
  /** The last write of the case on screen; what is read next must not be older. */
  private pending: Promise<void> = Promise.resolve();

  constructor(
    private readonly store: StoreApi<AppState>,
    private readonly events: KeeperEvents,
    private readonly now: () => string,
  ) {
    this.ready = this.start();
  }

  keep(state: CaseState, action: Action): void {
    this.pending = this.track(state.document.id, (writer) => writer.write(state, action));
  }

  async begin({ state, unknownFields }: WholeCase): Promise<void> {
    const opened = await this.ready;
    const { id } = state.document;
    this.caseId = id;
    if (opened === null) return;
    this.writers.set(id, new CaseWriter(opened.database, { ...NOT_KEPT_YET, unknownFields }));
    this.noteOnScreen();
    this.pending = this.track(id, (writer) => writer.save(state, this.now()));
    await this.pending;
    await this.noteCount(opened);
  }

  async open(id: string): Promise<WholeCase | null> {
    const opened = await this.settled();
    if (opened === null) return this.report(NOT_AVAILABLE);
    const loaded = await loadCase(opened.database, id);
    return loaded.ok ? this.onScreen(opened, loaded.value) : this.report(loaded.error);
  }

  async last(): Promise<WholeCase | null> {
    const opened = await this.ready;
    if (opened === null) return null;
    if (opened.casesGone > 0) this.events.say(casesGoneSentence(opened.casesGone));
    const noted = notepad.getItem(ON_SCREEN_KEY);
    const cases = (await this.list()).toSorted(
      (one, other) => Number(other.id === noted) - Number(one.id === noted),
    );
    for (const { id } of cases) {
      const whole = await this.open(id);
      if (whole !== null) return whole;
    }
    return null;
  }

  async list(): Promise<readonly CaseSummary[]> {
    const opened = await this.ready;
    if (opened === null) return [];
    const cases = await listCases(opened.database);
    return cases.ok ? cases.value : (this.report(cases.error) ?? []);
  }

  async read(id: string): Promise<Result<WholeCase, StorageError>> {
    const opened = await this.settled();
    return opened === null ? failure(NOT_AVAILABLE) : loadCase(opened.database, id);
  }

  async put(whole: WholeCase): Promise<boolean> {
    const opened = await this.ready;
    if (opened === null) return this.refuse(NOT_AVAILABLE);
    const kept = await saveCase(opened.database, whole, null, this.now());
    if (!kept.ok) return this.refuse(kept.error);
    opened.tabs.tell({ kind: 'case-changed', caseId: whole.state.document.id });
    await this.noteCount(opened);
    return true;
  }

  async change(id: string, action: (state: CaseState) => Action): Promise<boolean> {
    const opened = await this.settled();
    if (opened === null) return this.refuse(NOT_AVAILABLE);
    const loaded = await loadCase(opened.database, id);
    if (!loaded.ok) return this.refuse(loaded.error);
    const done = action(loaded.value.state);
    const next = act(loaded.value.state, done);
    if (!next.ok) {
      this.events.say(actionErrorSentence(next.error));
      return false;
    }
    if (next.value === loaded.value.state) return true;
    const kept = await new CaseWriter(opened.database, loaded.value).write(next.value, done);
    if (!kept.ok) return this.refuse(kept.error);
    opened.tabs.tell({ kind: 'case-changed', caseId: id });
    this.store.setState(({ listing }) => ({ listing: listing + 1 }));
    return true;
  }

  async remove(id: string): Promise<boolean> {
    const opened = await this.settled();
    if (opened === null) return this.refuse(NOT_AVAILABLE);
    const removed = await removeCase(opened.database, id);
    if (!removed.ok) return this.refuse(removed.error);
    opened.tabs.tell({ kind: 'case-removed', caseId: id });
    await this.noteCount(opened);
    return true;
  }

  async keepFilm(sha256: string, bytes: ArrayBuffer): Promise<void> {
    const opened = await this.ready;
    const kept = opened === null ? null : await opened.films.put(sha256, bytes);
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

  roomUsed(): Promise<number | null> {
    return roomUsed();
  }

  async askToStay(): Promise<void> {
    this.asked = true;
    this.store.setState({ permanence: await askForPermanence() });
  }

  private async settled(): Promise<OpenStorage | null> {
    await this.pending;
    return this.ready;
  }

  private async start(): Promise<OpenStorage | null> {
    const opened = await openStorage({
      filmFiles: filmsInFiles(),
      notepad,
      onBlocked: () =>
        this.events.say('Raybend is open in another tab in an older version. Close that tab to go on.'),
      onClosed: () => this.fail({ kind: 'connection-closed' }),
    });
    if (!opened.ok) return this.report(opened.error);
    this.store.setState({ permanence: await permanence() });
    opened.value.tabs.hear(({ kind, caseId }) => {
      this.store.setState(({ listing }) => ({ listing: listing + 1 }));
      if (caseId !== this.caseId) return;
      if (kind === 'case-removed') {
        this.events.say('This case was removed in another tab. Save it to a file if you still need it.');
      } else {
        this.events.changedElsewhere('This case was changed in another tab.');
      }
    });
    return opened.value;
  }

  private onScreen(opened: OpenStorage, kept: KeptCase): WholeCase {
    if (kept.lostActions > 0)
      this.events.say(
        `The last ${kept.lostActions === 1 ? 'change' : `${kept.lostActions} changes`} of this case could not be read and ${kept.lostActions === 1 ? 'is' : 'are'} missing. Check what is shown before you rely on it.`,
      );
    this.caseId = kept.state.document.id;
    this.writers.set(this.caseId, new CaseWriter(opened.database, kept));
    this.noteOnScreen();
    this.store.setState({ saved: { kind: 'saved' } });
    return kept;
  }

  async limitSets(): Promise<readonly unknown[]> {
    const opened = await this.ready;
    if (opened === null) return [];
    const kept = await listLimitSets(opened.database);
    return kept.ok ? kept.value.map(({ file }) => file) : (this.report(kept.error) ?? []);
  }

  async keepLimitSet(id: string, content: unknown): Promise<boolean> {
    const opened = await this.ready;
    if (opened === null) return this.refuse(NOT_AVAILABLE);
    const kept = await putLimitSet(opened.database, { id, file: content });
    return kept.ok || this.refuse(kept.error);
  }

  async removeLimitSet(id: string): Promise<boolean> {
    const opened = await this.ready;
    if (opened === null) return this.refuse(NOT_AVAILABLE);
    const removed = await removeLimitSet(opened.database, id);
    return removed.ok || this.refuse(removed.error);
  }

  private noteOnScreen(): void {
    // Without the note the case that was changed last comes back.
    notepad.setItem(ON_SCREEN_KEY, this.caseId);
  }

  private async noteCount(opened: OpenStorage): Promise<void> {
    const cases = await listCases(opened.database);
    if (cases.ok) noteCaseCount(notepad, cases.value.length);
    this.store.setState(({ listing }) => ({ listing: listing + 1 }));
  }

  private async track(
    caseId: string,
    write: (writer: CaseWriter) => Promise<Result<void, StorageError>>,
  ): Promise<void> {
    this.writing += 1;
    this.store.setState({ saved: { kind: 'saving' } });
    const opened = await this.ready;
    const writer = this.writers.get(caseId);
    const done = writer === undefined ? null : await write(writer);
    this.writing -= 1;
    const isOnScreen = caseId === this.caseId;
    if (done?.ok) opened?.tabs.tell({ kind: 'case-changed', caseId });
    // What became of a case that is no longer on screen does not count for the one that is.
    if (isOnScreen && !done?.ok) {
      if (done === null)
        this.store.setState({ saved: { kind: 'not-saved', why: 'this window keeps nothing' } });
      else this.fail(done.error);
      return;
    }
    if (done?.ok === false) this.report(done.error);
    const isWaiting = isOnScreen || this.store.getState().saved.kind === 'saving';
    if (this.writing === 0 && isWaiting) this.store.setState({ saved: { kind: 'saved' } });
    // Browsers ask the person or decide by themselves; either makes sense only once there is something to keep.
    // The person may leave the question open for ever, and nothing waits for the answer.
    if (done?.ok && !this.asked) void this.askToStay();
  }

  private fail(error: StorageError): void {
    const elsewhere = error.kind === 'changed-elsewhere';
    const why = elsewhere ? 'changed in another tab' : 'save the case to a file';
    this.store.setState({ saved: { kind: 'not-saved', why } });
    if (elsewhere) this.events.changedElsewhere(storageErrorSentence(error));
    else this.report(error);
  }

  private refuse(error: StorageError): false {
    this.report(error);
    return false;
  }

  private report(error: StorageError): null {
    this.events.say(storageErrorSentence(error));
    return null;
  }
}
