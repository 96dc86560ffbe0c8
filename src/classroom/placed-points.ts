import { type Axis, turnBetween } from '../geometry/axis.ts';
import { type AxisPoints, axisFrom, controlPoints } from '../geometry/constructions.ts';
import { type PlaneScale, toPlane } from '../geometry/spacing.ts';
import { type PlanePoint, planePoint } from '../geometry/units.ts';
import type { OutlineStation } from '../phantom/outlines.ts';
import type { PhantomRay } from '../phantom/spec.ts';
import {
  alike,
  dorsalEdge,
  type FragmentName,
  type KnownBone,
  nearestStation,
  stationsOf,
} from './true-axes.ts';

/** Where a point that is off was put instead. */
export type Misplaced =
  /** On the outer cortex where the wall of the canal was meant. */
  | { readonly on: 'outer-cortex' }
  /** On the wall of the canal where the outer cortex was meant. */
  | { readonly on: 'canal-wall' }
  | { readonly on: 'neighbour'; readonly ray: PhantomRay }
  /** Away from the middle of the broken end, which is on no edge. */
  | { readonly on: 'off-middle' }
  /** Beyond the bone, or within it, near no edge of its own. */
  | { readonly on: 'outside' }
  | { readonly on: 'inside' };

/** A placed point against where the bone's own edge is. */
export interface PointError {
  readonly fragment: FragmentName;
  /** Index among the construction's control points. */
  readonly index: number;
  /** How far from where it belongs, mm; on an edge positive outwards from the bone's middle, elsewhere a distance. */
  readonly offMm: number;
  readonly misplaced: Misplaced;
  /** Degrees by which the axis would turn, clockwise as displayed, if this point alone were put right. */
  readonly mendingTurn: number;
}

/** Closer than this to an edge counts as on it: twice the usual placing error. */
const ON_EDGE_MM = 1;

/** Where one placed point should have been. */
interface Target {
  /** What was meant: an edge of the bone, or the middle of its broken end. */
  readonly meant: 'edge' | 'middle';
  readonly at: PlanePoint;
  readonly offMm: number;
  /** Distance to the bone's other edge of the same side, mm; null where there is none. */
  readonly other: { readonly edge: 'outer-cortex' | 'canal-wall'; readonly distanceMm: number } | null;
}

/** Every point of a placed axis that lies farther than 1 mm from where it belongs on the bone it was meant for. */
export function pointErrors(
  fragment: FragmentName,
  points: AxisPoints,
  placedAxis: Axis,
  bone: KnownBone,
  neighbours: readonly (readonly [PhantomRay, KnownBone])[],
): readonly PointError[] {
  const placed = controlPoints(points);
  return targetsOf(fragment, points, bone).flatMap((target, index): readonly PointError[] => {
    const point = placed[index];
    if (target === null || point === undefined || Math.abs(target.offMm) <= ON_EDGE_MM) return [];
    const mended = alike(axisFrom(points, placed.with(index, target.at)), placedAxis);
    return [
      {
        fragment,
        index,
        offMm: target.offMm,
        misplaced: whereInstead(point, target, neighbours),
        mendingTurn: turnBetween(placedAxis, mended),
      },
    ];
  });
}

/** Targets in the order of `controlPoints`; null for points that may lie anywhere along an axis. */
function targetsOf(fragment: FragmentName, points: AxisPoints, bone: KnownBone): readonly (Target | null)[] {
  const stations = stationsOf(bone, fragment);
  const at = (point: PlanePoint) =>
    stationFrame(stations, nearestStation(stations, point, bone.scale), bone.scale);
  switch (points.construction) {
    case 'free':
      return [null, null];
    case 'canal':
    case 'cortex-pair':
      return points.levels.flatMap(({ one, other }) => {
        // The one farther to the left is meant for the left edge, even where both lie on one side of the bone.
        const oneLeft = at(one).across(one) <= at(other).across(other);
        const edge = points.construction === 'canal' ? 'inner' : 'outer';
        return [
          edgeTarget(at(one), one, oneLeft ? 0 : 1, edge),
          edgeTarget(at(other), other, oneLeft ? 1 : 0, edge),
        ];
      });
    case 'dorsal-cortex':
      return points.points.map((point) => {
        const frame = at(point);
        const left = dorsalEdge(frame.station, bone.truth.dorsal) === frame.station.outer[0];
        return edgeTarget(frame, point, left ? 0 : 1, 'outer');
      });
    case 'head': {
      const centre = toPlane(bone.truth.headCentre, bone.scale);
      const radius = bone.truth.headRadiusPixels * bone.scale.perColumn;
      return [
        ...points.rim.map((point) => rimTarget(point, centre, radius)),
        brokenEndTarget(points.brokenEnd, toPlane(stations[0]!.middle, bone.scale)),
      ];
    }
  }
}

