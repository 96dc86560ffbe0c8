import {
  type Color,
  endMarkedContent,
  PDFHexString,
  type PDFImage,
  PDFName,
  PDFOperator,
  PDFOperatorNames,
  type PDFPage,
} from 'pdf-lib';
import { brokenToFit } from '../words/break-word.ts';
import type { FaceName, Faces } from './faces.ts';
import type { Making } from './page.ts';
import type { PageMark } from './page-drawing.ts';

/** A4 in points. */
export const PAGE = { width: 595.28, height: 841.89 } as const;

/** How a text is set. */
export interface Style {
  readonly face: FaceName;
  /** Points. */
  readonly size: number;
  readonly colour: Color;
}

/** A part of a line of text in one style. */
export interface Piece {
  readonly text: string;
  readonly style: Style;
}

/** Distance of baselines as a multiple of the size. */
const LEADING = 1.32;

export const lineHeight = ({ size }: Style): number => size * LEADING;

/** The colour as CSS has it. Throws for one that is not made of red, green and blue: all of ours are. */
function cssOf(colour: Color): string {
  if (!('red' in colour)) throw new TypeError('a colour of red, green and blue');
  const { red, green, blue } = colour;
  return `rgb(${[red, green, blue].map((part) => Math.round(255 * part)).join(' ')})`;
}

/** One page with the origin at its top left corner and y downwards; what its fonts cannot set goes into `missing`. */
export class Sheet {
  readonly #page: PDFPage;
  readonly #faces: Faces;
  readonly #missing: Set<string>;
  readonly #drawing: PageMark[] = [];

  /** A new page at the end of the document. */
  constructor({ document, faces, missing, pages }: Making) {
    this.#page = document.addPage([PAGE.width, PAGE.height]);
    this.#faces = faces;
    this.#missing = missing;
    pages.push(this.#drawing);
  }

  /** Text with its baseline at y. */
  text({ text, style }: Piece, x: number, y: number): void {
    const face = this.#faces[style.face];
    for (const character of face.missing(text)) this.#missing.add(character);
    let at = x;
    for (const run of face.runs(text)) {
      const width = run.font.widthOfTextAtSize(run.text, style.size);
      const draw = () => {
        this.#page.drawText(run.text, {
          x: at,
          y: PAGE.height - y,
          font: run.font,
          size: style.size,
          color: style.colour,
        });
        const { face: name, size, colour } = style;
        this.#drawing.push({
          kind: 'text',
          text: run.text,
          x: at,
          y,
          width,
          size,
          face: name,
          colour: cssOf(colour),
        });
      };
      if (run.composed === null) draw();
      else {
        this.#standingFor(run.composed, () => {
          draw();
          const under = y + style.size * 0.06;
          this.line(at + width * 0.1, under, at + width * 0.9, under, style.colour, style.size * 0.065);
        });
      }
      at += width;
    }
  }

  /** Marks what is drawn as standing for a text, for readers that copy or read aloud (ISO 32000-1, 14.9.4). */
  #standingFor(text: string, draw: () => void): void {
    const properties = `<</ActualText ${PDFHexString.fromText(text)}>>`;
    this.#page.pushOperators(
      PDFOperator.of(PDFOperatorNames.BeginMarkedContentSequence, [PDFName.of('Span'), properties]),
    );
    draw();
    this.#page.pushOperators(endMarkedContent());
  }

  line(
    fromX: number,
    fromY: number,
    toX: number,
    toY: number,
    colour: Color,
    thickness: number,
    dash: readonly number[] = [],
  ): void {
    this.#page.drawLine({
      start: { x: fromX, y: PAGE.height - fromY },
      end: { x: toX, y: PAGE.height - toY },
      color: colour,
      thickness,
      ...(dash.length === 0 ? {} : { dashArray: [...dash] }),
    });
    this.#drawing.push({
      kind: 'line',
      from: [fromX, fromY],
      to: [toX, toY],
      colour: cssOf(colour),
      thickness,
      dash,
    });
  }

  rectangle(x: number, top: number, width: number, height: number, fill: Color): void {
    this.#page.drawRectangle({ x, y: PAGE.height - top - height, width, height, color: fill });
    this.#drawing.push({ kind: 'rectangle', x, y: top, width, height, fill: cssOf(fill) });
  }

  disc(x: number, y: number, radius: number, fill: Color): void {
    this.#page.drawCircle({ x, y: PAGE.height - y, size: radius, color: fill });
    this.#drawing.push({ kind: 'circle', x, y, radius, fill: cssOf(fill), stroke: null, thickness: 0 });
  }

  ring(x: number, y: number, radius: number, colour: Color, thickness: number): void {
    this.#page.drawCircle({
      x,
      y: PAGE.height - y,
      size: radius,
      borderColor: colour,
      borderWidth: thickness,
    });
    this.#drawing.push({ kind: 'circle', x, y, radius, fill: null, stroke: cssOf(colour), thickness });
  }

  /** An SVG path whose coordinates are those of the page. */
  path(path: string, fill: Color | null, stroke: Color | null, thickness: number): void {
    this.#page.drawSvgPath(path, {
      x: 0,
      y: PAGE.height,
      ...(fill === null ? {} : { color: fill }),
      ...(stroke === null ? {} : { borderColor: stroke, borderWidth: thickness }),
    });
    this.#drawing.push({
      kind: 'path',
      path,
      fill: fill === null ? null : cssOf(fill),
      stroke: stroke === null ? null : cssOf(stroke),
      thickness,
    });
  }

  image(image: PDFImage, x: number, top: number, width: number, height: number): void {
    this.#page.drawImage(image, { x, y: PAGE.height - top - height, width, height });
    this.#drawing.push({ kind: 'picture', x, y: top, width, height });
  }
}

/** Where the words of pieces break into lines of a width, each line a row of pieces. */
export function wrapped(
  pieces: readonly Piece[],
  width: number,
  faces: Faces,
): readonly (readonly Piece[])[] {
  const lines: Piece[][] = [[]];
  let used = 0;
  for (const { text, style } of pieces) {
    const face = faces[style.face];
    // A thin space holds a number and its unit together, and is no place to break.
    const wide = (word: string) => face.width(word.trimEnd(), style.size);
    for (const word of text.split(/(?<= )/)) {
      for (const piece of brokenToFit(word, (one) => wide(one) <= width)) {
        if (used > 0 && used + wide(piece) > width) {
          lines.push([]);
          used = 0;
        }
        lines.at(-1)?.push({ text: piece, style });
        used += face.width(piece, style.size);
      }
    }
  }
  return lines.map(joined);
}

/** Neighbours of the same style as one piece: fewer operators, and words that can be found by searching. */
function joined(line: readonly Piece[]): readonly Piece[] {
  const pieces: Piece[] = [];
  for (const piece of line) {
    const last = pieces.at(-1);
    if (last !== undefined && last.style === piece.style) {
      pieces[pieces.length - 1] = { text: last.text + piece.text, style: last.style };
    } else {
      pieces.push(piece);
    }
  }
  return pieces;
}
