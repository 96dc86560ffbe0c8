import type { View } from '../../tolerance/anatomy.ts';
import type { ChangeFacts } from '../../tolerance/caution-facts.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import type { Assessment } from '../assessment.ts';
import type { Comparison } from '../comparison.ts';
import type { FilmRecord } from '../document.ts';
import { quantityName } from '../format.ts';
import type { KnownReading, Quantity } from '../reading.ts';
import { filmNames } from '../readings/names.ts';
import { changeBetween } from './change.ts';
import type { CourseChange, CourseSeries } from './course-series.ts';
import { inCourseOrder } from './order.ts';

/** What is followed over time. A length or a normal is no misplacement, and an angle in space belongs to two films. */
const FOLLOWED: readonly Quantity[] = [
  'angulation',
  'shortening-by-other-hand',
  'shortening-by-neighbours',
  'shortening-by-head-line',
  'shortening-by-overlap',
  'translation',
  'joint-step',
  'joint-gap',
];

const VIEW_ORDER: readonly (View | null)[] = ['lateral', 'pa', 'oblique', null];

/** Every series of the injured hand that has a reading, angles first, the lateral view before the others. */
export function courseSeries(
  films: readonly FilmRecord[],
  assessed: Pick<Assessment, 'readings' | 'comparisons'>,
  firstSetId: string | null,
): readonly CourseSeries[] {
  const names = filmNames(films);
  const injured = inCourseOrder(
    films.filter(({ hand }) => hand === 'injured').map((film) => ({ film, name: names.get(film.id) ?? '' })),
  );
  return FOLLOWED.flatMap((quantity) =>
    VIEW_ORDER.flatMap((view) => {
      const measured = injured.flatMap((one): readonly Measured[] => {
        const reading = one.film.view === view ? knownOn(assessed, one.film, quantity) : null;
        return reading === null ? [] : [{ ...one, measured: reading }];
      });
      return measured.length === 0 ? [] : [seriesOf(measured, quantity, view, assessed, firstSetId)];
    }),
  );
}

interface Measured {
  readonly film: FilmRecord;
  readonly name: string;
  readonly measured: KnownReading;
}

const knownOn = (
  { readings }: Pick<Assessment, 'readings'>,
  film: FilmRecord,
  quantity: Quantity,
): KnownReading | null => {
  const found = readings.find((reading) => reading.filmId === film.id && reading.quantity === quantity);
  return found?.state === 'known' ? found : null;
};

function seriesOf(
  measured: readonly Measured[],
  quantity: Quantity,
  view: View | null,
  assessed: Pick<Assessment, 'readings' | 'comparisons'>,
  firstSetId: string | null,
): CourseSeries {
  const compared = measured.map(({ film }) => comparisonOn(assessed, film, quantity, firstSetId));
  // What the limit is meant for is shown, if every film has it; a band belongs to one quantity only.
  const deformities = measured.map(({ film }) => knownOn(assessed, film, 'deformity'));
  const showsDeformity =
    quantity === 'angulation' &&
    compared.every((one) => one?.comparedWith === 'deformity') &&
    deformities.every((reading) => reading !== null);
  const shown = showsDeformity ? 'deformity' : quantity;
  const comparison = compared.find((one) => one?.row?.band != null) ?? null;
  const applies = comparison?.comparedWith !== 'deformity' || showsDeformity;
  return {
    id: `${quantity}/${view ?? 'not-said'}`,
    title: `${quantityName(shown, view)}, ${view === null ? 'view not said' : `${VIEW_WORDS[view]} view`}`,
    quantity: shown,
    unit: measured[0]!.measured.unit,
    band: applies ? (comparison?.row?.band ?? null) : null,
    limitSetTitle: comparison?.limitSet.title ?? null,
    points: measured.map((one, index) => ({
      film: one.film,
      name: one.name,
      measured: one.measured,
      reading: (showsDeformity ? deformities[index] : null) ?? one.measured,
      comparison: compared[index] ?? null,
      sinceLast: changeFrom(measured[index - 1], one),
      sinceReduction: changeFrom(reductionBefore(measured, index), one),
    })),
  };
}

const comparisonOn = (
  { comparisons }: Pick<Assessment, 'comparisons'>,
  film: FilmRecord,
  quantity: Quantity,
  firstSetId: string | null,
): Comparison | null =>
  comparisons.find(
    ({ readingId, limitSet }) =>
      limitSet.id === firstSetId &&
      (readingId === `${film.id}/${quantity}` ||
        (quantity === 'angulation' && readingId === `${film.id}/deformity`)),
  ) ?? null;

const reductionBefore = (measured: readonly Measured[], index: number): Measured | undefined =>
  measured.slice(0, index).findLast(({ film }) => film.moment === 'after-reduction');

const changeFrom = (earlier: Measured | undefined, later: Measured): CourseChange | null =>
  earlier === undefined || earlier.film.day === null || later.film.day === null
    ? null
    : changeBetween(earlier.measured, later.measured, earlier.name);

/**
 * What the cautions need to know of the course: for each series how its last film stands to the last reduction, or to
 * the first film where nothing was reduced.
 */
export const changeFacts = (series: readonly CourseSeries[]): readonly ChangeFacts[] =>
  series.flatMap(({ title, points }): readonly ChangeFacts[] => {
    const dated = points.filter(({ film }) => film.day !== null);
    const [first, last] = [dated[0], dated.at(-1)];
    if (first === undefined || last === undefined || first === last) return [];
    // What was reduced on the last film itself cannot have been lost since.
    if (last.film.moment === 'after-reduction') return [];
    const since = last.sinceReduction === null ? 'first-film' : 'reduction';
    const change = last.sinceReduction ?? changeBetween(first.measured, last.measured, first.name);
    return [
      {
        what: title,
        since,
        fromFilm: change.fromName,
        toFilm: last.name,
        verdict: change.verdict,
        words: change.words,
      },
    ];
  });