interface StationFrame {
  readonly station: OutlineStation;
  /** Distance to the right of the bone's middle, mm. */
  readonly across: (point: PlanePoint) => number;
  readonly shifted: (point: PlanePoint, by: number) => PlanePoint;
  readonly scale: PlaneScale;
}

function stationFrame(stations: readonly OutlineStation[], index: number, scale: PlaneScale): StationFrame {
  const station = stations[index]!;
  const [before, after] = [
    stations[Math.max(0, index - 1)]!,
    stations[Math.min(stations.length - 1, index + 1)]!,
  ];
  const [from, to, middle] = [before.middle, after.middle, station.middle].map((point) =>
    toPlane(point, scale),
  ) as [PlanePoint, PlanePoint, PlanePoint];
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const normal = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
  return {
    station,
    across: (point) => (point.x - middle.x) * normal.x + (point.y - middle.y) * normal.y,
    shifted: (point, by) => planePoint(point.x + by * normal.x, point.y + by * normal.y),
    scale,
  };
}

function edgeTarget(frame: StationFrame, point: PlanePoint, side: 0 | 1, wanted: 'inner' | 'outer'): Target {
  const { station, across, shifted, scale } = frame;
  const edgeAt = (edges: OutlineStation['inner']) =>
    edges === null ? null : across(toPlane(edges[side], scale));
  const outer = edgeAt(station.outer)!;
  const inner = edgeAt(station.inner);
  const goal = wanted === 'inner' ? (inner ?? outer) : outer;
  const here = across(point);
  const other = wanted === 'inner' ? outer : inner;
  return {
    meant: 'edge',
    at: shifted(point, goal - here),
    offMm: (side === 0 ? -1 : 1) * (here - goal),
    other:
      other === null
        ? null
        : { edge: wanted === 'inner' ? 'outer-cortex' : 'canal-wall', distanceMm: Math.abs(here - other) },
  };
}

function rimTarget(point: PlanePoint, centre: PlanePoint, radius: number): Target {
  const distance = Math.hypot(point.x - centre.x, point.y - centre.y);
  const share = distance === 0 ? 1 : radius / distance;
  return {
    meant: 'edge',
    at: planePoint(centre.x + (point.x - centre.x) * share, centre.y + (point.y - centre.y) * share),
    offMm: distance - radius,
    other: null,
  };
}

const brokenEndTarget = (point: PlanePoint, middle: PlanePoint): Target => ({
  meant: 'middle',
  at: middle,
  offMm: Math.hypot(point.x - middle.x, point.y - middle.y),
  other: null,
});

function whereInstead(
  point: PlanePoint,
  { meant, offMm, other }: Target,
  neighbours: readonly (readonly [PhantomRay, KnownBone])[],
): Misplaced {
  if (meant === 'middle') return { on: 'off-middle' };
  if (other !== null && other.distanceMm <= ON_EDGE_MM && other.distanceMm < Math.abs(offMm))
    return { on: other.edge };
  for (const [ray, bone] of neighbours) if (isOnEdge(point, bone)) return { on: 'neighbour', ray };
  return offMm > 0 ? { on: 'outside' } : { on: 'inside' };
}

function isOnEdge(point: PlanePoint, { outline, scale }: KnownBone): boolean {
  return outline.some(({ outer }) =>
    outer.some((edge) => {
      const { x, y } = toPlane(edge, scale);
      return Math.hypot(x - point.x, y - point.y) <= ON_EDGE_MM;
    }),
  );
}
