import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import type { KnownReading } from '../../case/reading.ts';
import { filmNames } from '../../case/readings/names.ts';

/** Where a value comes from that was not measured on its film. */
export interface Basis {
  /** Whole, with a capital and without a stop. */
  readonly words: string;
  /** "film 3", where it is a film of the case and nothing more is to be said; else null. */
  readonly film: string | null;
}

const OTHER_HAND = /^Other hand, ([^;]+)(;.*)?$/;

/** The basis of a reading; one of the other hand says the number of its film. Null where there is none. */
export function basisOf(document: CaseDocument, { basis }: Pick<KnownReading, 'basis'>): Basis | null {
  if (basis === null) return null;
  const plain = basis.replace(/\.$/, '');
  const [, name, rest = ''] = OTHER_HAND.exec(plain) ?? [];
  const films = markedFilms(document).map(({ film }) => film);
  const names = filmNames(films);
  const index = films.findIndex(({ id }) => names.get(id) === name);
  if (name === undefined || index === -1) return { words: plain, film: null };
  const film = `film ${index + 1}`;
  return { words: `From ${film}, ${name}${rest}`, film: rest === '' ? film : null };
}
