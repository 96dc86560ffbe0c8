import { distanceBetween } from '../geometry/axis.ts';
import type { Segment } from '../geometry/length.ts';
import { ASSUMED, nominalUnitsPerMm, type PlacingError, placingError } from '../geometry/placing.ts';
import type { Basis } from '../geometry/propagate.ts';
import { type PlaneScale, planeScale, toPlane } from '../geometry/spacing.ts';
import { planePoint } from '../geometry/units.ts';
import type { Ray } from '../tolerance/anatomy.ts';
import type { FilmRecord, SettingsRecord } from './document.ts';
import type { FilmMarks, MarkedFilm } from './film-marks.ts';
import { fingerOn } from './finger.ts';
import { FIST_ROLES } from './roles.ts';
import { pointsOf } from './shape-points.ts';

/**
 * How far the axes reach is taken for half of the bone when there is nothing better. As a rule they reach
 * further, so that the placing error comes out too large rather than too small. A judgement.
 */
const AXES_SHARE_OF_BONE = 0.5;

/**
 * The placing error in the plane units of a film; null when there is nothing yet to go by.
 *
 * Never below `leastPlacingError`: coarse pixels hide where an edge lies.
 *
 * Without a spacing, half a millimetre has no size on the film. It is then guessed from the bone itself: from
 * the length mark where there is one, else from how far the axes reach. Without a chosen finger the shortest
 * metacarpal is taken, which again makes the error too large rather than too small.
 */
export function placingOn(
  { film, marks }: MarkedFilm,
  settings: SettingsRecord,
  ray: Ray | null,
): PlacingError | null {
  const scale = planeScale(film.spacing);
  const { placingErrorMm } = settings;
  const basis = placingErrorMm === null ? ASSUMED : basisOf(settings);
  if (scale.unit === 'mm') return notFinerThanPixels(placingError(placingErrorMm, basis), film);
  const length = lengthSegment(marks, scale);
  const bone = length ?? boneFromAxes(marks, scale);
  if (bone === null || distanceBetween(bone.from, bone.to) === 0) return null;
  const placing = placingError(
    placingErrorMm,
    basis,
    nominalUnitsPerMm(fingerOn(film, { ray }) ?? 'thumb', bone),
  );
  const scaledBy = length === null ? 'how far the axes reach' : 'the length of the bone';
  const text = `${basis.text}, its size on this film guessed from ${scaledBy}`;
  return notFinerThanPixels({ ...placing, basis: { ...basis, text } }, film);
}

/**
 * A nail is taken for this long on a photograph without a scale, in mm. Most are longer, and so is a whole finger,
 * so that the placing error comes out too large rather than too small. A judgement.
 */
const NOMINAL_NAIL_MM = 10;

/**
 * The placing error in the plane units of a photograph of the fist; null while no nail is marked. Without a scale
 * its size is guessed from the longest nail marked.
 */
export function placingOnPhotograph(
  { film, marks }: MarkedFilm,
  settings: SettingsRecord,
): PlacingError | null {
  const { placingErrorMm } = settings;
  const basis = placingErrorMm === null ? ASSUMED : basisOf(settings);
  const scale = planeScale(film.spacing);
  if (scale.unit === 'mm') return notFinerThanPixels(placingError(placingErrorMm, basis), film);
  const nails = FIST_ROLES.flatMap((role) => {
    const shape = marks[role]?.shape;
    return shape?.construction === 'segment'
      ? [distanceBetween(toPlane(shape.from, scale), toPlane(shape.to, scale))]
      : [];
  });
  const longest = Math.max(0, ...nails);
  if (longest === 0) return null;
  const placing = placingError(placingErrorMm, basis, longest / NOMINAL_NAIL_MM);
  const text = `${basis.text}, its size on this photograph guessed from the longest nail marked`;
  return notFinerThanPixels({ ...placing, basis: { ...basis, text } }, film);
}

