import type { RecordId } from '../../case/document.ts';
import type { DrawCommand, TextRun } from '../../drawing/draw-command.ts';
import { CASING_COLOUR, TEXT_CASING_COLOUR } from '../../drawing/strokes.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { barePng } from './bare-png.ts';
import { casingWidth, textCasingWidth } from './casing.ts';
import { type GreyPicture, imageDataOf } from './film-picture.ts';
import type { MeasureText } from './panel.ts';
import type { SnapshotError } from './plan.ts';
import type { PlannedFilm, SnapshotPlan } from './snapshot-plan.ts';

const FACES: Readonly<Record<TextRun['face'], string>> = {
  serif: '"Source Serif 4", Georgia, serif',
  sans: '"Source Sans 3", "Segoe UI", sans-serif',
};
/** Px; the longest side that every current browser draws. */
const LONGEST_SIDE = 16_384;

type Context = OffscreenCanvasRenderingContext2D;

/** Measures text with the fonts of the page; load them before. */
export function measureWithCanvas(): MeasureText {
  const context = new OffscreenCanvas(1, 1).getContext('2d')!;
  return (text, face, size) => {
    context.font = `${size}px ${FACES[face]}`;
    return context.measureText(text).width;
  };
}

/** The whole snapshot drawn. Failing with `too-large` leaves SVG as the way out. */
export function drawSnapshot(
  plan: SnapshotPlan,
  pictures: ReadonlyMap<RecordId, GreyPicture>,
): Result<OffscreenCanvas, SnapshotError> {
  const { width, height } = plan;
  const context = contextOf(width, height);
  if (context === null) return failure({ kind: 'too-large', width, height });
  context.fillStyle = plan.palette.paper;
  context.fillRect(0, 0, width, height);
  for (const film of plan.films) {
    const picture = pictures.get(film.id);
    if (picture === undefined) return failure({ kind: 'no-such-film' });
    const stored = contextOf(picture.columns, picture.rows);
    if (stored === null) return failure({ kind: 'too-large', width: picture.columns, height: picture.rows });
    stored.putImageData(imageDataOf(picture), 0, 0);
    drawFilm(context, film, stored.canvas, plan.strokeScale);
  }
  for (const { x, y, commands } of plan.panels) {
    context.save();
    context.translate(x, y);
    context.scale(plan.strokeScale, plan.strokeScale);
    for (const command of commands) draw(context, command, false);
    context.restore();
  }
  return success(context.canvas);
}

/** The snapshot as a PNG file: pixels, their size where it is known, and nothing else. */
export async function snapshotPng(
  canvas: OffscreenCanvas,
  { pixelsPerMm }: Pick<SnapshotPlan, 'pixelsPerMm'>,
): Promise<Uint8Array<ArrayBuffer>> {
  const blob = await canvas.convertToBlob({ type: 'image/png' });
  return barePng(new Uint8Array(await blob.arrayBuffer()), pixelsPerMm);
}

/**
 * A canvas of this size, or null where the browser has none: browsers differ in the most they draw, and one that
 * is too large is drawn blank without a word. So the last pixel is painted and looked at.
 */
function contextOf(width: number, height: number): Context | null {
  if (Math.max(width, height) > LONGEST_SIDE) return null;
  const context = new OffscreenCanvas(width, height).getContext('2d');
  if (context === null) return null;
  context.fillRect(width - 1, height - 1, 1, 1);
  const [, , , opacity] = context.getImageData(width - 1, height - 1, 1, 1).data;
  return opacity === 255 ? context : null;
}

function drawFilm(
  context: Context,
  { x, y, width, height, marks }: PlannedFilm,
  film: OffscreenCanvas,
  strokeScale: number,
): void {
  context.save();
  // Enlarged by a whole number its pixels stay what they are; reduced they are averaged.
  context.imageSmoothingEnabled = width < film.width;
  context.imageSmoothingQuality = 'high';
  context.drawImage(film, x, y, width, height);
  context.beginPath();
  context.rect(x, y, width, height);
  context.clip();
  context.translate(x, y);
  context.scale(strokeScale, strokeScale);
  context.lineJoin = 'round';
  for (const command of marks) if (command.kind !== 'text') stroke(context, command, true);
  for (const command of marks) draw(context, command, true);
  context.restore();
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
  context.lineWidth = casing ? casingWidth(command.width) : command.width;
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
      context.strokeStyle = TEXT_CASING_COLOUR;
      context.lineWidth = textCasingWidth(size);
      context.strokeText(run.text, x, y);
    }
    context.fillStyle = run.colour;
    context.fillText(run.text, x, y);
    x += widths[i] ?? 0;
  }
}
