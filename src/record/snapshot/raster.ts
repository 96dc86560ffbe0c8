import type { DrawCommand, TextRun } from '../../drawing/draw-command.ts';
import { CASING_COLOUR, CASING_EDGE } from '../../drawing/strokes.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { type MeasureText, PAPER } from './panel.ts';
import type { SnapshotError, SnapshotPlan } from './plan.ts';

const FACES: Readonly<Record<TextRun['face'], string>> = {
  serif: '"Source Serif 4", Georgia, serif',
  sans: '"Source Sans 3", "Segoe UI", sans-serif',
};
const TEXT_EDGE = 3;
/** The largest side that every current browser draws. */
const MOST_PIXELS = 16_384;

type Context = OffscreenCanvasRenderingContext2D;

/** Measures text with the fonts of the page; load them before. */
export function measureWithCanvas(): MeasureText {
  const context = new OffscreenCanvas(1, 1).getContext('2d')!;
  return (text, face, size) => {
    context.font = `${size}px ${FACES[face]}`;
    return context.measureText(text).width;
  };
}

/** Draws the snapshot. Failing with `too-large` leaves SVG as the way out. */
export async function snapshotPng(plan: SnapshotPlan, film: ImageData): Promise<Result<Blob, SnapshotError>> {
  const { width, height, strokeScale, panelAt } = plan;
  if (Math.max(width, height) > MOST_PIXELS)
    return failure({ kind: 'too-large', width, height, most: MOST_PIXELS });
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = PAPER;
  context.fillRect(0, 0, width, height);
  context.fillStyle = '#000000';
  context.fillRect(0, 0, plan.film.width, height);
  const stored = new OffscreenCanvas(film.width, film.height);
  stored.getContext('2d')!.putImageData(film, 0, 0);
  context.imageSmoothingEnabled = false;
  context.drawImage(stored, 0, 0, plan.film.width, plan.film.height);

  context.save();
  context.beginPath();
  context.rect(0, 0, plan.film.width, plan.film.height);
  context.clip();
  context.scale(strokeScale, strokeScale);
  context.lineJoin = 'round';
  for (const command of plan.marks) if (command.kind !== 'text') stroke(context, command, true);
  for (const command of plan.marks) draw(context, command, true);
  context.restore();

  context.translate(panelAt.x, panelAt.y);
  context.scale(strokeScale, strokeScale);
  for (const command of plan.panel) draw(context, command, false);
  return success(await canvas.convertToBlob({ type: 'image/png' }));
}

function draw(context: Context, command: DrawCommand, cased: boolean): void {
  if (command.kind !== 'text') stroke(context, command, false);
  else text(context, command, cased);
}

function stroke(context: Context, command: Exclude<DrawCommand, { kind: 'text' }>, casing: boolean): void {
  context.beginPath();
  switch (command.kind) {
    case 'line':
      for (const { x, y } of command.points) context.lineTo(x, y);
      break;
    case 'circle':
      context.arc(command.centre.x, command.centre.y, command.radius, 0, 2 * Math.PI);
      break;
    case 'square':
      context.rect(
        command.centre.x - command.half,
        command.centre.y - command.half,
        2 * command.half,
        2 * command.half,
      );
      break;
    case 'arc': {
      const start = (command.startDegrees * Math.PI) / 180;
      const sweep = (command.sweepDegrees * Math.PI) / 180;
      context.arc(command.centre.x, command.centre.y, command.radius, start, start + sweep, sweep < 0);
    }
  }
  context.setLineDash([...command.dash]);
  context.lineCap = command.kind === 'line' ? command.cap : 'butt';
  context.strokeStyle = casing ? CASING_COLOUR : command.colour;
  context.lineWidth = command.width + (casing ? 2 * CASING_EDGE : 0);
  context.stroke();
}

function text(context: Context, command: Extract<DrawCommand, { kind: 'text' }>, cased: boolean): void {
  context.setLineDash([]);
  context.textBaseline = 'alphabetic';
  const size = Math.max(...command.runs.map((run) => run.size));
  const widths = command.runs.map((run) => {
    context.font = `${run.size}px ${FACES[run.face]}`;
    return context.measureText(run.text).width;
  });
  const whole = widths.reduce((sum, width) => sum + width, 0);
  const y = command.at.y + size * 0.34;
  let x = command.at.x - (command.align === 'left' ? 0 : command.align === 'right' ? whole : whole / 2);
  for (const [i, run] of command.runs.entries()) {
    context.font = `${run.size}px ${FACES[run.face]}`;
    if (cased) {
      context.strokeStyle = CASING_COLOUR;
      context.lineWidth = TEXT_EDGE;
      context.strokeText(run.text, x, y);
    }
    context.fillStyle = run.colour;
    context.fillText(run.text, x, y);
    x += widths[i] ?? 0;
  }
}
