import { createStore } from 'zustand/vanilla';
import { FoundFilms } from '../../src/app/films/found-films.ts';
import type { Shell } from '../../src/app/shell.ts';
import { type AppState, initialState } from '../../src/app/state.ts';
import { type CaseDocument, caseId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { AT } from '../case/samples.ts';

/** A shell with a case on screen and only those parts of the machinery that a test hands in. */
export function shellWith(document: CaseDocument, parts: Partial<Record<keyof Shell, object>>): Shell {
  const store = createStore<AppState>(() => ({
    ...initialState(caseId('case-1'), 'system'),
    caseState: freshState(document),
  }));
  let made = 0;
  const newId = () => {
    made += 1;
    return `id-${made}`;
  };
  return { store, now: () => AT, newId, found: new FoundFilms(), ...parts } as unknown as Shell;
}

export const said = ({ store }: Shell): readonly string[] =>
  store.getState().messages.map(({ text }) => text);
