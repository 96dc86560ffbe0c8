import type { DrawCommand, TextRun } from '../../drawing/draw-command.ts';
import { type ScreenPoint, screenPoint } from '../../geometry/units.ts';
import { brokenToFit } from '../words/break-word.ts';
import type { SnapshotCaution, SnapshotContent, SnapshotOutcome } from './content.ts';
import type { Palette } from './ground.ts';
import { rulerCommands } from './ruler.ts';

/** Width of a text in px at a size; from the shell, since only it has fonts. */
export type MeasureText = (text: string, face: TextRun['face'], size: number) => number;

/** The written side of a snapshot: drawing commands in px of the panel, and how high it came out. */
export interface Panel {
  readonly commands: readonly DrawCommand[];
  readonly height: number;
}

/** A snapshot is read on its own: this many cautions with their reasons, worst first, and the titles of the rest. */
const MOST_CAUTIONS = 5;

/** How a panel is set. */
export interface Setting {
  /** Px of the panel. */
  readonly width: number;
  readonly measure: MeasureText;
  readonly palette: Palette;
}

/** What stands beside one film, from top to bottom: which it is, its readings, and the limits. */
export function setBeside(content: SnapshotContent, setting: Setting): Panel {
  const sheet = new Sheet(setting);
  sheet.text(content.title, { face: 'serif', size: 25 });
  sheet.text(content.caption, { size: 15, tone: 'soft' });
  sheet.space(8);
  readings(sheet, content);
  limits(sheet, content, setting);
  return sheet.panel();
}

/** What follows it, beside the film or under it: cautions, what was not checked, and what every record says. */
export function setUnder(content: SnapshotContent, setting: Setting): Panel {
  const sheet = new Sheet(setting);
  cautions(sheet, content);
  if (content.notChecked.length > 0) {
    sheet.space(8);
    sheet.text('Not checked', { face: 'serif', size: 18 });
    sheet.text(content.notChecked.join(' '), { size: 13 });
  }
  foot(sheet, content);
  return sheet.panel();
}

/** The head of a figure of several films. */
export function setHead({ title }: SnapshotContent, setting: Setting): Panel {
  const sheet = new Sheet(setting);
  sheet.text(title, { face: 'serif', size: 25 });
  sheet.space(6);
  return sheet.panel();
}

/** What stands under one of several films: which it is, its readings, and the outcomes. */
export function setCaption(content: SnapshotContent, setting: Setting): Panel {
  const sheet = new Sheet(setting);
  sheet.text(content.caption, { face: 'serif', size: 15 });
  sheet.space(4);
  readings(sheet, content);
  for (const outcome of content.outcomes) setsInWords(sheet, outcome, content);
  return sheet.panel();
}

/** What stands under a figure of several films: cautions, how much is open, and what every record says. */
export function setFoot(content: SnapshotContent, setting: Setting): Panel {
  const sheet = new Sheet(setting);
  cautions(sheet, content);
  const open = content.notChecked.length;
  if (open > 0) sheet.text(`Not checked: ${open} of the questions of the examination.`, { size: 13 });
  foot(sheet, content);
  return sheet.panel();
}

function readings(sheet: Sheet, content: SnapshotContent): void {
  for (const reading of content.readings) {
    sheet.row(reading.name, `${reading.value} ${reading.plusMinus}`);
    if (reading.note !== '') sheet.text(reading.note, { size: 12.5, tone: 'soft' });
    sheet.rule();
  }
}

/** The first quantity with its ruler, in full; the others in words. */
function limits(sheet: Sheet, content: SnapshotContent, setting: Setting): void {
  if (content.outcomes.length === 0) return;
  sheet.space(8);
  sheet.text('Against the limits', { face: 'serif', size: 18 });
  for (const [index, outcome] of content.outcomes.entries()) {
    const { chosen, others } = outcome;
    if (index > 0 || chosen === null) {
      setsInWords(sheet, outcome, content);
      continue;
    }
    sheet.text(`${chosen.limitSet}. Source: ${chosen.source}`, { size: 12.5, tone: 'soft' });
    sheet.add(rulerCommands(chosen, setting.width, sheet.y + 6, setting.palette), 62);
    sheet.text(chosen.words, { size: 15 });
    for (const said of others) sheet.text(said, { size: 13 });
  }
}

