import type { View } from '../../tolerance/anatomy.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import { MOMENT_WORDS } from '../course/order.ts';
import type { FilmRecord, RecordId } from '../document.ts';
import { fingerName } from '../finger.ts';

/**
 * What each film is called in sentences: "lateral film of day 3", "PA film of the other hand". Films that would
 * be called the same are numbered.
 */
export function filmNames(films: readonly FilmRecord[]): ReadonlyMap<RecordId, string> {
  const plain = films.map(plainName);
  return new Map(
    films.map((film, index) => {
      const name = plain[index] as string;
      const before = plain.slice(0, index).filter((other) => other === name).length;
      const alone = plain.filter((other) => other === name).length === 1;
      return [film.id, alone ? name : `${name} (${before + 1})`];
    }),
  );
}

function plainName({ shows, view, hand, ray, day, moment }: FilmRecord): string {
  const what = shows === 'fist' ? 'fist photograph' : view === null ? 'film' : `${VIEW_WORDS[view]} film`;
  if (hand === 'other') return `${what} of the other hand${ray === undefined ? '' : `, ${fingerName(ray)}`}`;
  const when = day === null ? `undated ${what}` : `${what} of day ${day}`;
  return moment === null || moment === 'follow-up' ? when : `${when}, ${MOMENT_WORDS[moment]}`;
}

/** "in the lateral view", "in a view not said". */
export const inView = (view: View | null): string =>
  view === null ? 'in a view not said' : `in the ${VIEW_WORDS[view]} view`;
