import type { FilmPoint } from '../geometry/units.ts';
import type { MarkRole, MarkShape } from './document.ts';
import { ROLES, type ShapeConstruction } from './roles.ts';

/**
 * A mark's shape as a row of points and back. Everything that moves, adds or places single points works on
 * the row, so that each construction is spelt out once, here.
 */

/** Names one point within a shape: `from`, `level-2-other`, `rim-3`. Counted from 1. */
export type PointKey = string;

/** A place in a shape that a point takes. */
export interface PointSlot {
  readonly key: PointKey;
  /** What the point is called within its mark, e.g. "head rim 2". */
  readonly name: string;
}

/** Points, or levels of two points, that can be added to or taken from a shape; the fewest that make one. */
const FEWEST: Readonly<Record<ShapeConstruction, number>> = {
  free: 2,
  segment: 2,
  point: 1,
  'cortex-pair': 2,
  canal: 2,
  'dorsal-cortex': 2,
  head: 3,
  circle: 3,
};

/**
 * The least count of a construction: levels for `canal` and `cortex-pair`, rim points for `head` and `circle`, points for
 * the others.
 */
export const fewest = (construction: ShapeConstruction): number => FEWEST[construction];

/** Whether a shape of this construction may have more than the fewest. */
export const canGrow = (construction: ShapeConstruction): boolean =>
  construction === 'cortex-pair' ||
  construction === 'canal' ||
  construction === 'dorsal-cortex' ||
  construction === 'head' ||
  construction === 'circle';

/** The count a shape has, counted as in `fewest`. */
export function countOf(shape: MarkShape): number {
  switch (shape.construction) {
    case 'cortex-pair':
    case 'canal':
      return shape.levels.length;
    case 'dorsal-cortex':
      return shape.points.length;
    case 'head':
    case 'circle':
      return shape.rim.length;
    default:
      return fewest(shape.construction);
  }
}

/** The places of a shape in the order in which they are placed. */
export function slots(role: MarkRole, construction: ShapeConstruction, count: number): readonly PointSlot[] {
  const numbers = Array.from({ length: count }, (_, index) => index + 1);
  switch (construction) {
    case 'free':
    case 'segment': {
      const [one, other] = ROLES[role].ends ?? ['end 1', 'end 2'];
      return [
        { key: 'from', name: one },
        { key: 'to', name: other },
      ];
    }
    case 'cortex-pair':
    case 'canal': {
      const cortex = construction === 'canal' ? 'inner cortex' : 'outer cortex';
      return numbers.flatMap((number) => [
        { key: `level-${number}-one`, name: `level ${number}, one ${cortex}` },
        { key: `level-${number}-other`, name: `level ${number}, other ${cortex}` },
      ]);
    }
    case 'dorsal-cortex':
      return numbers.map((number) => ({ key: `point-${number}`, name: `cortex point ${number}` }));
    case 'head':
      return [
        ...numbers.map((number) => ({ key: `rim-${number}`, name: `head rim ${number}` })),
        { key: 'broken-end', name: 'middle of the broken end' },
      ];
    case 'circle':
      return numbers.map((number) => ({ key: `rim-${number}`, name: `rim ${number}` }));
    case 'point':
      return [{ key: 'at', name: 'point' }];
  }
}

/** The points of a shape, in the order of its slots. */
export function pointsOf(shape: MarkShape): readonly FilmPoint[] {
  switch (shape.construction) {
    case 'free':
    case 'segment':
      return [shape.from, shape.to];
    case 'cortex-pair':
    case 'canal':
      return shape.levels.flatMap((level) => [level.one, level.other]);
    case 'dorsal-cortex':
      return shape.points;
    case 'head':
      return [...shape.rim, shape.brokenEnd];
    case 'circle':
      return shape.rim;
    case 'point':
      return [shape.at];
  }
}

/** The shape made of a full row of points, as `pointsOf` gives them. Throws if the row does not make one. */
export function shapeOf(construction: ShapeConstruction, points: readonly FilmPoint[]): MarkShape {
  const [first, second] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) throw new RangeError(`a ${construction} needs points`);
  switch (construction) {
    case 'point':
      return { construction, at: first };
    case 'free':
    case 'segment':
      if (second === undefined) throw new RangeError(`a ${construction} needs two points`);
      return { construction, from: first, to: second };
    case 'cortex-pair':
    case 'canal':
      return { construction, levels: paired(points) };
    case 'dorsal-cortex':
      return { construction, points };
    case 'circle':
      return { construction, rim: points };
    case 'head':
      return { construction, rim: points.slice(0, -1), brokenEnd: last };
  }
}

function paired(
  points: readonly FilmPoint[],
): readonly { readonly one: FilmPoint; readonly other: FilmPoint }[] {
  return Array.from({ length: Math.ceil(points.length / 2) }, (_, level) => {
    const [one, other] = points.slice(2 * level, 2 * level + 2);
    if (one === undefined || other === undefined) throw new RangeError('a level needs two points');
    return { one, other };
  });
}
