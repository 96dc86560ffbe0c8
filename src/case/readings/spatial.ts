import { wrapDegrees } from '../../geometry/axis.ts';
import { type SpatialFailure, spatialAngle } from '../../geometry/spatial.ts';
import { degrees } from '../../geometry/units.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import type { FilmRecord } from '../document.ts';
import type { Reading } from '../reading.ts';
import type { FilmToRead } from './further.ts';
import { known, missing } from './known.ts';

/** A lateral film is taken a quarter turn from a PA film; an oblique one by how much nobody knows until it is said. */
const TURN_OF_VIEW = { pa: 0, lateral: 90, oblique: null } as const;

/**
 * How far the hand was turned from the PA position for a film, palm turning up, in degrees: as stated, else as
 * the view says; null where neither says.
 */
export const turnOf = ({ turnDegrees, view }: Pick<FilmRecord, 'turnDegrees' | 'view'>): number | null =>
  turnDegrees ?? (view === null ? null : TURN_OF_VIEW[view]);

/** A measured film with how far the hand was turned for it. */
interface TurnedFilm {
  readonly film: FilmToRead;
  /** As `turnOf` has it. */
  readonly turn: number;
}

/**
 * The angle in space from two films of the injured hand of one day, on one side of a reduction: of those measured, the
 * two whose views are nearest to a quarter turn apart. Where it cannot be had, what it lacks. Films without a day may be
 * weeks apart, so none is made of them.
 */
export function spatialReadings(films: readonly FilmToRead[]): readonly Reading[] {
  const injured = films.filter(({ film }) => film.hand === 'injured');
  const days = new Set(injured.flatMap(({ film }) => (film.day === null ? [] : [film.day])));
  return [
    ...[...days].flatMap((day) =>
      partedByReduction(injured.filter(({ film }) => film.day === day)).flatMap(ofOnePosition),
    ),
    ...undatedLack(injured),
  ];
}

function undatedLack(injured: readonly FilmToRead[]): readonly Reading[] {
  const undated = injured.filter(({ film, angle }) => film.day === null && angle?.angle);
  const [first] = undated;
  if (first === undefined) return [];
  if (injured.length === 1) return ofOnePosition({ films: injured, when: '' });
  const which = undated.map(({ name }) => `the ${name}`).join(' and of ');
  return [
    missing(
      first.film,
      'spatial-angle',
      `The angle in space needs two films of one day: state the day of ${which} under Film.`,
    ),
  ];
}

/** Films between which the bone was not moved. */
interface OnePosition {
  readonly films: readonly FilmToRead[];
  /** As the end of "a film of the same day"; empty on a day without a reduction. */
  readonly when: string;
}

/** The films of one day, those before a reduction apart from those after it; unsaid is before, as in course/order.ts. */
function partedByReduction(ofDay: readonly FilmToRead[]): readonly OnePosition[] {
  const moments = ofDay.map(({ film }) => film.moment);
  if (!moments.includes('before-reduction') && !moments.includes('after-reduction')) {
    return [{ films: ofDay, when: '' }];
  }
  const isAfter = ({ film: { moment } }: FilmToRead) =>
    moment === 'after-reduction' || moment === 'follow-up';
  return [
    { films: ofDay.filter((film) => !isAfter(film)), when: ', before the reduction,' },
    { films: ofDay.filter(isAfter), when: ', after the reduction,' },
  ];
}

function ofOnePosition({ films, when }: OnePosition): readonly Reading[] {
  const measured = films.filter(({ angle }) => angle?.angle);
  const others = films.filter(({ angle }) => !angle?.angle);
  const [only] = measured;
  if (only === undefined) return [];
  if (measured.length === 1)
    return [missing(only.film, 'spatial-angle', secondFilmLacks(only, others, when))];
  const turned = measured.flatMap((film): readonly TurnedFilm[] => {
    const turn = turnOf(film.film);
    return turn === null ? [] : [{ film, turn }];
  });
  const pair = bestPair(turned);
  if (pair !== null) return fromTwo(...pair);
  const unsaid = measured.find(({ film }) => turnOf(film) === null) ?? only;
  return [
    missing(
      unsaid.film,
      'spatial-angle',
      `The angle in space needs to know how far the hand was turned for the ${unsaid.name}: state it under Film.`,
    ),
  ];
}

