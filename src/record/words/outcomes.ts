import type { Comparison } from '../../case/comparison.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { quantityName } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import { lowerFirst } from './sentence.ts';

/** A limit set with what it says of a reading. */
export interface SetSaying {
  readonly comparison: Comparison;
  readonly reading: KnownReading;
}

/** All that the chosen sets say of one quantity of one film. */
export interface ComparedQuantity {
  /** In the case, from 1. */
  readonly filmNumber: number;
  /** "Angulation", "Coronal angulation", "Shortening, by the other hand": with a capital. */
  readonly name: string;
  /** Sets that speak of it, in the order chosen; some of them in words only. */
  readonly saying: readonly SetSaying[];
  /** One sentence with the names of the sets that have no row for it; null where each has one. */
  readonly silent: string | null;
  /** How many sets these are. */
  readonly silentSets: number;
}

/**
 * The comparisons by film and quantity. A set is compared with the measured angle or with the deformity, as it asks
 * for: both are the angle of that film.
 */
export function comparedQuantities(
  document: CaseDocument,
  comparisons: readonly Comparison[],
  known: readonly KnownReading[],
): readonly ComparedQuantity[] {
  const numbers = new Map(markedFilms(document).map(({ film }, index) => [film.id, index + 1]));
  const groups = new Map<string, SetSaying[]>();
  for (const comparison of comparisons) {
    const reading = known.find(({ id }) => id === comparison.readingId);
    if (reading === undefined) continue;
    const key = `${reading.filmId} ${reading.unit === 'degrees' ? 'angle' : reading.quantity}`;
    groups.set(key, [...(groups.get(key) ?? []), { comparison, reading }]);
  }
  return [...groups.values()].flatMap((all): readonly ComparedQuantity[] => {
    const [first] = all;
    if (first === undefined) return [];
    const { reading } = first;
    const name =
      reading.unit === 'degrees' ? angleName(reading) : quantityName(reading.quantity, reading.view);
    const titles = all.filter(isSilent).map(({ comparison }) => comparison.limitSet.title);
    return [
      {
        filmNumber: numbers.get(reading.filmId) ?? 0,
        name,
        saying: all.filter((one) => !isSilent(one)),
        silent: titles.length === 0 ? null : silentSentence(document, name, titles),
        silentSets: titles.length,
      },
    ];
  });
}

const isSilent = ({ comparison }: SetSaying): boolean => comparison.reason === 'no-row';

const angleName = ({ view }: KnownReading): string =>
  quantityName('angulation', view).replace(/, measured$/, '');

/** "No limit on file for coronal angulation of the small finger neck in A, B and C." */
function silentSentence(document: CaseDocument, name: string, titles: readonly string[]): string {
  const { ray, region } = injuryOf(document);
  const bone = ray === 'thumb' ? 'thumb' : `${ray} finger`;
  // How it was measured is nothing that a set speaks of.
  const [what = name] = name.split(',');
  return `No limit on file for ${lowerFirst(what)} of the ${bone} ${region} in ${listed(titles)}.`;
}

/** "A, B and C"; titles with commas of their own are set apart by semicolons. */
export function listed(titles: readonly string[]): string {
  const last = titles.at(-1) ?? '';
  if (titles.length < 2) return last;
  const before = titles.slice(0, -1);
  return titles.some((title) => title.includes(','))
    ? `${before.join('; ')}; and ${last}`
    : `${before.join(', ')} and ${last}`;
}
