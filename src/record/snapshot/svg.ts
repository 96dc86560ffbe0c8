import { encode } from 'fast-png';
import type { RecordId } from '../../case/document.ts';
import type { DrawCommand, TextRun } from '../../drawing/draw-command.ts';
import { CASING_COLOUR, TEXT_CASING_COLOUR } from '../../drawing/strokes.ts';
import { casingWidth, textCasingWidth } from './casing.ts';
import type { GreyPicture } from './film-picture.ts';
import type { MeasureText } from './panel.ts';
import type { PlannedFilm, SnapshotPlan } from './snapshot-plan.ts';

const FACES: Readonly<Record<TextRun['face'], string>> = {
  serif: "'Source Serif 4', Georgia, serif",
  sans: "'Source Sans 3', 'Segoe UI', sans-serif",
};
const ANCHORS = { left: 'start', centre: 'middle', right: 'end' } as const;

/**
 * The snapshot as SVG 1.1 and nothing newer: text stays text, lines stay lines, each film is one embedded picture
 * that holds what is shown and no more. A text on a film stands with its casing in the file once, and is used again
 * without it on top (5.6): the stroke is of the group round it and does not come along. The fonts are named and not held, so each text says its length (10.5, textLength): with other
 * fonts it is set wider or closer, and nothing runs over what stands beside it.
 *
 * @param measure - The one that the plan was made with.
 */
