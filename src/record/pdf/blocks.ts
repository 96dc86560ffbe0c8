import type { PDFImage } from 'pdf-lib';
import type { Faces } from './faces.ts';
import { INK } from './ink.ts';
import { lineHeight, type Piece, type Sheet, type Style, wrapped } from './sheet.ts';

/** Something of a known height that is put into a column. */
export interface Block {
  readonly height: number;
  /** A heading does not stand alone at the foot of a column. */
  readonly keepWithNext?: boolean;
  draw(sheet: Sheet, x: number, top: number): void;
}

/** The column a block is made for, and the styles of its page. */
export interface Setting {
  readonly faces: Faces;
  readonly width: number;
  readonly styles: Styles;
}

export interface Styles {
  readonly heading: Style;
  readonly aside: Style;
  readonly label: Style;
  readonly value: Style;
  readonly plusMinus: Style;
  readonly body: Style;
  readonly strong: Style;
  readonly note: Style;
  readonly warn: Style;
  readonly caption: Style;
  readonly captionNumber: Style;
}

/** The styles of a page at a scale; 1 is the size of a printed form. */
export function stylesAt(scale: number): Styles {
  const at = (face: Style['face'], size: number, colour: Style['colour']): Style => ({
    face,
    size: size * scale,
    colour,
  });
  return {
    heading: at('serifBold', 11.5, INK.ink),
    aside: at('sans', 8.5, INK.soft),
    label: at('sans', 9.5, INK.ink),
    value: at('sansBold', 11.5, INK.ink),
    plusMinus: at('sans', 8.8, INK.soft),
    body: at('sans', 9, INK.ink),
    strong: at('sansBold', 9, INK.ink),
    note: at('sans', 7.7, INK.soft),
    warn: at('sansBold', 9, INK.warn),
    caption: at('serif', 8.8, INK.ink),
    captionNumber: at('serifItalic', 8.8, INK.ink),
  };
}

/** Distance from the top of a line to its baseline. */
const baseline = (style: Style): number => style.size * 1.02;

const heightOf = (lines: readonly (readonly Piece[])[], style: Style): number =>
  lines.length * lineHeight(style);

function drawLines(
  sheet: Sheet,
  faces: Faces,
  lines: readonly (readonly Piece[])[],
  style: Style,
  x: number,
  top: number,
): void {
  for (const [index, line] of lines.entries()) {
    let at = x;
    for (const piece of line) {
      sheet.text(piece, at, top + index * lineHeight(style) + baseline(style));
      at += faces[piece.style.face].width(piece.text, piece.style.size);
    }
  }
}

/** White before what follows. */
export const gap = (height: number): Block => ({ height, keepWithNext: true, draw: () => undefined });

/** Pieces of one size, wrapped. */
export function paragraph({ faces, width }: Setting, pieces: readonly Piece[], after = 0): Block {
  const style = pieces[0]?.style;
  if (style === undefined) return gap(0);
  const lines = wrapped(pieces, width, faces);
  return {
    height: heightOf(lines, style) + after,
    draw: (sheet, x, top) => drawLines(sheet, faces, lines, style, x, top),
  };
}

/** A heading over a hairline, with an aside at its right. */
export function heading({ faces, width, styles }: Setting, text: string, aside = ''): Block {
  const above = styles.heading.size * 0.9;
  const line = above + lineHeight(styles.heading);
  return {
    height: line + 4,
    keepWithNext: true,
    draw: (sheet, x, top) => {
      const y = top + above + baseline(styles.heading);
      sheet.text({ text, style: styles.heading }, x, y);
      const asideWidth = faces[styles.aside.face].width(aside, styles.aside.size);
      sheet.text({ text: aside, style: styles.aside }, x + width - asideWidth, y);
      sheet.line(x, top + line, x + width, top + line, INK.edge, 0.5);
    },
  };
}

