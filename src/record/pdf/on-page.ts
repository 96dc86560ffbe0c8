import { inCourseOrder } from '../../case/course/order.ts';
import type { CaseDocument, FilmRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import type { KnownReading, Quantity } from '../../case/reading.ts';

/** A film with its number in the case, from 1. */
export interface NumberedFilm {
  readonly film: FilmRecord;
  readonly number: number;
}

/** How much of each film stands on the one page of the record. Each list in the order of the case. */
export interface OnPage {
  /** With every reading, and against every chosen limit set. */
  readonly inFull: readonly NumberedFilm[];
  /** On one line each. */
  readonly listed: readonly NumberedFilm[];
  /** Not at all; how many they are is said. */
  readonly leftOut: readonly NumberedFilm[];
}

/**
 * Which films stand in full, which on a line, and which not at all.
 *
 * Worth most is what is pictured, then the first and the last film of the injured hand, which say what
 * the injury was and where it stands now, then the newest film of the other hand; after these the newer before the
 * older.
 *
 * @param pictured - Numbers of the films whose picture is on the page, from 1.
 * @param most - At most so many films in full, and so many on a line.
 */
export function filmsOnPage(
  document: CaseDocument,
  pictured: readonly number[],
  most: { readonly inFull: number; readonly listed: number },
): OnPage {
  const films = markedFilms(document).map(({ film }, index): NumberedFilm => ({ film, number: index + 1 }));
  const ordered = byWorth(films, pictured);
  const inFull = new Set(ordered.slice(0, most.inFull));
  const listed = new Set(ordered.slice(most.inFull, most.inFull + most.listed));
  return {
    inFull: films.filter((one) => inFull.has(one)),
    listed: films.filter((one) => listed.has(one)),
    leftOut: films.filter((one) => !inFull.has(one) && !listed.has(one)),
  };
}

function byWorth(films: readonly NumberedFilm[], pictured: readonly number[]): readonly NumberedFilm[] {
  const course = inCourseOrder(films);
  const injured = course.filter(({ film }) => film.hand === 'injured' && film.shows === 'bones');
  const first = [
    ...pictured.map((wanted) => films.find(({ number }) => number === wanted)),
    injured[0],
    injured.at(-1),
    course.findLast(({ film }) => film.hand === 'other'),
  ].filter((film) => film !== undefined);
  return [...new Set([...first, ...course.toReversed()])];
}

/** What the line of a listed film says; its other readings are counted. */
export const LISTED_QUANTITIES: readonly Quantity[] = ['angulation', 'deformity'];

/** The readings that stand on the page. */
export function readingsOnPage(
  { inFull, listed }: OnPage,
  known: readonly KnownReading[],
): readonly KnownReading[] {
  const full = idsOf(inFull);
  const lines = idsOf(listed);
  return known.filter(
    ({ filmId, quantity }) => full.has(filmId) || (lines.has(filmId) && LISTED_QUANTITIES.includes(quantity)),
  );
}

export const idsOf = (films: readonly NumberedFilm[]): ReadonlySet<RecordId> =>
  new Set(films.map(({ film }) => film.id));

/** "films 3 to 7 and 9", "film 2": numbers that follow one another as a range. */
export function filmsInWords(films: readonly NumberedFilm[]): string {
  const ranges: [from: number, to: number][] = [];
  for (const { number } of films) {
    const last = ranges.at(-1);
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else ranges.push([number, number]);
  }
  const words = ranges.flatMap(([from, to]) =>
    from === to ? [`${from}`] : to === from + 1 ? [`${from}`, `${to}`] : [`${from} to ${to}`],
  );
  const [last = '', ...before] = words.toReversed();
  return `film${films.length === 1 ? '' : 's'} ${[before.toReversed().join(', '), last].filter((part) => part !== '').join(' and ')}`;
}
