import { DEGREES_PER_RADIAN, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { DrawCommand, TextRun } from './draw-command.ts';
import { type Projection, pixelsPerColumn, toScreen } from './projection.ts';
import type { Figure, FilmSegment, Readout } from './scene.ts';
import {
  FINE,
  HANDLE_RADIUS,
  HANDLE_RADIUS_FOCUSED,
  INK,
  SOFT_INK,
  STROKES,
  type StrokeScale,
  type StrokeStyle,
} from './strokes.ts';

/** What a mark is drawn with besides its own geometry. */
export interface PaintOptions {
  readonly scale: StrokeScale;
  /** Key of the control point that has the focus or is being dragged. */
  readonly focusedKey: string | null;
  readonly readout: Readout | null;
}

/** Control points nearer to each other than this are drawn smaller, CSS pixels. */
const CROWDED = 24;
/** Half the length of the stroke across the end of a measured length, CSS pixels. */
const END_STROKE = 5;
/** Written beside the last point of a mark that could be taken for another. */
const LABELS: Readonly<Partial<Record<Figure['role'], string>>> = {
  'dorsal-side': 'dorsal',
  'radial-side': 'radial',
  'finger-nail': 'finger',
  'reference-nail': 'reference',
};

/**
 * The drawing list of one mark: the fine lines first, then the axis, the control points and the readout on
 * top. Pure: the same mark, projection and options always give the same list.
 */
export function paintFigure(figure: Figure, projection: Projection, options: PaintOptions): DrawCommand[] {
  const style = STROKES[figure.style];
  const { scale } = options;
  const at = figure.points.map((point) => ({ key: point.key, screen: toScreen(projection, point.at) }));
  const open = figure.showPoints ? at : [];
  const room = roomForHandles(open.map(({ screen }) => screen));
  const radius = (key: string) => handleRadius(key === options.focusedKey, scale, room);
  /** Lines stop at the rim of a control point, so that its middle stays open. */
  const trimmed = ({ from, to }: FilmSegment): readonly [ScreenPoint, ScreenPoint] => {
    const ends = [toScreen(projection, from), toScreen(projection, to)] as const;
    const gap = (end: ScreenPoint) =>
      open.reduce((most, { key, screen }) => (near(screen, end) ? Math.max(most, radius(key)) : most), 0);
    return shortened(ends[0], ends[1], gap(ends[0]), gap(ends[1]));
  };
  const commands: DrawCommand[] = [];
  for (const link of figure.links) commands.push(fineLine(trimmed(link), style, scale));
  if (figure.circle !== null) {
    const centre = toScreen(projection, figure.circle.centre);
    const rim = figure.circle.radiusColumns * pixelsPerColumn(projection);
    const gaps = open.map(({ key, screen }) => ({ at: screen, radius: radius(key) }));
    commands.push(...openCircle(centre, rim, gaps, fine(style, scale)));
  }
  for (const point of figure.midPoints) commands.push(dot(toScreen(projection, point), style, scale));
  if (figure.axis !== null) {
    commands.push(...axisLines(figure, trimmed(figure.axis), style, scale));
  }
  for (const { key, screen } of open) {
    commands.push(...handle(screen, radius(key), style, scale, key === options.focusedKey));
  }
  commands.push(...labels(figure, projection, options));
  return commands;
}

/** A fine cross with an open middle: where a point would be placed. */
export function paintCross(at: ScreenPoint, { stroke }: StrokeScale): DrawCommand[] {
  return cross(at, 5 * stroke, 16 * stroke, INK, stroke);
}

/** A fine line from the last point placed to the one being placed. */
export const paintJoin = (
  from: ScreenPoint,
  to: ScreenPoint,
  style: StrokeStyle,
  scale: StrokeScale,
): DrawCommand =>
  fineLine(shortened(from, to, handleRadius(false, scale), handleRadius(false, scale)), style, scale);

function axisLines(
  { role, style: name }: Figure,
  [from, to]: readonly [ScreenPoint, ScreenPoint],
  style: StrokeStyle,
  { stroke }: StrokeScale,
): DrawCommand[] {
  const line = (points: readonly ScreenPoint[], dash: readonly number[]): DrawCommand => ({
    kind: 'line',
    points,
    colour: style.colour,
    width: style.width * stroke,
    dash: dash.map((length) => length * stroke),
    cap: style.cap,
  });
  const lines = [line([from, to], style.dash)];
  if (role !== 'length' || name === 'observer') return lines;
  const { x, y } = unit(from, to);
  const reach = END_STROKE * stroke;
  for (const end of [from, to]) {
    lines.push(line([offset(end, -y * reach, x * reach), offset(end, y * reach, -x * reach)], []));
  }
  return lines;
}

/** An open square or ring; four strokes around it when it has the focus. */
function handle(
  centre: ScreenPoint,
  radius: number,
  { colour, handle: form }: StrokeStyle,
  scale: StrokeScale,
  focused: boolean,
): DrawCommand[] {
  const stroke = { colour, width: 1.5 * scale.stroke, dash: [] };
  const outline: DrawCommand =
    form === 'square'
      ? { kind: 'square', centre, half: radius, ...stroke }
      : { kind: 'circle', centre, radius, ...stroke };
  return focused
    ? [outline, ...cross(centre, radius, radius + 7 * scale.stroke, colour, scale.stroke)]
    : [outline];
}

function cross(
  { x, y }: ScreenPoint,
  inner: number,
  outer: number,
  colour: string,
  width: number,
): DrawCommand[] {
  return [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ].map(([dx, dy]) => ({
    kind: 'line',
    points: [screenPoint(x + inner * dx!, y + inner * dy!), screenPoint(x + outer * dx!, y + outer * dy!)],
    colour,
    width,
    dash: [],
    cap: 'butt',
  }));
}

function labels(figure: Figure, projection: Projection, { scale, readout }: PaintOptions): DrawCommand[] {
  const last = figure.points.at(-1);
  const label = LABELS[figure.role];
  const commands: DrawCommand[] = [];
  if (label !== undefined && last !== undefined) {
    const runs: TextRun[] = [{ text: label, face: 'serif', size: 14 * scale.text, colour: INK }];
    const at = offset(toScreen(projection, last.at), 12 * scale.stroke, 0);
    commands.push({ kind: 'text', at, align: 'left', runs });
  }
  if (readout !== null && figure.axis !== null) {
    const from = toScreen(projection, figure.axis.from);
    const to = toScreen(projection, figure.axis.to);
    const { x, y } = unit(from, to);
    const side = y < 0 ? -1 : 1;
    const middle = screenPoint((from.x + to.x) / 2, (from.y + to.y) / 2);
    const gap = 12 * scale.stroke;
    // To the right of the line, or above it where it lies flat.
    const at =
      Math.abs(y) < 0.35 ? offset(middle, 0, -gap - 6) : offset(middle, side * y * gap, -side * x * gap);
    const align = Math.abs(y) < 0.35 ? 'centre' : 'left';
    commands.push({ kind: 'text', at, align, runs: readoutRuns(readout, scale) });
  }
  return commands;
}

/** The value in large figures, its uncertainty after it in smaller ones. */
export const readoutRuns = ({ value, uncertainty }: Readout, { text }: StrokeScale): TextRun[] => [
  { text: value, face: 'serif', size: 22 * text, colour: INK },
  ...(uncertainty === null
    ? []
    : [{ text: `\u2002${uncertainty}`, face: 'serif', size: 15 * text, colour: SOFT_INK } as const]),
];

/** A circle that leaves the control points on it open: arcs from each to the next. */
function openCircle(
  centre: ScreenPoint,
  radius: number,
  controls: readonly { readonly at: ScreenPoint; readonly radius: number }[],
  stroke: ReturnType<typeof fine>,
): DrawCommand[] {
  const gaps = controls
    .filter(
      (control) =>
        Math.abs(Math.hypot(control.at.x - centre.x, control.at.y - centre.y) - radius) < control.radius,
    )
    .map((control) => ({
      middle: Math.atan2(control.at.y - centre.y, control.at.x - centre.x) * DEGREES_PER_RADIAN,
      // The chord of the gap is the radius of the control point; one as large as the circle opens all of it.
      half: 2 * Math.asin(Math.min(control.radius / (2 * radius), 1)) * DEGREES_PER_RADIAN,
    }))
    .toSorted((one, other) => one.middle - other.middle);
  if (gaps.length === 0) return [{ kind: 'circle', centre, radius, ...stroke }];
  return gaps.flatMap((gap, index): DrawCommand[] => {
    const next = gaps[index + 1] ?? { ...gaps[0]!, middle: gaps[0]!.middle + 360 };
    const startDegrees = gap.middle + gap.half;
    const sweepDegrees = next.middle - next.half - startDegrees;
    return sweepDegrees <= 0 ? [] : [{ kind: 'arc', centre, radius, startDegrees, sweepDegrees, ...stroke }];
  });
}

const fine = ({ colour }: StrokeStyle, { stroke }: StrokeScale) => ({
  colour,
  width: FINE.width * stroke,
  dash: FINE.dash.map((length) => length * stroke),
});

const fineLine = (points: readonly ScreenPoint[], style: StrokeStyle, scale: StrokeScale): DrawCommand => ({
  kind: 'line',
  points,
  cap: 'butt',
  ...fine(style, scale),
});

/** A mid-point that the axis runs through: too small to hide what is under it. */
const dot = (centre: ScreenPoint, { colour }: StrokeStyle, { stroke }: StrokeScale): DrawCommand => ({
  kind: 'circle',
  centre,
  radius: 1.25 * stroke,
  colour,
  width: 1.25 * stroke,
  dash: [],
});

const handleRadius = (focused: boolean, { stroke }: StrokeScale, room = 1): number =>
  (HANDLE_RADIUS * room + (focused ? HANDLE_RADIUS_FOCUSED - HANDLE_RADIUS : 0)) * (1 + 0.6 * (stroke - 1));

/**
 * How large the control points of a mark are drawn, from a half to 1: on a small bone they would hide it and run
 * into one another. How far off they can be taken hold of does not change with it.
 */
function roomForHandles(points: readonly ScreenPoint[]): number {
  const gaps = points.flatMap((one, index) =>
    points.slice(index + 1).map((other) => Math.hypot(one.x - other.x, one.y - other.y)),
  );
  return Math.min(1, Math.max(0.5, Math.min(...gaps) / CROWDED));
}

const offset = ({ x, y }: ScreenPoint, dx: number, dy: number): ScreenPoint => screenPoint(x + dx, y + dy);

const near = (one: ScreenPoint, other: ScreenPoint): boolean =>
  Math.hypot(one.x - other.x, one.y - other.y) < 0.5;

function unit(from: ScreenPoint, to: ScreenPoint): { readonly x: number; readonly y: number } {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  return length === 0 ? { x: 1, y: 0 } : { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}

/** The stretch between two points without the given lengths at its ends; nothing is left of a short one. */
function shortened(
  from: ScreenPoint,
  to: ScreenPoint,
  atFrom: number,
  atTo: number,
): readonly [ScreenPoint, ScreenPoint] {
  const { x, y } = unit(from, to);
  if (Math.hypot(to.x - from.x, to.y - from.y) <= atFrom + atTo) return [from, from];
  return [offset(from, x * atFrom, y * atFrom), offset(to, -x * atTo, -y * atTo)];
}
