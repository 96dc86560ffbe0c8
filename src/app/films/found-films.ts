import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Film } from '../../film/film.ts';
import type { Found, FoundFilm } from '../../ui/opening/found.ts';
import type { Onto } from './film-record.ts';
import { thumbnailOf } from './thumbnail.ts';

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
  /** Patients of films that were looked at since the page was opened, by the SHA-256 of their file; null: it names none. */
  readonly patients = new Map<string, string | null>();
  onto: Onto = { hand: 'injured', day: null };
  /** Goes up with every search, so that one that was given up adds nothing more. */
  search = 0;

  private readonly pictures = new Set<string>();

  show(patch: (found: Found) => Found): void {
    this.store.setState(({ found }) => ({ found: found === null ? null : patch(found) }));
  }

  /** Changes those films of the list that `which` says. */
  change(which: (film: FoundFilm) => boolean, patch: Partial<FoundFilm>): void {
    this.show((before) => ({
      ...before,
      films: before.films.map((film) => (which(film) ? { ...film, ...patch } : film)),
    }));
  }

  /**
   * A small picture of a film that was found, as an object URL, until the search ends.
   *
   * @param search - The search it was found in.
   * @returns Null where that one is over.
   */
  async pictureFor(search: number, film: Film): Promise<string | null> {
    const picture = await thumbnailOf(film);
    this.pictures.add(picture);
    if (this.search === search) return picture;
    this.drop(picture);
    return null;
  }

  /** Gives a small picture back that is shown no longer. */
  drop(picture: string): void {
    URL.revokeObjectURL(picture);
    this.pictures.delete(picture);
  }

  /** Ends the search and takes its list away. */
  close(): void {
    for (const picture of [...this.pictures]) this.drop(picture);
    this.store.setState({ found: null });
    this.search += 1;
    this.candidates.clear();
  }

  /** Ends a search, unless another one has taken its place. */
  end(search: number): void {
    if (this.search === search) this.close();
  }
}