/** A label with an aside after it, or under it where there is no room, and a number at its right; a hairline closes it. */
export function readingRow(
  { faces, width, styles }: Setting,
  row: {
    readonly label: string;
    readonly value: string;
    readonly plusMinus: string;
    readonly aside: string;
  },
): Block {
  const wide = (text: string, style: Style): number => faces[style.face].width(text, style.size);
  const label = wide(row.label, styles.label);
  const plusMinus = row.plusMinus === '' ? '' : ` ${row.plusMinus}`;
  const number = wide(row.value, styles.value) + wide(plusMinus, styles.plusMinus);
  const between = styles.note.size;
  const fits = label + between + wide(row.aside, styles.note) + between + number <= width;
  const under = fits ? [] : wrapped([{ text: row.aside, style: styles.note }], width, faces);
  const first = lineHeight(styles.value);
  const height = 1.5 + first + heightOf(under, styles.note) + 2;
  return {
    height,
    draw: (sheet, x, top) => {
      const y = top + 1.5 + baseline(styles.value);
      sheet.text({ text: row.label, style: styles.label }, x, y);
      if (fits) sheet.text({ text: row.aside, style: styles.note }, x + label + between, y);
      const end = x + width - wide(plusMinus, styles.plusMinus);
      sheet.text({ text: plusMinus, style: styles.plusMinus }, end, y);
      sheet.text({ text: row.value, style: styles.value }, end - wide(row.value, styles.value), y);
      drawLines(sheet, faces, under, styles.note, x, top + 1.5 + first);
      sheet.line(x, top + height, x + width, top + height, INK.rule, 0.5);
    },
  };
}

/** A line with a word in another style at its right. */
export function lineWithWord({ faces, width }: Setting, text: Piece, word: Piece): Block {
  const wide = faces[word.style.face].width(word.text, word.style.size);
  const room = width - wide - text.style.size;
  const lines = wrapped([text], room, faces);
  return {
    height: heightOf(lines, text.style),
    keepWithNext: true,
    draw: (sheet, x, top) => {
      drawLines(sheet, faces, lines, text.style, x, top);
      sheet.text(word, x + width - wide, top + baseline(text.style));
    },
  };
}

/** Wrapped pieces with a bar and a tint at their left: a caution that must not be passed over. */
export function barred({ faces, width }: Setting, pieces: readonly Piece[]): Block {
  const inset = 8;
  const [style] = pieces.map((piece) => piece.style);
  if (style === undefined) return gap(0);
  const lines = wrapped(pieces, width - inset - 5, faces);
  const box = heightOf(lines, style) + 6;
  return {
    height: box + 4,
    draw: (sheet, x, top) => {
      sheet.rectangle(x, top, width, box, INK.warnGround);
      sheet.rectangle(x, top, 1.8, box, INK.warn);
      drawLines(sheet, faces, lines, style, x + inset, top + 2.5);
    },
  };
}

/** A line with a word at its right. */
export function answerRow(
  { faces, width, styles }: Setting,
  question: string,
  answer: Piece | 'open',
): Block {
  const room = width * 0.84;
  const lines = wrapped([{ text: question, style: styles.note }], room, faces);
  return {
    height: heightOf(lines, styles.note) + 2.6,
    draw: (sheet, x, top) => {
      drawLines(sheet, faces, lines, styles.note, x, top);
      const y = top + baseline(styles.note);
      if (answer === 'open') {
        sheet.ring(x + width - 4, y - styles.note.size * 0.32, styles.note.size * 0.32, INK.warn, 0.8);
        return;
      }
      const wide = faces[answer.style.face].width(answer.text, answer.style.size);
      sheet.text(answer, x + width - wide, y);
    },
  };
}

/** A picture in a box that it fills one way, with its caption under it. */
export function figure(setting: Setting, image: PDFImage, tallest: number, caption: readonly Piece[]): Block {
  const { width } = setting;
  const fit = Math.min(width / image.width, tallest / image.height);
  const [wide, high] = [image.width * fit, image.height * fit];
  const words = paragraph(setting, caption);
  return {
    height: high + 5 + words.height + 4,
    draw: (sheet, x, top) => {
      sheet.image(image, x, top, wide, high);
      words.draw(sheet, x, top + high + 5);
    },
  };
}
