import type { FilmPlace, FilmRecord } from './document.ts';

const FIRST_WHOLE: FilmPlace = { frame: 0, part: null };

/** Where in its file a film lies. */
export const placeOf = (film: Pick<FilmRecord, 'place'>): FilmPlace => film.place ?? FIRST_WHOLE;

/**
 * A name for the picture a film shows, for whoever keeps decoded pictures: two films of one file have different
 * ones, and the whole first picture of a file has the file's own SHA-256.
 */
export function pictureKey(film: Pick<FilmRecord, 'sha256' | 'place'>): string {
  const { frame, part } = placeOf(film);
  if (frame === 0 && part === null) return film.sha256;
  if (part === null) return `${film.sha256}/${frame}`;
  const numbers =
    part.kind === 'rectangle'
      ? [part.column, part.row]
      : part.corners.flatMap(({ column, row }) => [column, row]);
  return `${film.sha256}/${frame}/${[part.kind, ...numbers, part.columns, part.rows].join(' ')}`;
}
