import type { FilmPoint } from '../geometry/units.ts';
import type { MarkRole, MarkShape } from './document.ts';
import { type ControlPoint, namedPoints, pointName } from './marks.ts';
import { CONSTRUCTION_FACTS, ROLES, roleName, type ShapeConstruction, suits } from './roles.ts';
import { fewest, type PointSlot, shapeOf, slots } from './shape-points.ts';

/**
 * A mark while it is being placed: what it will be and the points so far. It is no part of the case until it
 * is done. The pointer and the keyboard drive it through the same functions.
 */
export interface Placing {
  readonly role: MarkRole;
  readonly construction: ShapeConstruction;
  /** Levels, rim points or points wanted, counted as in `fewest`. */
  readonly count: number;
  readonly points: readonly FilmPoint[];
}

/** What the next point is for. */
export interface NextPoint extends PointSlot {
  /** Mark and point, e.g. "distal axis, head rim 2". */
  readonly fullName: string;
  /** Counted from 1. */
  readonly number: number;
  readonly of: number;
  /** What to do, in one sentence. */
  readonly instruction: string;
}

export type Advanced =
  | { readonly state: 'placing'; readonly placing: Placing }
  | { readonly state: 'done'; readonly shape: MarkShape };

/** A mark about to be placed. Throws if the construction does not suit the role, or the count is too small. */
export function startPlacing(
  role: MarkRole,
  construction: ShapeConstruction = ROLES[role].constructions[0],
  count: number = fewest(construction),
): Placing {
  if (!suits(role, construction))
    throw new RangeError(`a ${roleName(role)} is not placed as ${construction}`);
  if (count < fewest(construction)) throw new RangeError(`a ${construction} needs ${fewest(construction)}`);
  return { role, construction, count, points: [] };
}

/** Which point is wanted next. */
export function nextPoint(placing: Placing): NextPoint {
  const all = slots(placing.role, placing.construction, placing.count);
  const index = placing.points.length;
  const slot = all[index];
  if (slot === undefined) throw new RangeError('this mark has all its points');
  return {
    ...slot,
    fullName: pointName(placing.role, placing.construction, slot),
    number: index + 1,
    of: all.length,
    instruction: instructionFor(placing, slot, index),
  };
}

const POINT_INSTRUCTIONS: Readonly<Partial<Record<MarkRole, string>>> = {
  'dorsal-side': 'Tap the film on the side of the back of the hand.',
  'radial-side': 'Tap the film on the side of the thumb.',
  'covering-edge': 'Tap where the finger reaches farthest over the neighbouring nail, or towards it.',
};

function instructionFor(placing: Placing, slot: PointSlot, index: number): string {
  const mark = roleName(placing.role);
  switch (placing.construction) {
    case 'point':
      return POINT_INSTRUCTIONS[placing.role] ?? `Place the ${mark}.`;
    case 'free':
      return index === 0
        ? `Place the end of the ${mark} nearer the wrist.`
        : `Place the end of the ${mark} nearer the knuckle.`;
    case 'dorsal-cortex':
      return `Place ${slot.name} of the ${mark} on the dorsal cortex, from the wrist towards the knuckle.`;
    case 'cortex-pair':
    case 'canal':
      return levelInstruction(placing, index);
    case 'head':
      return slot.key === 'broken-end'
        ? 'Place the middle of the broken end of the fragment.'
        : `Place rim point ${index + 1} on the edge of the head, well apart from the others.`;
    case 'circle':
      return `Place rim point ${index + 1} on the edge of the ${mark}, well apart from the others.`;
    case 'segment':
      return `Place the point for the ${mark}: ${slot.name}.`;
  }
}

/** Short, because it stands over the film: "Proximal axis, level 1, nearest the wrist: tap one inner cortex." */
function levelInstruction({ role, construction }: Placing, index: number): string {
  const level = Math.floor(index / 2) + 1;
  const where = level === 1 ? 'level 1, nearest the wrist' : `level ${level}, towards the knuckle`;
  const cortex = `${index % 2 === 0 ? 'one' : 'the other'} ${construction === 'canal' ? 'inner' : 'outer'} cortex`;
  const name = roleName(role);
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}, ${where}: tap ${cortex}.`;
}

/** Takes the next point: still placing, or done with the shape. */
export function advance(placing: Placing, point: FilmPoint): Advanced {
  const points = [...placing.points, point];
  const wanted = slots(placing.role, placing.construction, placing.count).length;
  return points.length < wanted
    ? { state: 'placing', placing: { ...placing, points } }
    : { state: 'done', shape: shapeOf(placing.construction, points) };
}

/** Takes the last point back; null when there was none, which ends placing. */
export const stepBack = (placing: Placing): Placing | null =>
  placing.points.length === 0 ? null : { ...placing, points: placing.points.slice(0, -1) };

/** The points placed so far, named as they will be in the finished mark. */
export const placedPoints = ({ role, construction, count, points }: Placing): readonly ControlPoint[] =>
  namedPoints(role, construction, count, points);

/** The line that says what is being placed, e.g. "Distal axis by head circle: 2 of 4 points". */
export const placingCaption = ({ role, construction, count, points }: Placing): string => {
  const name = roleName(role);
  const wanted = slots(role, construction, count).length;
  return `${name.charAt(0).toUpperCase()}${name.slice(1)} by ${CONSTRUCTION_FACTS[construction].name}: ${points.length} of ${wanted} points`;
};
