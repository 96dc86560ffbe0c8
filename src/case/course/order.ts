import type { FilmRecord, Moment } from '../document.ts';

export const MOMENT_WORDS: Readonly<Record<Moment, string>> = {
  'before-reduction': 'before reduction',
  'after-reduction': 'after reduction',
  'follow-up': 'follow-up',
};

/** Within one day. A film of which nothing is said comes before what was done to the hand. */
const RANK: Readonly<Record<Moment | 'not-said', number>> = {
  'before-reduction': 0,
  'not-said': 1,
  'after-reduction': 2,
  'follow-up': 3,
};

/** Films in the order of treatment: by day, then by moment, then as added. Films without a day come last. */
export const inCourseOrder = <Item extends { readonly film: FilmRecord }>(
  items: readonly Item[],
): readonly Item[] =>
  items.toSorted(
    ({ film: one }, { film: other }) =>
      (one.day ?? Number.MAX_SAFE_INTEGER) - (other.day ?? Number.MAX_SAFE_INTEGER) ||
      RANK[one.moment ?? 'not-said'] - RANK[other.moment ?? 'not-said'],
  );

/** The first day of a film after a reduction; null while none is marked as such. */
export function reductionDay(films: readonly FilmRecord[]): number | null {
  const days = films.flatMap(({ day, moment }) =>
    moment === 'after-reduction' && day !== null ? [day] : [],
  );
  return days.length === 0 ? null : Math.min(...days);
}
