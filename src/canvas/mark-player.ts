import Konva from 'konva/lib/Core.js';
import type { Group } from 'konva/lib/Group.js';
import type { Shape } from 'konva/lib/Shape.js';
import { Circle } from 'konva/lib/shapes/Circle.js';
import { Line } from 'konva/lib/shapes/Line.js';
import { Rect } from 'konva/lib/shapes/Rect.js';
import { Text } from 'konva/lib/shapes/Text.js';
import type { DrawCommand } from '../drawing/draw-command.ts';
import { CASING_COLOUR, CASING_EDGE, TEXT_CASING_COLOUR } from '../drawing/strokes.ts';

/** As self-hosted by the app; canvas text does not ask for them by itself. */
export const FONTS = ['16px "Source Serif 4"', '16px "Source Sans 3"'] as const;
const FACES = {
  serif: '"Source Serif 4", Georgia, serif',
  sans: '"Source Sans 3", "Segoe UI", sans-serif',
} as const;
/** Nothing on the plate is hit through Konva: the nearest control point is found in `control-hit.ts`. */
const PLAIN = { listening: false, perfectDrawEnabled: false, shadowForStrokeEnabled: false } as const;
/** Dark edge of text, CSS pixels on either side. */
const TEXT_EDGE = 1.75;

/**
 * Plays drawing lists into Konva groups. The nodes of a group are kept and set anew as long as the list has
 * the same kinds in the same order, which it has from one pointer move to the next.
 */
export class MarkPlayer {
  private readonly kinds = new WeakMap<Group, string>();

  /** Makes `group` show `commands`, all casings under all strokes. Nothing is drawn until its layer is. */
  play(group: Group, commands: readonly DrawCommand[]): void {
    const kinds = commands.map(signature).join();
    if (this.kinds.get(group) !== kinds) {
      group.destroyChildren();
      const parts = commands.map(nodesFor);
      for (const { under } of parts) group.add(...under);
      for (const { over } of parts) group.add(...over);
      this.kinds.set(group, kinds);
    }
    const nodes = group.getChildren() as Shape[];
    const unders = commands.filter(({ kind }) => kind !== 'text').length;
    let under = 0;
    let over = unders;
    for (const command of commands) {
      if (command.kind === 'text') {
        over = setText(nodes, over, command);
      } else {
        setStroke(nodes[under++]!, command, true);
        setStroke(nodes[over++]!, command, false);
      }
    }
  }
}

export const newGroup = (): Group => new Konva.Group({ listening: false });

const signature = (command: DrawCommand): string =>
  command.kind === 'text' ? `text${command.runs.length}` : command.kind;

function nodesFor(command: DrawCommand): { readonly under: Shape[]; readonly over: Shape[] } {
  if (command.kind === 'text') return { under: [], over: command.runs.map(() => new Text(PLAIN)) };
  return { under: [strokeNode(command.kind)], over: [strokeNode(command.kind)] };
}

function strokeNode(kind: Exclude<DrawCommand['kind'], 'text'>): Shape {
  switch (kind) {
    case 'line':
    case 'arc':
      return new Line(PLAIN);
    case 'circle':
      return new Circle({ ...PLAIN, radius: 0 });
    case 'square':
      return new Rect(PLAIN);
  }
}

function setStroke(node: Shape, command: Exclude<DrawCommand, { kind: 'text' }>, casing: boolean): void {
  const edge = casing ? 2 * CASING_EDGE : 0;
  const stroke = {
    stroke: casing ? CASING_COLOUR : command.colour,
    strokeWidth: command.width + edge,
  };
  // Konva takes every array for a change.
  if (node.dash()?.join() !== command.dash.join()) node.dash([...command.dash]);
  switch (command.kind) {
    case 'line':
      // A butt end would leave the end of the stroke without its casing.
      node.setAttrs({
        ...stroke,
        points: command.points.flatMap(({ x, y }) => [x, y]),
        lineCap: casing && command.cap === 'butt' && command.dash.length === 0 ? 'square' : command.cap,
      });
      break;
    case 'circle':
      node.setAttrs({ ...stroke, ...command.centre, radius: command.radius });
      break;
    case 'square':
      node.setAttrs({
        ...stroke,
        x: command.centre.x - command.half,
        y: command.centre.y - command.half,
        width: 2 * command.half,
        height: 2 * command.half,
      });
      break;
    case 'arc':
      node.setAttrs({ ...stroke, points: arcPoints(command), lineCap: 'butt' });
  }
}

const RADIANS_PER_STEP = Math.PI / 90;

/** An arc as a line of steps of 2° at most: Konva's own is an outline of two arcs, which spoils dashes. */
function arcPoints({
  centre,
  radius,
  startDegrees,
  sweepDegrees,
}: Extract<DrawCommand, { kind: 'arc' }>): number[] {
  const start = (startDegrees * Math.PI) / 180;
  const sweep = (sweepDegrees * Math.PI) / 180;
  const steps = Math.max(1, Math.ceil(Math.abs(sweep) / RADIANS_PER_STEP));
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angle = start + (sweep * step) / steps;
    return [centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle)];
  }).flat();
}

/** Sets the runs of a text one after the other on a common base line; gives the index after the last. */
function setText(
  nodes: Shape[],
  from: number,
  { at, align, runs }: Extract<DrawCommand, { kind: 'text' }>,
): number {
  const texts = nodes.slice(from, from + runs.length) as Text[];
  runs.forEach((run, index) => {
    texts[index]!.setAttrs({
      text: run.text,
      fontFamily: FACES[run.face],
      fontSize: run.size,
      fill: run.colour,
      stroke: TEXT_CASING_COLOUR,
      strokeWidth: 2 * TEXT_EDGE,
      fillAfterStrokeEnabled: true,
      lineJoin: 'round',
    });
  });
  const widths = texts.map((text) => text.width());
  const whole = widths.reduce((sum, width) => sum + width, 0);
  const largest = Math.max(...runs.map(({ size }) => size));
  let x = at.x - (align === 'left' ? 0 : align === 'right' ? whole : whole / 2);
  texts.forEach((text, index) => {
    // Konva stands a line of text in a box as high as its font size, with the base line near 0.8 of it.
    const { size } = runs[index]!;
    text.position({ x, y: at.y - largest / 2 + 0.8 * (largest - size) });
    x += widths[index]!;
  });
  return from + runs.length;
}