/** An edge is placed to half a pixel at best, and to a whole one where compression has blurred it. A judgement. */
const LEAST_PIXELS = {
  sharp: { pixels: 0.5, name: 'half a pixel', why: '' },
  lossy: { pixels: 1, name: 'one pixel', why: ', since compression with loss blurs edges' },
} as const;
/** Below this many times the least the budget names the pixels. A judgement. */
const NEAR_LEAST = 4;

type Pixels = Pick<FilmRecord, 'spacing' | 'lossy'>;

const leastPixels = ({ lossy }: Pixels) => LEAST_PIXELS[lossy === true ? 'lossy' : 'sharp'];

/** A pixel along its longer side, in plane units. */
function pixelSize({ spacing }: Pixels): number {
  const { perColumn, perRow } = planeScale(spacing);
  return Math.max(perColumn, perRow);
}

/** The least placing error that the pixels of a film allow, one standard deviation per coordinate, in plane units. */
export const leastPlacingError = (film: Pixels): number => leastPixels(film).pixels * pixelSize(film);

function notFinerThanPixels(placing: PlacingError, film: FilmRecord): PlacingError {
  const { name, why } = leastPixels(film);
  const { standardUncertainty, basis } = placing;
  const pixel = pixelSize(film);
  const ofSize = planeScale(film.spacing).unit === 'mm' ? ` of ${Number(pixel.toPrecision(3))} mm` : '';
  const least = leastPlacingError(film);
  if (standardUncertainty < least) {
    return {
      standardUncertainty: least,
      basis: {
        text: `${name}${ofSize}${why}: this film is too coarse for the placing error of ${basis.text}`,
        degreesOfFreedom: Number.POSITIVE_INFINITY,
      },
    };
  }
  // Where one estimate serves several films, they are known by its words to share its degrees of freedom.
  if (standardUncertainty >= NEAR_LEAST * least || Number.isFinite(basis.degreesOfFreedom)) return placing;
  const pixels = (standardUncertainty / pixel).toFixed(1);
  const text = `${basis.text}: ${pixels} pixels${ofSize}; never taken below ${name}${why}`;
  return { ...placing, basis: { ...basis, text } };
}

/** How many pixels lie between the points placed farthest apart on the bone; null where none is placed. */
export function reachInPixels({ marks }: MarkedFilm): number | null {
  const points = [marks['proximal-axis'], marks['distal-axis'], marks.length].flatMap((mark) =>
    mark === undefined ? [] : pointsOf(mark.shape),
  );
  if (points.length < 2) return null;
  const pairs = points.flatMap((one, index) =>
    points.slice(index + 1).map((other) => Math.hypot(one.column - other.column, one.row - other.row)),
  );
  return Math.max(...pairs);
}

function basisOf({ placingErrorMm, placingErrorDegreesOfFreedom: found }: SettingsRecord): Basis {
  return found === null
    ? { text: `${placingErrorMm} mm per coordinate, typed in`, degreesOfFreedom: Number.POSITIVE_INFINITY }
    : { text: `${placingErrorMm} mm per coordinate, from repeats`, degreesOfFreedom: found };
}

/** The placed length of the bone in the plane, base to head; null where it is not placed. */
export function lengthSegment(marks: FilmMarks, scale: PlaneScale): Segment | null {
  const shape = marks.length?.shape;
  if (shape?.construction !== 'segment') return null;
  return { from: toPlane(shape.from, scale), to: toPlane(shape.to, scale) };
}

function boneFromAxes(marks: FilmMarks, scale: PlaneScale): Segment | null {
  const points = [marks['proximal-axis'], marks['distal-axis']]
    .flatMap((mark) => (mark === undefined ? [] : pointsOf(mark.shape)))
    .map((point) => toPlane(point, scale));
  const [first] = points;
  if (first === undefined) return null;
  const pairs = points.flatMap((one, index) =>
    points.slice(index + 1).map((other) => distanceBetween(one, other)),
  );
  const length = Math.max(0, ...pairs) / AXES_SHARE_OF_BONE;
  return { from: first, to: planePoint(first.x + length, first.y) };
}
