import type { DrawCommand } from '../../drawing/draw-command.ts';
import { type ScreenPoint, screenPoint } from '../../geometry/units.ts';
import type { MeasureText } from './panel.ts';

type Label = Extract<DrawCommand, { kind: 'text' }>;
type Stroke = Exclude<DrawCommand, Label>;

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Drawing units: free film round a label, how finely a stroke is looked at, and how far a label may move. */
const CLEAR = 4;
const EVERY = 3;
const STEP = 6;
const FARTHEST = 180;
const DIRECTIONS = 16;

/**
 * Moves each label that lies on a stroke, on another label or over the border to the nearest place where it lies
 * on none; one for which there is no such place stays. On the plate a label can be looked under by magnifying;
 * a picture is as it is.
 */
export function clearLabels(
  commands: readonly DrawCommand[],
  size: { readonly width: number; readonly height: number },
  measure: MeasureText,
): readonly DrawCommand[] {
  const inked = commands.flatMap((command) => (command.kind === 'text' ? [] : pointsOf(command)));
  const taken: Box[] = [];
  const isClear = (box: Box): boolean =>
    box.left >= 0 &&
    box.top >= 0 &&
    box.right <= size.width &&
    box.bottom <= size.height &&
    !taken.some((other) => overlap(box, other)) &&
    !inked.some((point) => holds(box, point));
  return commands.map((command) => {
    if (command.kind !== 'text') return command;
    const moved = placesAround(command).find((place) => isClear(boxOf(place, measure))) ?? command;
    taken.push(boxOf(moved, measure));
    return moved;
  });
}

/** The label where it is, and round there, nearest first. */
function placesAround(label: Label): readonly Label[] {
  const places: Label[] = [label];
  for (let distance = STEP; distance <= FARTHEST; distance += STEP) {
    for (let index = 0; index < DIRECTIONS; index += 1) {
      const turn = (2 * Math.PI * index) / DIRECTIONS;
      const { x, y } = label.at;
      places.push({
        ...label,
        at: screenPoint(x + distance * Math.cos(turn), y + distance * Math.sin(turn)),
      });
    }
  }
  return places;
}

/** What a label covers, with the free film round it. */
function boxOf({ at, align, runs }: Label, measure: MeasureText): Box {
  const width = runs.reduce((sum, { text, face, size }) => sum + measure(text, face, size), 0);
  const half = Math.max(...runs.map(({ size }) => size)) * 0.5;
  const left = at.x - (align === 'left' ? 0 : align === 'right' ? width : width / 2);
  return {
    left: left - CLEAR,
    right: left + width + CLEAR,
    top: at.y - half - CLEAR,
    bottom: at.y + half + CLEAR,
  };
}

const overlap = (one: Box, other: Box): boolean =>
  one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;

const holds = ({ left, right, top, bottom }: Box, { x, y }: ScreenPoint): boolean =>
  x > left && x < right && y > top && y < bottom;

/** Points along a stroke, near enough to one another that no label fits between two of them. */
function pointsOf(stroke: Stroke): readonly ScreenPoint[] {
  switch (stroke.kind) {
    case 'line':
      return stroke.points.flatMap((to, index) => between(stroke.points[index - 1] ?? to, to));
    case 'square': {
      const { centre, half } = stroke;
      return around(centre, half * Math.SQRT2, 0, 360);
    }
    case 'circle':
      return around(stroke.centre, stroke.radius, 0, 360);
    case 'arc':
      return around(stroke.centre, stroke.radius, stroke.startDegrees, stroke.sweepDegrees);
  }
}

function between(from: ScreenPoint, to: ScreenPoint): readonly ScreenPoint[] {
  const count = Math.max(1, Math.ceil(Math.hypot(to.x - from.x, to.y - from.y) / EVERY));
  return Array.from({ length: count + 1 }, (_, index) =>
    screenPoint(from.x + ((to.x - from.x) * index) / count, from.y + ((to.y - from.y) * index) / count),
  );
}

function around(centre: ScreenPoint, radius: number, startDegrees: number, sweepDegrees: number) {
  const sweep = (sweepDegrees * Math.PI) / 180;
  const count = Math.max(1, Math.ceil((radius * Math.abs(sweep)) / EVERY));
  return Array.from({ length: count + 1 }, (_, index) => {
    const turn = (startDegrees * Math.PI) / 180 + (sweep * index) / count;
    return screenPoint(centre.x + radius * Math.cos(turn), centre.y + radius * Math.sin(turn));
  });
}
