import { type Degrees, toRadians } from '../../geometry/units.ts';
import type { Region } from '../../tolerance/anatomy.ts';

/**
 * A drawing of a metacarpal for people who have never seen one: base below, head above, whole or bent at the
 * break. A drawing and no measurement, but for the angle, which is the one that was measured.
 */
export interface BoneDrawing {
  /** SVG paths of the one or two pieces, in the coordinates of the page. */
  readonly pieces: readonly string[];
  /** Long axis of the lower piece, run on past the break, and of the upper piece. */
  readonly axes: readonly (readonly [Place, Place])[];
  /** Points of the arc between them; empty for a whole bone. */
  readonly arc: readonly Place[];
  /** Where the size of the angle is written. */
  readonly labelAt: Place;
}

export type Place = readonly [x: number, y: number];

/** Half widths along the bone in percent of its length, from the base up; drawn by eye. */
const OUTLINE: readonly (readonly [along: number, halfWidth: number])[] = [
  [0, 6],
  [0.8, 9.5],
  [2.5, 12],
  [5.5, 13],
  [10, 12],
  [20, 8.4],
  [35, 6.6],
  [52, 6.2],
  [66, 7],
  [76, 9],
  [84, 11],
  [91, 11],
  [96, 8.5],
  [98.8, 5.2],
  [100, 1.5],
];

/** Where the drawing is broken. */
const BREAK_AT: Readonly<Record<Region, number>> = { head: 88, neck: 74, shaft: 50, base: 16 };
/** The broken ends are jagged: shares of the width, and how far up, in percent of the length. */
const JAGS: readonly (readonly [across: number, along: number])[] = [
  [1, 0],
  [0.55, 1.6],
  [0.2, -1.2],
  [-0.2, 1.4],
  [-0.6, -1],
  [-1, 0],
];

function halfWidthAt(along: number): number {
  const next = OUTLINE.findIndex(([at]) => at >= along);
  const [above, below] = [OUTLINE[Math.max(next, 1)], OUTLINE[Math.max(next, 1) - 1]];
  if (above === undefined || below === undefined) return 0;
  const share = (along - below[0]) / (above[0] - below[0]);
  return below[1] + share * (above[1] - below[1]);
}

const sides = (from: number, to: number): readonly Place[] => {
  const between = OUTLINE.filter(([along]) => along > from && along < to);
  return [[from, halfWidthAt(from)] as const, ...between, [to, halfWidthAt(to)] as const];
};

/**
 * @param bend - Between the pieces, 0 or more; null draws a whole bone.
 * @param at - Middle of the base, on the page.
 * @param length - Of the whole bone, in points.
 */
export function drawMetacarpal(bend: Degrees | null, region: Region, at: Place, length: number): BoneDrawing {
  const unit = length / 100;
  const breakAt = BREAK_AT[region];
  const angle = bend === null ? 0 : toRadians(bend);
  // Up the page is towards the head; the upper piece turns about the middle of the break.
  const onPage = (along: number, across: number, turned: boolean): Place => {
    const [rise, side] = turned
      ? [
          breakAt + (along - breakAt) * Math.cos(angle) - across * Math.sin(angle),
          across * Math.cos(angle) + (along - breakAt) * Math.sin(angle),
        ]
      : [along, across];
    return [at[0] + side * unit, at[1] - rise * unit];
  };
  const edge = (from: number, to: number, side: 1 | -1, turned: boolean) =>
    densely(sides(from, to)).map(([along, half]) => onPage(along, side * half, turned));
  if (bend === null) {
    return {
      pieces: [closed([...edge(0, 100, 1, false), ...edge(0, 100, -1, false).toReversed()])],
      axes: [[onPage(2, 0, false), onPage(98, 0, false)]],
      arc: [],
      labelAt: at,
    };
  }
  const piece = (from: number, to: number, turned: boolean): string => {
    const [right, left] = [edge(from, to, 1, turned), edge(from, to, -1, turned).toReversed()];
    const wide = halfWidthAt(breakAt);
    const jags = JAGS.map(([across, along]) => onPage(breakAt + along, across * wide, turned));
    return closed(turned ? [...right, ...left, ...jags.toReversed()] : [...right, ...jags, ...left]);
  };
  const reach = Math.min(34, 112 - breakAt);
  const start = onPage(breakAt, 0, false);
  const arc = Array.from({ length: 25 }, (_, step): Place => {
    const turn = (angle * step) / 24;
    return [start[0] + Math.sin(turn) * reach * unit, start[1] - Math.cos(turn) * reach * unit];
  });
  const half = angle / 2;
  return {
    pieces: [piece(0, breakAt, false), piece(breakAt, 100, true)],
    axes: [
      [onPage(2, 0, false), onPage(breakAt + reach + 6, 0, false)],
      [onPage(breakAt, 0, true), onPage(Math.max(98, breakAt + reach + 6), 0, true)],
    ],
    arc,
    labelAt: [start[0] + Math.sin(half) * (reach + 5) * unit, start[1] - Math.cos(half) * (reach + 5) * unit],
  };
}

const closed = (points: readonly Place[]): string =>
  `M${points.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}Z`;

/** Points between the given ones along a smooth curve through them, so that a straight pen draws a round bone. */
function densely(points: readonly Place[]): readonly Place[] {
  const at = (index: number) => points[Math.min(Math.max(index, 0), points.length - 1)] as Place;
  const between = points.slice(0, -1).flatMap((_, index) => {
    const [before, one, two, after] = [at(index - 1), at(index), at(index + 1), at(index + 2)];
    return [0, 0.25, 0.5, 0.75].map((t): Place => {
      const blend = (axis: 0 | 1) =>
        0.5 *
        (2 * one[axis] +
          (two[axis] - before[axis]) * t +
          (2 * before[axis] - 5 * one[axis] + 4 * two[axis] - after[axis]) * t * t +
          (3 * one[axis] - before[axis] - 3 * two[axis] + after[axis]) * t * t * t);
      return [blend(0), blend(1)];
    });
  });
  return [...between, at(points.length - 1)];
}