function setsInWords(
  sheet: Sheet,
  { name, chosen, others }: SnapshotOutcome,
  { outcomes }: SnapshotContent,
): void {
  sheet.space(4);
  const of = outcomes.length > 1 ? `${name}. ` : '';
  if (chosen !== null) sheet.text(`${of}${chosen.limitSet}: ${chosen.words}`, { size: 13 });
  for (const said of others) sheet.text(said, { size: 13 });
}

function cautions(sheet: Sheet, content: SnapshotContent): void {
  const { stops, unchecked, cautions: others } = content;
  if (stops.length + unchecked.length + others.length === 0) return;
  const withReason = ({ title, why }: SnapshotCaution) => {
    sheet.titled(`${title}.`, { size: 14, tone: 'warn' }, why, { size: 13 });
    sheet.space(3);
  };
  sheet.space(8);
  sheet.text('Cautions', { face: 'serif', size: 18 });
  for (const stop of stops) withReason(stop);
  if (unchecked.length > 0) {
    sheet.text(`${unchecked.join('. ')}.`, { size: 14, tone: 'warn' });
    sheet.space(3);
  }
  for (const caution of others.slice(0, MOST_CAUTIONS)) withReason(caution);
  const more = others.slice(MOST_CAUTIONS).map(({ title }) => title);
  if (more.length > 0) sheet.text(`Also: ${more.join('; ')}.`, { size: 13, tone: 'warn' });
}

function foot(sheet: Sheet, content: SnapshotContent): void {
  sheet.space(10);
  sheet.rule();
  for (const line of content.foot) sheet.text(line, { size: 12.5, tone: 'soft' });
}

interface TextStyle {
  readonly face?: TextRun['face'];
  readonly size: number;
  readonly tone?: 'ink' | 'soft' | 'warn';
}

/** Line height as a multiple of the size of the text. */
const LEADING = 1.32;

/** A column of text that grows downwards. */
class Sheet {
  readonly commands: DrawCommand[] = [];
  y = 0;

  constructor(private readonly setting: Setting) {}

  panel(): Panel {
    return { commands: this.commands, height: this.y };
  }

  text(text: string, { face = 'sans', size, tone = 'ink' }: TextStyle): void {
    const colour = this.setting.palette[tone];
    for (const line of this.wrapped(text, face, size)) {
      this.put(screenPoint(0, this.y + (size * LEADING) / 2), 'left', [{ text: line, face, size, colour }]);
      this.y += size * LEADING;
    }
  }

  /** A title and what it means: on one line where there is room for both, else one under the other. */
  titled(title: string, titleStyle: TextStyle, text: string, style: TextStyle): void {
    const { measure, width, palette } = this.setting;
    const run = (words: string, { face = 'sans', size, tone = 'ink' }: TextStyle): TextRun => ({
      text: words,
      face,
      size,
      colour: palette[tone],
    });
    const runs = [run(`${title} `, titleStyle), run(text, style)];
    if (runs.reduce((sum, one) => sum + measure(one.text, one.face, one.size), 0) > width) {
      this.text(title, titleStyle);
      this.text(text, style);
      return;
    }
    const height = Math.max(titleStyle.size, style.size) * LEADING;
    this.put(screenPoint(0, this.y + height / 2), 'left', runs);
    this.y += height;
  }

  /** A name on the left and its value on the right of one line. */
  row(name: string, value: string): void {
    const middle = this.y + 13;
    const { width, palette } = this.setting;
    const colour = palette.ink;
    this.put(screenPoint(0, middle), 'left', [{ text: name, face: 'sans', size: 16, colour }]);
    this.put(screenPoint(width, middle), 'right', [{ text: value, face: 'sans', size: 19, colour }]);
    this.y += 27;
  }

  rule(): void {
    this.y += 3;
    const { width, palette } = this.setting;
    const ends = [screenPoint(0, this.y), screenPoint(width, this.y)];
    this.commands.push({ kind: 'line', points: ends, colour: palette.rule, width: 1, dash: [], cap: 'butt' });
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
    const fits = (words: string) => this.setting.measure(words, face, size) <= this.setting.width;
    for (const word of text.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (fits(longer)) {
        line = longer;
        continue;
      }
      const pieces = brokenToFit(word, fits);
      lines.push(...(line === '' ? [] : [line]), ...pieces.slice(0, -1));
      line = pieces.at(-1) ?? '';
    }
    return [...lines, line];
  }
}