function secondFilmLacks({ film, name }: FilmToRead, others: readonly FilmToRead[], when: string): string {
  const wanted = film.view === 'pa' ? 'lateral' : 'pa';
  const there = others.find((other) => other.film.view === wanted) ?? others[0];
  const what =
    there === undefined
      ? `add a ${VIEW_WORDS[wanted]} film of the same day${when} and place both axes on it`
      : `place both axes on the ${there.name} too`;
  return `The angle in space needs a second film beside the ${name}, turned by 30° or more: ${what}.`;
}

/** The two films nearest to a quarter turn apart, the one nearer to PA first. */
function bestPair(films: readonly TurnedFilm[]): readonly [TurnedFilm, TurnedFilm] | null {
  const sorted = films.toSorted((one, other) => one.turn - other.turn);
  const pairs = sorted.flatMap((one, index) =>
    sorted.slice(index + 1).map((other): readonly [TurnedFilm, TurnedFilm] => [one, other]),
  );
  const offQuarter = ([one, other]: readonly [TurnedFilm, TurnedFilm]) =>
    Math.abs(Math.abs(other.turn - one.turn) - 90);
  return pairs.toSorted((one, other) => offQuarter(one) - offQuarter(other))[0] ?? null;
}

/**
 * Where the positive side of a film's angle points about the long axis, counted as `spatial-direction` is: 0°
 * radial, 90° dorsal. With the palm turning up the dorsal side of the film moves from ulnar (just off PA) over
 * dorsal (lateral) to radial; a PA film is signed by its radial side instead.
 */
const positiveSide = ({ film, turn }: TurnedFilm): number => (film.film.view === 'pa' ? -turn : 180 - turn);

function fromTwo(one: TurnedFilm, other: TurnedFilm): readonly Reading[] {
  const [first, second] = [one.film.angle?.angle?.measured, other.film.angle?.angle?.measured];
  if (!first || !second) return [];
  const { film } = other.film;
  const unsigned = !first.signed ? one.film : !second.signed ? other.film : null;
  if (unsigned !== null) {
    const side = unsigned.film.view === 'pa' ? 'radial' : 'dorsal';
    return [
      missing(
        film,
        'spatial-angle',
        `The angle in space needs the way the bone is bent: tap the ${side} side on the ${unsigned.name}.`,
      ),
    ];
  }
  const apart = Math.abs(other.turn - one.turn);
  const from = positiveSide(one);
  const result = spatialAngle(first, second, degrees(positiveSide(other) - from));
  if (!result.ok)
    return [missing(film, 'spatial-angle', spatialLacks(result.error, one.film.name, other.film.name))];
  const words = {
    unit: 'degrees' as const,
    apex: null,
    constructions: [],
    provenances: [],
    leavesOut:
      'The interval leaves out that the proximal fragment may not have lain flat to the film in either view.',
    basis: `${one.film.name} and ${other.film.name}, taken to be ${apart === 90 ? 'a quarter turn' : `${apart}°`} apart`,
  };
  const { angle, plane } = result.value;
  return [
    known(film, 'spatial-angle', angle, {
      ...words,
      signed: false,
      definition: `Angle between the fragments in space, from the measured angles on the ${one.film.name} and the ${other.film.name}.`,
    }),
    ...(plane === null
      ? []
      : [
          known(
            film,
            'spatial-direction',
            { ...plane, value: wrapped(plane.value + from) },
            {
              ...words,
              signed: true,
              definition:
                'Direction of the apex about the long axis: 0° is radial, 90° dorsal, 180° ulnar, −90° volar.',
            },
          ),
        ]),
  ];
}

const wrapped = (value: number): number => wrapDegrees(degrees(value));

function spatialLacks(error: SpatialFailure, one: string, other: string): string {
  switch (error.kind) {
    case 'views-too-close':
      return `The ${one} and the ${other} are only ${Math.round(error.turn)}° apart, and ${error.needed}° are needed for an angle in space: take a film from further round.`;
    case 'reading-too-steep':
      return `An angle of ${Math.round(error.angle)}° is too steep for an angle in space (up to ${error.limit}°): look at the ${other} alone.`;
  }
}
