import {
  type Axis,
  axisLength,
  directionOf,
  distanceToAxis,
  middleOf,
  turnBetween,
} from '../geometry/axis.ts';
import {
  type AxisFailure,
  type AxisPoints,
  type ConstructedAxis,
  constructAxis,
} from '../geometry/constructions.ts';
import { orientPair } from '../geometry/orient.ts';
import { ASSUMED, type PlacingError } from '../geometry/placing.ts';
import { type Result, success } from '../geometry/result.ts';
import { type PlaneScale, planeScale, toFilm, toPlane } from '../geometry/spacing.ts';
import { degrees, type FilmPoint, type PlanePoint, planePoint, toRadians } from '../geometry/units.ts';
import type { CaseDocument, MarkRecord, MarkShape, RecordId } from './document.ts';
import { type MarkedFilm, markedFilm } from './film-marks.ts';
import { placingOn } from './film-placing.ts';
import { injuryOf, settingsOf } from './fixed-records.ts';

/** An axis as it is drawn on the film. */
export interface DrawnAxis {
  /** From proximal to distal when both axes are there, else as placed. */
  readonly from: FilmPoint;
  readonly to: FilmPoint;
  /** Mid-points between the cortices, for the constructions that have them. */
  readonly midPoints: readonly FilmPoint[];
  /** The head circle. On a film of unequal spacings a circle of the plane is an ellipse. */
  readonly circle: {
    readonly centre: FilmPoint;
    readonly radiusColumns: number;
    readonly radiusRows: number;
  } | null;
}

/** The angle between the axes as it is drawn. */
interface DrawnAngle {
  /** Where the lines of the axes meet. */
  readonly crossing: FilmPoint;
  /** From the proximal axis, run on, to the distal one: a line through these points. */
  readonly arc: readonly FilmPoint[];
}

export interface FilmAxes {
  /** Null when the mark is not placed; a failure says why its points make no axis. */
  readonly proximal: Result<DrawnAxis, AxisFailure> | null;
  readonly distal: Result<DrawnAxis, AxisFailure> | null;
  /** Null when an axis is missing, or the lines meet nowhere near the bone. */
  readonly angle: DrawnAngle | null;
}

/** The points of an axis mark in the plane; null for a shape that makes no axis. */
export function axisPoints(shape: MarkShape, scale: PlaneScale): AxisPoints | null {
  const plane = (point: FilmPoint): PlanePoint => toPlane(point, scale);
  switch (shape.construction) {
    case 'free':
      return { construction: 'free', from: plane(shape.from), to: plane(shape.to) };
    case 'cortex-pair':
    case 'canal':
      return {
        construction: shape.construction,
        levels: shape.levels.map(({ one, other }) => ({ one: plane(one), other: plane(other) })),
      };
    case 'dorsal-cortex':
      return { construction: 'dorsal-cortex', points: shape.points.map(plane) };
    case 'head':
      return { construction: 'head', rim: shape.rim.map(plane), brokenEnd: plane(shape.brokenEnd) };
    case 'circle':
    case 'point':
    case 'segment':
      return null;
  }
}

/** The axes of one film in film coordinates, for drawing. A film the case does not hold has none. */
export function axesOnFilm(document: CaseDocument, filmId: RecordId): FilmAxes {
  const marked = markedFilm(document, filmId);
  if (marked === null) return { proximal: null, distal: null, angle: null };
  return drawnAxes(marked, placingOn(marked, settingsOf(document), injuryOf(document).ray));
}

function drawnAxes({ film, marks }: MarkedFilm, placing: PlacingError | null): FilmAxes {
  const scale = planeScale(film.spacing);
  const proximal = constructed(marks['proximal-axis'], scale, placing);
  const distal = constructed(marks['distal-axis'], scale, placing);
  const pair = proximal?.ok && distal?.ok ? orientPair(proximal.value.axis, distal.value.axis) : null;
  const drawn = (built: Constructed, axis: Axis | undefined): FilmAxes['proximal'] =>
    built?.ok ? success(drawnAxis(built.value, axis ?? built.value.axis, scale)) : built;
  return {
    proximal: drawn(proximal, pair?.proximal),
    distal: drawn(distal, pair?.distal),
    angle: pair && drawnAngle(pair.proximal, pair.distal, scale),
  };
}

type Constructed = Result<BuiltAxis, AxisFailure> | null;

interface BuiltAxis extends ConstructedAxis {
  readonly points: AxisPoints;
}

function constructed(
  mark: MarkRecord | undefined,
  scale: PlaneScale,
  placing: PlacingError | null,
): Constructed {
  const points = mark === undefined ? null : axisPoints(mark.shape, scale);
  if (points === null) return null;
  // Without a size for the placing error an axis is too short only when it has no length at all.
  const built = constructAxis(points, placing ?? { standardUncertainty: 0, basis: ASSUMED });
  return built.ok ? success({ ...built.value, points }) : built;
}

function drawnAxis({ points, circle }: BuiltAxis, axis: Axis, scale: PlaneScale): DrawnAxis {
  const levels =
    points.construction === 'canal' || points.construction === 'cortex-pair' ? points.levels : [];
  return {
    from: toFilm(axis.from, scale),
    to: toFilm(axis.to, scale),
    midPoints: levels.map(({ one, other }) => toFilm(middleOf(one, other), scale)),
    circle: circle && {
      centre: toFilm(circle.centre, scale),
      radiusColumns: circle.radius / scale.perColumn,
      radiusRows: circle.radius / scale.perRow,
    },
  };
}

/** A crossing farther from the bone than the axes are long, taken together, is of no use in a drawing. */
const FARTHEST_CROSSING_LENGTHS = 1;
/** Of the shorter axis. */
const ARC_RADIUS_SHARE = 0.5;
const ARC_STEP_DEGREES = 3;

function drawnAngle(proximal: Axis, distal: Axis, scale: PlaneScale): DrawnAngle | null {
  const crossing = whereLinesMeet(proximal, distal);
  if (crossing === null) return null;
  const farthest = FARTHEST_CROSSING_LENGTHS * (axisLength(proximal) + axisLength(distal));
  if (Math.min(distanceToAxis(crossing, proximal), distanceToAxis(crossing, distal)) > farthest) return null;
  const radius = ARC_RADIUS_SHARE * Math.min(axisLength(proximal), axisLength(distal));
  const turn = turnBetween(proximal, distal);
  const start = directionOf(proximal);
  const steps = Math.max(1, Math.ceil(Math.abs(turn) / ARC_STEP_DEGREES));
  const arc = Array.from({ length: steps + 1 }, (_, step) => {
    const angle = toRadians(degrees((turn * step) / steps));
    return planePoint(
      crossing.x + radius * (start.x * Math.cos(angle) - start.y * Math.sin(angle)),
      crossing.y + radius * (start.x * Math.sin(angle) + start.y * Math.cos(angle)),
    );
  });
  return { crossing: toFilm(crossing, scale), arc: arc.map((point) => toFilm(point, scale)) };
}

/** Null for parallel lines. */
function whereLinesMeet(one: Axis, other: Axis): PlanePoint | null {
  const [u, v] = [directionOf(one), directionOf(other)];
  const sine = u.x * v.y - u.y * v.x;
  if (sine === 0) return null;
  const dx = other.from.x - one.from.x;
  const dy = other.from.y - one.from.y;
  const along = (dx * v.y - dy * v.x) / sine;
  return planePoint(one.from.x + u.x * along, one.from.y + u.y * along);
}
