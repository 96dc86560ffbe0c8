import { type Axis, axisLength, directionOf, middleOf, stationOf } from '../../geometry/axis.ts';
import { type PlaneScale, planeScale, toPlane } from '../../geometry/spacing.ts';
import { type FilmPoint, type PlanePoint, planePoint } from '../../geometry/units.ts';
import { axesOnFilm } from '../axes.ts';
import type { CaseDocument, RecordId } from '../document.ts';
import { markedFilm } from '../film-marks.ts';
import { sideRole } from '../readings/film-angle.ts';

/**
 * How a film lies when its proximal axis stands upright: a map from film coordinates to a frame whose origin is the
 * anchor and whose y runs down, against the axis.
 *
 *     x = a · column + c · row + e        y = b · column + d · row + f
 */
export interface Upright {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
  /** What one unit of the frame is; films in columns have no common scale with others. */
  readonly unit: PlaneScale['unit'];
  /** What lies at the origin. */
  readonly anchor: 'fracture-level' | 'distal-fragment' | 'axis-end';
  /** On which side the dorsal (or radial) side lies in the frame: −1 left, 1 right, null not marked. */
  readonly side: -1 | 1 | null;
  /** Length of the proximal axis, in units of the frame. */
  readonly proximalLength: number;
}

/**
 * The film turned so that its proximal axis points straight up, with the place of the fracture at the origin: the
 * fracture level where it is marked, else the foot of the near end of the distal axis, else the end of the proximal
 * axis. Null while the film has no proximal axis.
 */
export function uprightFilm(document: CaseDocument, filmId: RecordId): Upright | null {
  const marked = markedFilm(document, filmId);
  const axes = axesOnFilm(document, filmId);
  if (marked === null || axes.proximal === null || !axes.proximal.ok) return null;
  const scale = planeScale(marked.film.spacing);
  const plane = (point: FilmPoint) => toPlane(point, scale);
  const axis: Axis = { from: plane(axes.proximal.value.from), to: plane(axes.proximal.value.to) };
  const level = marked.marks['fracture-level']?.shape;
  const place: { readonly anchor: Upright['anchor']; readonly near: PlanePoint } =
    level?.construction === 'segment'
      ? { anchor: 'fracture-level', near: middleOf(plane(level.from), plane(level.to)) }
      : axes.distal?.ok
        ? { anchor: 'distal-fragment', near: plane(axes.distal.value.from) }
        : { anchor: 'axis-end', near: axis.to };
  const tapped = marked.marks[sideRole(marked.film)]?.shape;
  const u = directionOf(axis);
  const { along } = stationOf(place.near, axis);
  const origin = planePoint(axis.from.x + u.x * along, axis.from.y + u.y * along);
  // Turns (u.x, u.y) into (0, −1).
  const [a, b, c, d] = [
    -u.y * scale.perColumn,
    -u.x * scale.perColumn,
    u.x * scale.perRow,
    -u.y * scale.perRow,
  ];
  return {
    a,
    b,
    c,
    d,
    e: u.y * origin.x - u.x * origin.y,
    f: u.x * origin.x + u.y * origin.y,
    unit: scale.unit,
    anchor: place.anchor,
    side: tapped?.construction === 'point' ? (stationOf(plane(tapped.at), axis).across < 0 ? -1 : 1) : null,
    proximalLength: axisLength(axis),
  };
}

/** The film left and right exchanged in the frame. */
export const mirroredUpright = (upright: Upright): Upright => ({
  ...upright,
  a: -upright.a,
  c: -upright.c,
  e: -upright.e,
  side: upright.side === null ? null : upright.side === 1 ? -1 : 1,
});

/** Two films laid on one another, with what was done to the second so that they can be. */
export interface AlignedPair {
  readonly first: Upright;
  readonly second: Upright;
  /** The second is mirrored, so that dorsal (or radial) is on the same side. */
  readonly mirrored: boolean;
  /** The second is magnified to the proximal axis of the first, because the two have no common scale. */
  readonly rescaled: boolean;
}

/** Brings two upright films to one scale and one side. */
export function alignedPair(first: Upright, second: Upright): AlignedPair {
  const mirrored = first.side !== null && second.side !== null && first.side !== second.side;
  const turned = mirrored ? mirroredUpright(second) : second;
  const rescaled = first.unit !== second.unit || first.unit !== 'mm';
  const factor = rescaled ? first.proximalLength / turned.proximalLength : 1;
  return {
    first,
    second: rescaled ? { ...magnified(turned, factor), unit: first.unit } : turned,
    mirrored,
    rescaled,
  };
}

const magnified = (upright: Upright, factor: number): Upright => ({
  ...upright,
  a: upright.a * factor,
  b: upright.b * factor,
  c: upright.c * factor,
  d: upright.d * factor,
  e: upright.e * factor,
  f: upright.f * factor,
  proximalLength: upright.proximalLength * factor,
});
