import type { StoreApi } from 'zustand/vanilla';
import { change } from '../case/apply.ts';
import type { CaseId, CaseRecord } from '../case/document.ts';
import { type Action, act, actionErrorSentence } from '../case/history.ts';
import type { FilmDecoder } from './films/decoder.ts';
import type { FoundFilms } from './films/found-films.ts';
import type { CaseKeeper, ProtocolKeeper } from './keeper.ts';
import type { AppState, Message } from './state.ts';

/** What the commands work with: the state, the clock, ids, and the machinery behind them. */
export interface Shell {
  readonly store: StoreApi<AppState>;
  /** ISO 8601. */
  readonly now: () => string;
  readonly newId: () => string;
  readonly decoder: FilmDecoder;
  /** What is being looked for in dropped files, until it is in the case. */
  readonly found: FoundFilms;
  readonly keeper: CaseKeeper;
  /** Absent where nothing but an exercise is at hand. */
  readonly protocols?: ProtocolKeeper;
}

/** More would hide the film; the oldest gives way. */
const MOST_MESSAGES = 4;

/** Shows a sentence until it is put away; a sentence that is there already is not said twice. */
export function say(shell: Pick<Shell, 'store'>, text: string, action?: Message['action']): void {
  show(shell, { text, ...(action === undefined ? {} : { action }) });
}

/** Shows a sentence about a film of the case on screen; over the film of another case it would mislead. */
export function sayOfFilm(shell: Pick<Shell, 'store'>, text: string): void {
  show(shell, { text, ofCase: caseShown(shell) });
}

function show({ store }: Pick<Shell, 'store'>, message: Omit<Message, 'id'>): void {
  store.setState(({ messages }) => {
    const others = messages.filter(({ text }) => text !== message.text);
    const id = (messages.at(-1)?.id ?? 0) + 1;
    return { messages: [...others, { ...message, id }].slice(-MOST_MESSAGES) };
  });
}

/** Puts a message away, by its number; without one the newest, if there is any. */
export function putAway({ store }: Pick<Shell, 'store'>, id = store.getState().messages.at(-1)?.id): void {
  store.setState(({ messages }) => ({ messages: messages.filter((message) => message.id !== id) }));
}

/** Does, undoes or redoes one thing to the case, shows it, and keeps it. */
export function perform(shell: Shell, action: Action): boolean {
  const { store } = shell;
  const before = store.getState().caseState;
  const done = act(before, action);
  if (!done.ok) {
    say(shell, actionErrorSentence(done.error));
    return false;
  }
  if (done.value === before) return true;
  store.setState({ caseState: done.value });
  shell.keeper.keep(done.value, action);
  return true;
}

/** Puts records into the case as one named, undoable action. */
export function put(shell: Shell, label: string, ...records: readonly CaseRecord[]): boolean {
  const { document } = shell.store.getState().caseState;
  return perform(shell, { kind: 'do', transaction: change(document, label, shell.now(), ...records) });
}

/**
 * The case on screen. Reading a film takes a while, and one that joined whatever case is shown by then might be of
 * another hand: whoever waits compares this with what it was.
 */
export const caseShown = ({ store }: Pick<Shell, 'store'>): CaseId => store.getState().caseState.document.id;
