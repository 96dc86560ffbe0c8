import { type SpatialFailure, spatialAngle } from '../../geometry/spatial.ts';
import { degrees } from '../../geometry/units.ts';
import type { FilmToRead, FurtherReading } from './further.ts';
import { known, missing } from './known.ts';

/** A lateral film is taken a quarter turn from a PA film. */
const PA_TO_LATERAL = degrees(90);

/**
 * The angle in space from each PA and lateral film of the injured hand of one day. Oblique films are not used:
 * how far the hand was turned for them is not known.
 */
export function spatialReadings(films: readonly FilmToRead[]): readonly FurtherReading[] {
  const injured = films.filter(({ film, angle }) => film.hand === 'injured' && angle?.angle);
  return injured
    .filter(({ film }) => film.view === 'lateral')
    .flatMap((lateral) => {
      const pa = injured.find(({ film }) => film.view === 'pa' && film.day === lateral.film.day);
      return pa === undefined ? [] : fromTwo(pa, lateral);
    });
}

function fromTwo(pa: FilmToRead, lateral: FilmToRead): readonly FurtherReading[] {
  const [first, second] = [pa.angle?.angle?.measured, lateral.angle?.angle?.measured];
  if (!first || !second) return [];
  const { film } = lateral;
  const unsigned = !first.signed ? pa : !second.signed ? lateral : null;
  if (unsigned !== null) {
    const side = unsigned === pa ? 'radial' : 'dorsal';
    return [
      missing(
        film,
        'spatial-angle',
        `The angle in space needs the way the bone is bent: tap the ${side} side on the ${unsigned.name}.`,
      ),
    ];
  }
  const result = spatialAngle(first, second, PA_TO_LATERAL);
  if (!result.ok) return [missing(film, 'spatial-angle', spatialLacks(result.error, lateral.name))];
  const words = {
    unit: 'degrees' as const,
    apex: null,
    constructions: [],
    leavesOut:
      'The interval leaves out that the proximal fragment may not have lain flat to the film in either view.',
    basis: `${pa.name} and ${lateral.name}, taken to be a quarter turn apart`,
  };
  const { angle, plane } = result.value;
  return [
    known(film, 'spatial-angle', angle, {
      ...words,
      signed: false,
      definition: `Angle between the fragments in space, from the measured angles on the ${pa.name} and the ${lateral.name}.`,
    }),
    ...(plane === null
      ? []
      : [
          known(film, 'spatial-direction', plane, {
            ...words,
            signed: true,
            definition:
              'Direction of the apex about the long axis: 0° is radial, 90° dorsal, 180° ulnar, −90° volar.',
          }),
        ]),
  ];
}

function spatialLacks(error: SpatialFailure, film: string): string {
  switch (error.kind) {
    case 'views-too-close':
      return `The two views are only ${Math.round(error.turn)}° apart, and ${error.needed}° are needed for an angle in space: take a film from further round.`;
    case 'reading-too-steep':
      return `An angle of ${Math.round(error.angle)}° is too steep for an angle in space (up to ${error.limit}°): look at the ${film} alone.`;
  }
}
