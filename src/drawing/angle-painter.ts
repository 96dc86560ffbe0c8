import { DEGREES_PER_RADIAN, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { DrawCommand } from './draw-command.ts';
import { readoutRuns } from './painter.ts';
import { type Projection, pixelsPerColumn, toScreen } from './projection.ts';
import type { Figure, FilmSegment, Readout } from './scene.ts';
import { FINE, HANDLE_RADIUS, INK, STROKES, type StrokeScale } from './strokes.ts';

/** CSS pixels. */
const ARC_RADIUS = 44;
const TEXT_GAP = 18;
/** From the rim of the head to its readout: a control point on the rim, and half the height of the figures. */
const RIM_GAP = HANDLE_RADIUS + 12;
/** The crossing counts as one of these two lines if it is no farther from either than this share of it. */
const FARTHEST_CROSSING = 0.6;

interface ScreenLine {
  readonly from: ScreenPoint;
  readonly to: ScreenPoint;
}

/**
 * The angle between the two axes: an arc from the extension of the proximal axis to the distal axis, with
 * its readout outside it, on the far side of the distal axis.
 *
 * It stands at the crossing of the two lines. Axes that are nearly parallel cross far away, or nowhere; it
 * then stands at the proximal end of the distal axis, and the extension is drawn parallel to the proximal
 * axis. On screen a plane unit is as long in every direction, so the angle drawn is the angle measured.
 *
 * @param head - The circle that the distal axis was drawn by, which the readout keeps off; null for none.
 */
export function paintAngle(
  proximal: FilmSegment,
  distal: FilmSegment,
  projection: Projection,
  scale: StrokeScale,
  readout: Readout | null,
  head: Figure['circle'] = null,
): DrawCommand[] {
  const first = onScreen(proximal, projection);
  const second = onScreen(distal, projection);
  const u = direction(first);
  const v = direction(second);
  if (u === null || v === null) return [];
  const crossing = crossingOf(first, second);
  const vertex = crossing ?? second.from;
  const sweep = Math.atan2(u.x * v.y - u.y * v.x, u.x * v.x + u.y * v.y);
  const radius = ARC_RADIUS * scale.stroke;
  const commands: DrawCommand[] = [
    dotted([vertex, along(vertex, u, radius + 10 * scale.stroke)], STROKES.proximal.colour, scale),
  ];
  if (crossing !== null) {
    commands.push(...gap(first, crossing, STROKES.proximal.colour, scale));
    commands.push(...gap(second, crossing, STROKES.distal.colour, scale));
  }
  const beyond = (second.to.x - vertex.x) * v.x + (second.to.y - vertex.y) * v.y;
  if (beyond < radius) {
    // The arc ends beyond the distal axis, which is run on to it.
    const end = along(vertex, v, radius + 4 * scale.stroke);
    commands.push(dotted([along(vertex, v, Math.max(beyond, 0)), end], STROKES.distal.colour, scale));
  }
  if (sweep !== 0) {
    commands.push({
      kind: 'arc',
      centre: vertex,
      radius,
      startDegrees: Math.atan2(u.y, u.x) * DEGREES_PER_RADIAN,
      sweepDegrees: sweep * DEGREES_PER_RADIAN,
      colour: INK,
      width: 1.25 * scale.stroke,
      dash: [],
    });
  }
  if (readout !== null) {
    const side = sweep < 0 ? -1 : 1;
    const outwards = { x: -v.y * side, y: v.x * side };
    const nearArc = along(along(vertex, v, radius), outwards, TEXT_GAP * scale.text);
    const at =
      head === null
        ? nearArc
        : outOf(nearArc, outwards, {
            centre: toScreen(projection, head.centre),
            radius: head.radiusColumns * pixelsPerColumn(projection) + RIM_GAP * scale.text,
          });
    const align = Math.abs(outwards.x) < 0.35 ? 'centre' : outwards.x > 0 ? 'left' : 'right';
    // A centred text stands over or under the axis: half its height more keeps it clear.
    const clear = align === 'centre' ? along(at, outwards, 8 * scale.text) : at;
    commands.push({ kind: 'text', at: clear, align, runs: readoutRuns(readout, scale) });
  }
  return commands;
}

/** The point itself, or where the way in the given direction leaves the circle that it lies in. */
function outOf(
  at: ScreenPoint,
  towards: { readonly x: number; readonly y: number },
  { centre, radius }: { readonly centre: ScreenPoint; readonly radius: number },
): ScreenPoint {
  const from = { x: at.x - centre.x, y: at.y - centre.y };
  const inside = radius ** 2 - from.x ** 2 - from.y ** 2;
  if (inside <= 0) return at;
  const forwards = from.x * towards.x + from.y * towards.y;
  return along(at, towards, Math.sqrt(forwards ** 2 + inside) - forwards);
}

/** Where the two lines cross, unless that is far from one of the stretches that were placed. */
function crossingOf(first: ScreenLine, second: ScreenLine): ScreenPoint | null {
  const ux = first.to.x - first.from.x;
  const uy = first.to.y - first.from.y;
  const vx = second.to.x - second.from.x;
  const vy = second.to.y - second.from.y;
  const determinant = ux * vy - uy * vx;
  if (determinant === 0) return null;
  const wx = second.from.x - first.from.x;
  const wy = second.from.y - first.from.y;
  const onFirst = (wx * vy - wy * vx) / determinant;
  const onSecond = (wx * uy - wy * ux) / determinant;
  const tooFar = (share: number) => share < -FARTHEST_CROSSING || share > 1 + FARTHEST_CROSSING;
  return tooFar(onFirst) || tooFar(onSecond)
    ? null
    : screenPoint(first.from.x + onFirst * ux, first.from.y + onFirst * uy);
}

/** A dotted line from the nearer end of an axis to the crossing, where the axis does not reach it. */
function gap(axis: ScreenLine, crossing: ScreenPoint, colour: string, scale: StrokeScale): DrawCommand[] {
  const toFrom = distance(axis.from, crossing);
  const toTo = distance(axis.to, crossing);
  const length = distance(axis.from, axis.to);
  if (Math.max(toFrom, toTo) <= length + 0.5) return [];
  return [dotted([toFrom < toTo ? axis.from : axis.to, crossing], colour, scale)];
}

const dotted = (points: readonly ScreenPoint[], colour: string, { stroke }: StrokeScale): DrawCommand => ({
  kind: 'line',
  points,
  colour,
  width: FINE.width * stroke,
  dash: [2 * stroke, 3 * stroke],
  cap: 'butt',
});

const onScreen = ({ from, to }: FilmSegment, projection: Projection): ScreenLine => ({
  from: toScreen(projection, from),
  to: toScreen(projection, to),
});

const distance = (one: ScreenPoint, other: ScreenPoint): number =>
  Math.hypot(one.x - other.x, one.y - other.y);

const along = (
  { x, y }: ScreenPoint,
  by: { readonly x: number; readonly y: number },
  length: number,
): ScreenPoint => screenPoint(x + by.x * length, y + by.y * length);

function direction({ from, to }: ScreenLine): { readonly x: number; readonly y: number } | null {
  const length = distance(from, to);
  return length === 0 ? null : { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
}
