import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Film } from '../../film/film.ts';
import type { Found } from '../../ui/opening/found.ts';
import type { Onto } from './film-record.ts';

/** A film that may be added, with what is needed to add it. */
export interface Candidate {
  readonly name: string;
  readonly sha256: string;
  readonly bytes: () => Promise<ArrayBuffer>;
  /** Decoded; only while there are few, since ten films fill the memory of a small computer. */
  readonly film: Film | null;
  /** Equal for films of one patient; null where the file names none. */
  readonly patient: string | null;
}

/** Films that are being looked for, and what this page knows of whose they are. Nothing here is kept. */
export class FoundFilms {
  readonly store: StoreApi<{ readonly found: Found | null }> = createStore(() => ({ found: null }));
  readonly candidates = new Map<string, Candidate>();
  /** Patients of films opened since the page was, by the SHA-256 of their file. */
  readonly patients = new Map<string, string>();
  onto: Onto = { hand: 'injured', day: null };
  /** Goes up with every search, so that one that was given up adds nothing more. */
  search = 0;

  show(patch: (found: Found) => Found): void {
    this.store.setState(({ found }) => ({ found: found === null ? null : patch(found) }));
  }

  /** Takes the list away; what it offered can still be added. */
  hide(): void {
    for (const { thumbnail } of this.store.getState().found?.films ?? []) URL.revokeObjectURL(thumbnail);
    this.store.setState({ found: null });
  }

  /** Ends the search. */
  close(): void {
    this.hide();
    this.search += 1;
    this.candidates.clear();
  }
}
