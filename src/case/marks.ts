import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import type { MarkRecord, MarkRole, MarkShape, RecordId } from './document.ts';
import { recordId } from './document.ts';
import { roleName, type ShapeConstruction } from './roles.ts';
import { countOf, type PointKey, type PointSlot, pointsOf, shapeOf, slots } from './shape-points.ts';

/** A point of a mark that can be taken hold of. */
export interface ControlPoint {
  readonly key: PointKey;
  /** Mark and point, e.g. "proximal axis, end 1". */
  readonly name: string;
  readonly at: FilmPoint;
}

type Placed = Pick<MarkRecord, 'role' | 'shape'>;

/** There is one mark for each role on a film: placing it again replaces it. */
export const markId = (filmId: RecordId, role: MarkRole): RecordId => recordId(`${filmId}/${role}`);

/** Mark and point, e.g. "distal axis, head rim 2"; a mark of a single point has the name of its role. */
export const pointName = (role: MarkRole, construction: ShapeConstruction, slot: PointSlot): string =>
  construction === 'point' ? roleName(role) : `${roleName(role)}, ${slot.name}`;

/** Points in the order of placing, with the names they have in a mark of this role; fewer than all will do. */
export const namedPoints = (
  role: MarkRole,
  construction: ShapeConstruction,
  count: number,
  points: readonly FilmPoint[],
): readonly ControlPoint[] =>
  slots(role, construction, count).flatMap((slot, index) => {
    const at = points[index];
    return at === undefined ? [] : [{ key: slot.key, name: pointName(role, construction, slot), at }];
  });

/** The points of a mark in the order of placing. */
export const controlPoints = ({ role, shape }: Placed): readonly ControlPoint[] =>
  namedPoints(role, shape.construction, countOf(shape), pointsOf(shape));

/**
 * The mark with another shape, as corrected by hand: a traced one is then "traced and corrected", and what
 * the tracer said of its uncertainty no longer holds.
 */
export function corrected({ tracing: _dropped, ...mark }: MarkRecord, shape: MarkShape): MarkRecord {
  return { ...mark, shape, provenance: mark.provenance === 'placed' ? 'placed' : 'traced-and-corrected' };
}

/** The shape with one point elsewhere. Throws if it has no such point. */
export function movePoint(shape: MarkShape, key: PointKey, to: FilmPoint): MarkShape {
  const points = pointsOf(shape);
  const index = indexOf(shape, key);
  return rebuilt(shape, points.with(index, to));
}

/** The shape shifted as a whole, by columns and rows. */
export const shiftShape = (shape: MarkShape, columns: number, rows: number): MarkShape =>
  rebuilt(
    shape,
    pointsOf(shape).map((point) => filmPoint(point.column + columns, point.row + rows)),
  );

/**
 * A `canal` or `cortex-pair` with a further level, put where it belongs along the bone: levels stay in order
 * from the first to the last. Throws for shapes without levels.
 */
export function addLevel(shape: MarkShape, one: FilmPoint, other: FilmPoint): MarkShape {
  if (shape.construction !== 'canal' && shape.construction !== 'cortex-pair') throw noMore(shape);
  const place = placeAlong(
    shape.levels.map((level) => middle(level.one, level.other)),
    middle(one, other),
  );
  return { ...shape, levels: shape.levels.toSpliced(place, 0, { one, other }) };
}

/** A `dorsal-cortex` with a further point, in order along the bone. Throws for other shapes. */
export function addCortexPoint(shape: MarkShape, at: FilmPoint): MarkShape {
  if (shape.construction !== 'dorsal-cortex') throw noMore(shape);
  return { ...shape, points: shape.points.toSpliced(placeAlong(shape.points, at), 0, at) };
}

/** A `head` or `circle` with a further point on its rim, after the others. Throws for other shapes. */
export function addRimPoint(shape: MarkShape, at: FilmPoint): MarkShape {
  if (shape.construction !== 'head' && shape.construction !== 'circle') throw noMore(shape);
  return { ...shape, rim: [...shape.rim, at] };
}

function indexOf(shape: MarkShape, key: PointKey): number {
  // The names of the ends differ by role; the keys do not.
  const index = slots('length', shape.construction, countOf(shape)).findIndex((slot) => slot.key === key);
  if (index < 0) throw new RangeError(`a ${shape.construction} has no point ${key}`);
  return index;
}

const rebuilt = (shape: MarkShape, points: readonly FilmPoint[]): MarkShape =>
  // Fields of a later version that this one does not know stay with the shape.
  ({ ...shape, ...shapeOf(shape.construction, points) }) as MarkShape;

const middle = (one: FilmPoint, other: FilmPoint): FilmPoint =>
  filmPoint((one.column + other.column) / 2, (one.row + other.row) / 2);

/** Where a point comes among others that run from the first to the last of them. */
function placeAlong(along: readonly FilmPoint[], point: FilmPoint): number {
  const [first, last] = [along[0], along.at(-1)];
  if (first === undefined || last === undefined) return 0;
  const station = (at: FilmPoint) =>
    (at.column - first.column) * (last.column - first.column) + (at.row - first.row) * (last.row - first.row);
  const after = along.findIndex((at) => station(at) > station(point));
  return after < 0 ? along.length : after;
}

const noMore = (shape: MarkShape) =>
  new RangeError(`a ${shape.construction} takes no further point of this kind`);
