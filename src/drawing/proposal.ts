import type { FilmPoint } from '../geometry/units.ts';
import type { DrawCommand } from './draw-command.ts';
import { type Projection, toScreen } from './projection.ts';
import type { FilmSegment, Readout } from './scene.ts';
import { HANDLE_RADIUS_FOCUSED, INK, STROKES, type StrokeScale } from './strokes.ts';

/** Axes that were found on the film and are offered to the user; all in film coordinates, and no part of a case. */
export interface Proposal {
  /** What was followed. */
  readonly outlines: readonly ProposedOutline[];
  /** The points of the outlines that can be dragged. */
  readonly holds: readonly ProposalHold[];
  readonly proximal: FilmSegment;
  readonly distal: FilmSegment;
  /** Beside the angle between the two; null: nothing is said there. */
  readonly readout: Readout | null;
}

export interface ProposedOutline {
  readonly fragment: 'proximal' | 'distal';
  readonly points: readonly FilmPoint[];
}

/** A point of an outline that can be taken hold of. */
export interface ProposalHold {
  readonly key: string;
  /** Fragment, outline and point, e.g. "proximal fragment, one cortex, point 2". */
  readonly name: string;
  readonly fragment: 'proximal' | 'distal';
  readonly at: FilmPoint;
  /** It was put there by hand. */
  readonly corrected: boolean;
}

/** CSS pixels: thinner than any mark, since nothing here is one. */
const OUTLINE_WIDTH = 1;
const AXIS_WIDTH = 1;
const AXIS_DASH = [9, 4, 2, 4] as const;
const HOLD_RADIUS = 4;
const TAP_RADIUS = 3;

/**
 * The outlines that were followed as thin plain lines, the axes thin and dash-dotted, both in the colour of
 * their fragment, and a small diamond at each point that can be dragged, filled in the middle once it was.
 */
export function paintProposal(
  { outlines, holds, proximal, distal }: Proposal,
  projection: Projection,
  { scale, focusedKey }: { readonly scale: StrokeScale; readonly focusedKey: string | null },
): DrawCommand[] {
  const { stroke } = scale;
  const screen = (point: FilmPoint) => toScreen(projection, point);
  const line = (fragment: 'proximal' | 'distal', points: readonly FilmPoint[]): DrawCommand => ({
    kind: 'line',
    points: points.map(screen),
    colour: STROKES[fragment].colour,
    width: OUTLINE_WIDTH * stroke,
    dash: [],
    cap: 'butt',
  });
  const axis = (fragment: 'proximal' | 'distal', { from, to }: FilmSegment): DrawCommand => ({
    kind: 'line',
    points: [screen(from), screen(to)],
    colour: STROKES[fragment].colour,
    width: AXIS_WIDTH * stroke,
    dash: AXIS_DASH.map((length) => length * stroke),
    cap: 'butt',
  });
  return [
    ...outlines.filter(({ points }) => points.length > 1).map((one) => line(one.fragment, one.points)),
    axis('proximal', proximal),
    axis('distal', distal),
    ...holds.flatMap((hold) => diamond(hold, projection, stroke, hold.key === focusedKey)),
  ];
}

function diamond(
  { at, fragment, corrected }: ProposalHold,
  projection: Projection,
  stroke: number,
  focused: boolean,
): DrawCommand[] {
  const centre = toScreen(projection, at);
  const half = (focused ? HANDLE_RADIUS_FOCUSED : HOLD_RADIUS) * stroke;
  const { colour } = STROKES[fragment];
  const corners = [
    [0, -half],
    [half, 0],
    [0, half],
    [-half, 0],
    [0, -half],
  ] as const;
  const rim: DrawCommand = {
    kind: 'line',
    points: corners.map(([x, y]) => ({ ...centre, x: centre.x + x, y: centre.y + y })),
    colour,
    width: (focused ? 2 : 1.25) * stroke,
    dash: [],
    cap: 'square',
  };
  if (!corrected) return [rim];
  return [rim, { kind: 'circle', centre, radius: 0.75 * stroke, colour: INK, width: 1.5 * stroke, dash: [] }];
}

/** The taps so far: small white rings. */
export const paintTaps = (
  taps: readonly FilmPoint[],
  projection: Projection,
  { stroke }: StrokeScale,
): DrawCommand[] =>
  taps.map((tap) => ({
    kind: 'circle',
    centre: toScreen(projection, tap),
    radius: TAP_RADIUS * stroke,
    colour: INK,
    width: 1.25 * stroke,
    dash: [],
  }));
