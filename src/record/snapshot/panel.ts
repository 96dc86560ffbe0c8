import type { DrawCommand, TextRun } from '../../drawing/draw-command.ts';
import { type ScreenPoint, screenPoint } from '../../geometry/units.ts';
import type { SnapshotContent } from './content.ts';
import { rulerCommands } from './ruler.ts';

/** Width of a text in px at a size; from the shell, since only it has fonts. */
export type MeasureText = (text: string, face: TextRun['face'], size: number) => number;

/** The written side of a snapshot: drawing commands in px of the panel, and how high it came out. */
export interface Panel {
  readonly commands: readonly DrawCommand[];
  readonly height: number;
}

/** Paper, ink and one warning tone, as on the bench (src/ui/look/tokens.css). */
export const PAPER = '#f7f5f0';
export const INK = '#1d2228';
const SOFT = '#545d67';
const RULE = '#d9d4c8';
const WARN = '#8a3b12';

/** A snapshot is read on its own: this many cautions, worst first, and a count of the rest. */
const MOST_CAUTIONS = 5;

/** Sets the panel from top to bottom, wrapping text to the width. Pure. */
export function setPanel(content: SnapshotContent, width: number, measure: MeasureText): Panel {
  const sheet = new Sheet(width, measure);
  sheet.text(content.title, { face: 'serif', size: 25 });
  sheet.text(content.caption, { size: 15, colour: SOFT });
  sheet.space(8);
  for (const reading of content.readings) {
    sheet.row(reading.name, `${reading.value} ${reading.plusMinus}`);
    if (reading.note !== '') sheet.text(reading.note, { size: 12.5, colour: SOFT });
    sheet.rule();
  }
  if (content.outcome !== null) {
    const { outcome } = content;
    sheet.space(8);
    sheet.text('Against the limits', { face: 'serif', size: 18 });
    sheet.text(`${outcome.limitSet}. Source: ${outcome.source}`, { size: 12.5, colour: SOFT });
    sheet.add(rulerCommands(outcome, width, sheet.y + 6), 62);
    sheet.text(outcome.words, { size: 15 });
  }
  if (content.cautions.length > 0) {
    sheet.space(8);
    sheet.text('Cautions', { face: 'serif', size: 18 });
    for (const { title, why } of content.cautions.slice(0, MOST_CAUTIONS)) {
      sheet.text(`${title}.`, { size: 14, colour: WARN });
      sheet.text(why, { size: 13 });
      sheet.space(3);
    }
    const more = content.cautions.length - MOST_CAUTIONS;
    if (more > 0) sheet.text(`and ${more} more.`, { size: 13 });
  }
  if (content.notChecked.length > 0) {
    sheet.space(8);
    sheet.text('Not checked', { face: 'serif', size: 18 });
    for (const question of content.notChecked) sheet.text(`– ${question}`, { size: 13 });
  }
  sheet.space(10);
  sheet.rule();
  for (const line of content.foot) sheet.text(line, { size: 12.5, colour: SOFT });
  return { commands: sheet.commands, height: sheet.y };
}

interface TextStyle {
  readonly face?: TextRun['face'];
  readonly size: number;
  readonly colour?: string;
}

/** Line height as a multiple of the size of the text. */
const LEADING = 1.32;

/** A column of text that grows downwards. */
class Sheet {
  readonly commands: DrawCommand[] = [];
  y = 0;

  constructor(
    private readonly width: number,
    private readonly measure: MeasureText,
  ) {}

  text(text: string, { face = 'sans', size, colour = INK }: TextStyle): void {
    for (const line of this.wrapped(text, face, size)) {
      this.put(screenPoint(0, this.y + (size * LEADING) / 2), 'left', [{ text: line, face, size, colour }]);
      this.y += size * LEADING;
    }
  }

  /** A name on the left and its value on the right of one line. */
  row(name: string, value: string): void {
    const middle = this.y + 13;
    this.put(screenPoint(0, middle), 'left', [{ text: name, face: 'sans', size: 16, colour: INK }]);
    this.put(screenPoint(this.width, middle), 'right', [
      { text: value, face: 'sans', size: 19, colour: INK },
    ]);
    this.y += 27;
  }

  rule(): void {
    this.y += 3;
    const ends = [screenPoint(0, this.y), screenPoint(this.width, this.y)];
    this.commands.push({ kind: 'line', points: ends, colour: RULE, width: 1, dash: [], cap: 'butt' });
    this.y += 5;
  }

  space(height: number): void {
    this.y += height;
  }

  add(commands: readonly DrawCommand[], height: number): void {
    this.commands.push(...commands);
    this.y += height + 8;
  }

  private put(at: ScreenPoint, align: 'left' | 'right', runs: readonly TextRun[]): void {
    this.commands.push({ kind: 'text', at, align, runs });
  }

  private wrapped(text: string, face: TextRun['face'], size: number): readonly string[] {
    const lines: string[] = [];
    let line = '';
    for (const word of text.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (line !== '' && this.measure(longer, face, size) > this.width) {
        lines.push(line);
        line = word;
      } else line = longer;
    }
    return [...lines, line];
  }
}