export function snapshotSvg(
  plan: SnapshotPlan,
  pictures: ReadonlyMap<RecordId, GreyPicture>,
  measure: MeasureText,
): string {
  const { width, height, palette, strokeScale } = plan;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<rect width="${width}" height="${height}" fill="${palette.paper}"/>`,
    ...plan.films.flatMap((film, index) =>
      filmElements(film, index, pictures.get(film.id), strokeScale, measure),
    ),
    ...plan.panels.flatMap(({ x, y, commands }) => [
      `<g transform="translate(${round(x)} ${round(y)}) scale(${round(strokeScale)})" fill="none">`,
      ...commands.map((command) =>
        command.kind === 'text' ? textElement(command, measure) : strokedElement(command, 'plain'),
      ),
      '</g>',
    ]),
    '</svg>',
    '',
  ].join('\n');
}

function filmElements(
  { x, y, width, height, marks }: PlannedFilm,
  index: number,
  picture: GreyPicture | undefined,
  strokeScale: number,
  measure: MeasureText,
): readonly string[] {
  const place = `width="${width}" height="${height}"`;
  return [
    `<clipPath id="film-${index + 1}"><rect ${place}/></clipPath>`,
    `<g transform="translate(${x} ${y})">`,
    ...(picture === undefined
      ? []
      : [`<image ${place} preserveAspectRatio="none" xlink:href="${pngAddress(picture)}"/>`]),
    `<g clip-path="url(#film-${index + 1})"><g transform="scale(${round(strokeScale)})" fill="none" stroke-linejoin="round">`,
    ...marks.flatMap((command) => (command.kind === 'text' ? [] : [strokedElement(command, 'casing')])),
    ...marks.map((command, mark) =>
      command.kind === 'text'
        ? casedText(command, `text-${index + 1}-${mark + 1}`, measure)
        : strokedElement(command, 'cased'),
    ),
    '</g></g>',
    '</g>',
  ];
}

/** The picture as a PNG in a `data:` address: grey of 8 bits, of any size, and nothing beside the pixels. */
function pngAddress({ columns, rows, grey }: GreyPicture): string {
  const png = encode({ width: columns, height: rows, data: grey, channels: 1, depth: 8 });
  let binary = '';
  // As many characters at a time as a call takes arguments anywhere.
  for (let at = 0; at < png.length; at += 8192) {
    binary += String.fromCharCode(...png.subarray(at, at + 8192));
  }
  return `data:image/png;base64,${btoa(binary)}`;
}

/** A colour that lets through says so apart: the colours of SVG 1.1 are opaque (4.2, 11.2). */
function paint(property: 'fill' | 'stroke', colour: string): string {
  const [, red, green, blue, opacity] = /^rgba\((\d+), (\d+), (\d+), ([\d.]+)\)$/.exec(colour) ?? [];
  return opacity === undefined
    ? `${property}="${colour}"`
    : `${property}="rgb(${red}, ${green}, ${blue})" ${property}-opacity="${opacity}"`;
}

type Layer = 'casing' | 'cased' | 'plain';

type TextCommand = Extract<DrawCommand, { kind: 'text' }>;

function strokedElement(command: Exclude<DrawCommand, TextCommand>, layer: Layer): string {
  const paint = strokeAttributes(command, layer);
  switch (command.kind) {
    case 'line':
      return `<polyline points="${command.points.map(({ x, y }) => `${round(x)},${round(y)}`).join(' ')}" stroke-linecap="${command.cap}" ${paint}/>`;
    case 'circle':
      return `<circle cx="${round(command.centre.x)}" cy="${round(command.centre.y)}" r="${round(command.radius)}" ${paint}/>`;
    case 'square': {
      const { centre, half } = command;
      return `<rect x="${round(centre.x - half)}" y="${round(centre.y - half)}" width="${round(2 * half)}" height="${round(2 * half)}" ${paint}/>`;
    }
    case 'arc':
      return `<path d="${arcPath(command)}" ${paint}/>`;
  }
}

function strokeAttributes(command: Exclude<DrawCommand, TextCommand>, layer: Layer): string {
  const dash = command.dash.length === 0 ? '' : ` stroke-dasharray="${command.dash.map(round).join(' ')}"`;
  return layer === 'casing'
    ? `${paint('stroke', CASING_COLOUR)} stroke-width="${round(casingWidth(command.width))}"${dash}`
    : `${paint('stroke', command.colour)} stroke-width="${round(command.width)}"${dash}`;
}

/** A text with its casing under it. */
function casedText(command: TextCommand, id: string, measure: MeasureText): string {
  const width = round(textCasingWidth(sizeOf(command)));
  return `<g ${paint('stroke', TEXT_CASING_COLOUR)} stroke-width="${width}">${textElement(command, measure, ` id="${id}"`)}</g><use xlink:href="#${id}"/>`;
}

const sizeOf = ({ runs }: TextCommand): number => Math.max(...runs.map(({ size }) => size));

function textElement(command: TextCommand, measure: MeasureText, id = ''): string {
  const runs = command.runs.map(
    ({ text, face, size, colour }) =>
      `<tspan font-family="${FACES[face]}" font-size="${round(size)}" ${paint('fill', colour)}>${escaped(text)}</tspan>`,
  );
  // A third of the size below the middle is the base line of upright figures.
  const size = sizeOf(command);
  const length = command.runs.reduce((sum, { text, face, size: high }) => sum + measure(text, face, high), 0);
  const fitted = length > 0 ? ` textLength="${round(length)}" lengthAdjust="spacingAndGlyphs"` : '';
  return `<text${id} x="${round(command.at.x)}" y="${round(command.at.y + size * 0.34)}" text-anchor="${ANCHORS[command.align]}" xml:space="preserve"${fitted}>${runs.join('')}</text>`;
}

function arcPath({
  centre,
  radius,
  startDegrees,
  sweepDegrees,
}: Extract<DrawCommand, { kind: 'arc' }>): string {
  const at = (degrees: number) => {
    const turn = (degrees * Math.PI) / 180;
    return `${round(centre.x + radius * Math.cos(turn))} ${round(centre.y + radius * Math.sin(turn))}`;
  };
  const large = Math.abs(sweepDegrees) > 180 ? 1 : 0;
  const clockwise = sweepDegrees > 0 ? 1 : 0;
  return `M${at(startDegrees)}A${round(radius)} ${round(radius)} 0 ${large} ${clockwise} ${at(startDegrees + sweepDegrees)}`;
}

const round = (value: number): string => String(Math.round(value * 1000) / 1000);

const escaped = (text: string): string =>
  text.replace(
    /[&<>"]/g,
    (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign] ?? sign,
  );
