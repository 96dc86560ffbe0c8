import {
  directionDifference,
  type FistFailure,
  fingerDirection,
  nailOverlap,
} from '../../geometry/fist-photo.ts';
import type { Measured } from '../../geometry/propagate.ts';
import { planeScale, toPlane } from '../../geometry/spacing.ts';
import type { InjuryRecord, MarkRole, SettingsRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { placingOnPhotograph } from '../film-placing.ts';
import { otherFinger } from '../finger.ts';
import { formatReading } from '../format.ts';
import type { KnownReading, MissingReading, Quantity, Reading } from '../reading.ts';
import { roleName } from '../roles.ts';
import { segmentOn } from './film-scale.ts';
import { known, missing } from './known.ts';

/** A photograph of the fist, with what it is called in sentences. */
export interface FistPhotograph extends MarkedFilm {
  readonly name: string;
}

/** Stands beside each of these numbers wherever they go: none of them settles rotation. */
const SUPPORT = 'in support of the look at the hand, which decides';

/** What a photograph gives: a number, what it lacks, or null where nothing was marked for it. */
type Found = Measured | { readonly lacks: string } | null;

/**
 * What the photographs of the fist say of rotation: on each the direction of the nail against a reference finger
 * and the overlap of the neighbouring nail, and for the injured hand how its direction differs from the other hand's.
 * No limit is compared with them.
 */
export function fistReadings(
  photographs: readonly FistPhotograph[],
  settings: SettingsRecord,
  injury: Pick<InjuryRecord, 'ray'>,
): readonly Reading[] {
  const other = comparedWith(photographs, settings, injury);
  return photographs.flatMap((photograph) => {
    const direction = directionOn(photograph, settings);
    return [
      ...asReading(photograph, 'nail-direction', direction, {
        definition: `Turn from the nail of the reference finger to the nail of the finger on the ${photograph.name}, positive clockwise as an unmirrored photograph shows it.`,
        basis: upperFirst(SUPPORT),
      }),
      ...(photograph.film.hand === 'injured' ? differenceOn(photograph, direction, other) : []),
      ...overlapsOn(photograph, photograph.film.hand === 'injured' ? other : null, settings),
    ];
  });
}

interface OtherHand {
  readonly photograph: FistPhotograph;
  readonly direction: Found;
  readonly overlap: Found;
}

/** The photograph of the other hand: the first one that is marked, else the first one; null without any. */
function comparedWith(
  photographs: readonly FistPhotograph[],
  settings: SettingsRecord,
  injury: Pick<InjuryRecord, 'ray'>,
): OtherHand | null {
  const [first, ...more] = photographs
    .filter(({ film }) => film.hand === 'other')
    .map((photograph) => {
      const mismatch = otherFinger(photograph.film, photograph.name, injury);
      return {
        photograph,
        direction: mismatch === null ? directionOn(photograph, settings) : { lacks: mismatch },
        overlap: mismatch === null ? overlapOn(photograph, settings) : { lacks: mismatch },
      };
    });
  if (first === undefined) return null;
  return [first, ...more].find(({ direction }) => isMeasured(direction)) ?? first;
}

function differenceOn(
  { film, name }: FistPhotograph,
  here: Found,
  other: OtherHand | null,
): readonly Reading[] {
  if (!isMeasured(here)) return [];
  const quantity = 'nail-direction-difference';
  if (other === null) {
    return [
      missing(
        film,
        quantity,
        `The ${name} has no other hand to stand against: add a photograph of the other fist, closed as far, with the same two nails marked.`,
      ),
    ];
  }
  if (!isMeasured(other.direction)) {
    const lacks = `The direction of the nail on the ${other.photograph.name} is not known: mark the same two nails there.`;
    return [missing(film, quantity, other.direction?.lacks ?? lacks)];
  }
  return asReading({ film }, quantity, directionDifference(here, other.direction), {
    definition: `Direction of the nail on the ${name}, less the same on the mirrored ${other.photograph.name}.`,
    basis: `Other hand, ${other.photograph.name}; ${SUPPORT}`,
  });
}

function overlapsOn(
  photograph: FistPhotograph,
  other: OtherHand | null,
  settings: SettingsRecord,
): readonly Reading[] {
  const [reading] = asReading(photograph, 'nail-overlap', overlapOn(photograph, settings), {
    definition: `How much of the width of the neighbouring nail the finger covers on the ${photograph.name}; less than nothing where it does not reach it.`,
    basis: upperFirst(SUPPORT),
  });
  if (reading === undefined) return [];
  if (reading.state === 'missing' || other === null || !isMeasured(other.overlap)) return [reading];
  const { value, plusMinus } = formatReading({ ...reading, ...other.overlap });
  return [{ ...reading, basis: `Other hand ${value} ${plusMinus}; ${SUPPORT}` }];
}

function directionOn(photograph: FistPhotograph, settings: SettingsRecord): Found {
  const { film, marks, name } = photograph;
  const [finger, reference] = [
    segmentOn(photograph, marks['finger-nail']),
    segmentOn(photograph, marks['reference-nail']),
  ];
  if (finger === null && reference === null) return null;
  if (finger === null) return lacking('finger-nail', name);
  if (reference === null) return lacking('reference-nail', name);
  const placing = placingOnPhotograph(photograph, settings);
  if (placing === null) return { lacks: noLength(name) };
  const direction = fingerDirection(reference, finger, placing);
  if (!direction.ok) return { lacks: refused(direction.error, name) };
  return film.mirrored ? { ...direction.value, value: -direction.value.value } : direction.value;
}

function overlapOn(photograph: FistPhotograph, settings: SettingsRecord): Found {
  const { film, marks, name } = photograph;
  const nail = segmentOn(photograph, marks['neighbour-nail']);
  const edge = marks['covering-edge']?.shape;
  if (nail === null && edge === undefined) return null;
  if (nail === null) return lacking('neighbour-nail', name);
  if (edge?.construction !== 'point') return lacking('covering-edge', name);
  const placing = placingOnPhotograph(photograph, settings);
  if (placing === null) return { lacks: noLength(name) };
  const overlap = nailOverlap(nail, toPlane(edge.at, planeScale(film.spacing)), placing);
  return overlap.ok ? overlap.value : { lacks: refused(overlap.error, name) };
}

const isMeasured = (found: Found): found is Measured => found !== null && !('lacks' in found);

const lacking = (role: MarkRole, name: string): Found => ({
  lacks: `The ${roleName(role)} on the ${name} is missing: mark it.`,
});

const noLength = (name: string): string =>
  `A nail marked on the ${name} has no length, because its points coincide: move them apart.`;

function refused(failure: FistFailure, name: string): string {
  if (failure.kind === 'points-back')
    return `The two nails on the ${name} point ${Math.abs(failure.turn).toFixed(0)}° apart, and no two fingers of a fist do: place both again, each from the fold to the tip.`;
  return failure.length === 0
    ? noLength(name)
    : `A nail marked on the ${name} is too short to have a direction: place its points farther apart.`;
}

function asReading(
  { film }: Pick<FistPhotograph, 'film'>,
  quantity: Quantity,
  found: Found,
  words: Pick<KnownReading, 'definition' | 'basis'>,
): readonly [] | readonly [KnownReading | MissingReading] {
  if (found === null) return [];
  if ('lacks' in found) return [missing(film, quantity, found.lacks)];
  return [
    known(film, quantity, found, {
      unit: quantity === 'nail-overlap' ? 'percent of nail width' : 'degrees',
      signed: quantity !== 'nail-overlap',
      apex: null,
      constructions: [],
      provenances: [],
      leavesOut: LEAVES_OUT[quantity === 'nail-overlap' ? 'overlap' : 'direction'] + slantWords(film),
      ...words,
    }),
  ];
}

const LEAVES_OUT = {
  direction:
    'The interval leaves out how far the fist is closed, the side the camera looked from, and that nails of sound hands differ.',
  overlap:
    'The interval leaves out how far the fist is closed. Nine sound hands in ten overlap somewhat, most of them unequally on the two sides.',
} as const;

const slantWords = ({ slant }: MarkedFilm['film']): string => {
  if (slant === undefined) return '';
  return slant.upToDegrees === null
    ? ' The photograph was taken at a slant that was not measured.'
    : ` The photograph was taken at a slant, by which a direction on it may be ${slant.upToDegrees.toFixed(1)}° off.`;
};

const upperFirst = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
