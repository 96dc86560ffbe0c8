import { type Axis, directionOf } from '../geometry/axis.ts';
import { type AxisPoints, controlPoints } from '../geometry/constructions.ts';
import { fitLine } from '../geometry/line.ts';
import { type PlaneScale, toPlane } from '../geometry/spacing.ts';
import type { PlanePoint } from '../geometry/units.ts';
import type { BoneOutline, OutlineStation } from '../phantom/outlines.ts';
import type { FilmDirection, RayTruth, TruthAxis } from '../phantom/truth.ts';

export type FragmentName = 'proximal' | 'distal';

/** What a true axis was drawn by, so that a reading is compared with what its own lines should have shown. */
export type TrueAxisBy = 'centreline' | 'head-centre' | 'base-and-break' | 'dorsal-cortex' | 'midline';

export interface TrueAxis {
  readonly axis: Axis;
  readonly by: TrueAxisBy;
}

/** One bone on one film, as the phantom knows it. */
export interface KnownBone {
  readonly truth: RayTruth;
  readonly outline: BoneOutline;
  readonly scale: PlaneScale;
}

/** A stretch of a fragment's outline, as shares of its stations from proximal to distal. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const WHOLE: Stretch = { from: 0, to: 1 };

/** A line along an edge needs this many stations, about 4 mm, to have a direction of its own. */
const FEWEST_STATIONS = 5;

/** The true outline of one fragment, station by station from the wrist. */
export const stationsOf = ({ outline }: KnownBone, fragment: FragmentName): readonly OutlineStation[] => {
  const own = outline.filter(({ part }) => part === fragment);
  // An unbroken bone has its axes as if its neck were broken at three quarters.
  if (own.length > 0 && outline.some(({ part }) => part === 'distal')) return own;
  const parted = Math.round(0.75 * outline.length);
  return fragment === 'proximal' ? outline.slice(0, parted) : outline.slice(parted);
};

/** The stretch of a fragment that placed points cover; the whole of it where they lie close together. */
export function stretchOf(bone: KnownBone, fragment: FragmentName, points: AxisPoints): Stretch {
  const stations = stationsOf(bone, fragment);
  const indices = controlPoints(points).map((point) => nearestStation(stations, point, bone.scale));
  const [first, last] = [Math.min(...indices), Math.max(...indices)];
  return last - first < FEWEST_STATIONS
    ? WHOLE
    : { from: first / stations.length, to: (last + 1) / stations.length };
}

/** Index of the station whose middle lies nearest to a point of the plane. */
export function nearestStation(
  stations: readonly OutlineStation[],
  point: PlanePoint,
  scale: PlaneScale,
): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [index, { middle }] of stations.entries()) {
    const at = toPlane(middle, scale);
    const distance = Math.hypot(at.x - point.x, at.y - point.y);
    if (distance < least) [best, least] = [index, distance];
  }
  return best;
}

/**
 * The axis that lines of this construction should have shown.
 *
 * Along the dorsal cortex: the line through the bone's dorsal edge over the stretch that was used. Between cortices of
 * a fragment that ends in the head: the line through the middles of its outline. By the head: from the middle of the
 * broken end to the head's centre. Else the axis that the film's truth was made with.
 */
export function trueAxis(
  bone: KnownBone,
  fragment: FragmentName,
  construction: AxisPoints['construction'],
  stretch: Stretch,
): TrueAxis {
  const { truth, scale } = bone;
  const stations = stationsOf(bone, fragment);
  const used = stations.slice(
    Math.floor(stretch.from * stations.length),
    Math.max(FEWEST_STATIONS, Math.ceil(stretch.to * stations.length)),
  );
  const through = (points: readonly PlanePoint[], by: TrueAxisBy): TrueAxis | null => {
    const line = fitLine(points);
    return line.ok ? { axis: alike(line.value.axis, defined), by } : null;
  };
  const defined = onPlane(fragment === 'proximal' ? truth.proximalAxis : truth.distalAxis, scale);
  const by = definedBy(truth.axesBy, fragment);
  const special = (): TrueAxis | null => {
    if (construction === 'dorsal-cortex') {
      return through(
        used.map((station) => toPlane(dorsalEdge(station, truth.dorsal), scale)),
        'dorsal-cortex',
      );
    }
    if (by === 'head-centre' && (construction === 'canal' || construction === 'cortex-pair')) {
      return through(
        used.map(({ middle }) => toPlane(middle, scale)),
        'midline',
      );
    }
    const end = stations[0];
    if (construction !== 'head' || by === 'head-centre' || end === undefined) return null;
    const axis = { from: toPlane(end.middle, scale), to: toPlane(truth.headCentre, scale) };
    return { axis, by: 'head-centre' };
  };
  return special() ?? { axis: defined, by };
}

const definedBy = (axesBy: RayTruth['axesBy'], fragment: FragmentName): TrueAxisBy => {
  if (axesBy === 'shaft-and-head-centre' && fragment === 'distal') return 'head-centre';
  return axesBy === 'short-base-fragment' && fragment === 'proximal' ? 'base-and-break' : 'centreline';
};

export const onPlane = ({ from, to }: TruthAxis, scale: PlaneScale): Axis => ({
  from: toPlane(from, scale),
  to: toPlane(to, scale),
});

/** The edge of a section that lies farther towards the back of the hand. */
export function dorsalEdge({ outer: [left, right] }: OutlineStation, dorsal: FilmDirection) {
  const towards = (right.column - left.column) * dorsal.columns + (right.row - left.row) * dorsal.rows;
  return towards > 0 ? right : left;
}

/** The axis run the same way as another. */
export function alike(axis: Axis, other: Axis): Axis {
  const [u, v] = [directionOf(axis), directionOf(other)];
  return u.x * v.x + u.y * v.y < 0 ? { from: axis.to, to: axis.from } : axis;
}
