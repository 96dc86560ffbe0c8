import type { CaseDocument, FilmRecord, MarkRecord, MarkRole, RecordId } from './document.ts';

/** The marks of one film by what they are for; of two with the same role, the one put last. */
export type FilmMarks = Readonly<Partial<Record<MarkRole, MarkRecord>>>;

/** A film with its marks. */
export interface MarkedFilm {
  readonly film: FilmRecord;
  readonly marks: FilmMarks;
}

/** Every film of the case with its marks, in the order in which the films were added. One pass over the case. */
export function markedFilms(document: CaseDocument): readonly MarkedFilm[] {
  const films: FilmRecord[] = [];
  const marks = new Map<RecordId, Partial<Record<MarkRole, MarkRecord>>>();
  for (const record of Object.values(document.records)) {
    if (record.kind === 'film') films.push(record);
    if (record.kind !== 'mark') continue;
    const onFilm = marks.get(record.filmId) ?? {};
    onFilm[record.role] = record;
    marks.set(record.filmId, onFilm);
  }
  return films.map((film) => ({ film, marks: marks.get(film.id) ?? {} }));
}

/** One film with its marks, or null if the case has no such film. */
export const markedFilm = (document: CaseDocument, filmId: RecordId): MarkedFilm | null =>
  markedFilms(document).find(({ film }) => film.id === filmId) ?? null;
