import { failure, type Result, success } from '../result.ts';
import type { RatedReading } from './agreement-study.ts';

/** Columns of a table of readings, in any order; further columns are passed over. */
const NEEDED = ['subject', 'rater', 'value'] as const;

export type RatingsCsvFailure =
  | {
      readonly kind: 'no-such-column';
      readonly column: (typeof NEEDED)[number];
      readonly found: readonly string[];
    }
  /** `line` counts from 1, the heading included. */
  | { readonly kind: 'not-a-number'; readonly line: number; readonly text: string }
  | { readonly kind: 'empty-label'; readonly line: number; readonly column: 'subject' | 'rater' }
  | { readonly kind: 'open-quotation'; readonly line: number }
  | { readonly kind: 'no-readings' };

/** Says to the person what is wrong with the table and where. */
export function ratingsCsvSentence(error: RatingsCsvFailure, fileName: string): string {
  const start = `${fileName} was not read:`;
  switch (error.kind) {
    case 'no-such-column':
      return `${start} its first line has no column “${error.column}” (it has ${error.found.map((name) => `“${name}”`).join(', ') || 'none'}). Name the columns subject, rater and value.`;
    case 'not-a-number':
      return `${start} line ${error.line} has “${error.text}” for its value, which is no number. Write numbers with a decimal point, and leave out lines that were not measured.`;
    case 'empty-label':
      return `${start} line ${error.line} has no ${error.column}. Give each line its ${error.column}.`;
    case 'open-quotation':
      return `${start} the quotation that begins in line ${error.line} is never closed. Close it.`;
    case 'no-readings':
      return `${start} it holds no readings. Put one reading on each line below the heading.`;
  }
}

/**
 * Reads a table of readings: RFC 4180, or the same with semicolons as some spreadsheets write it; a decimal comma is
 * read where the columns are parted by semicolons.
 */
export function readRatingsCsv(text: string): Result<readonly RatedReading[], RatingsCsvFailure> {
  const plain = text.replace(/^\uFEFF/, '');
  const separator = (plain.split(/\r?\n/, 1)[0] ?? '').includes(';') ? ';' : ',';
  const rows = parseCsv(plain, separator);
  if (!rows.ok) return rows;
  const [heading, ...body] = rows.value;
  const names = (heading?.cells ?? []).map((name) => name.trim().toLowerCase());
  const places = new Map(NEEDED.map((name) => [name, names.indexOf(name)]));
  for (const column of NEEDED) {
    if ((places.get(column) ?? -1) < 0) return failure({ kind: 'no-such-column', column, found: names });
  }
  const readings: RatedReading[] = [];
  for (const { line, cells } of body) {
    if (cells.every((cell) => cell.trim() === '')) continue;
    const cell = (name: (typeof NEEDED)[number]) =>
      unguarded((cells[places.get(name) as number] ?? '').trim());
    for (const column of ['subject', 'rater'] as const) {
      if (cell(column) === '') return failure({ kind: 'empty-label', line, column });
    }
    const written = cell('value');
    const value = Number(separator === ';' ? written.replace(',', '.') : written);
    if (written === '' || !Number.isFinite(value))
      return failure({ kind: 'not-a-number', line, text: written });
    readings.push({ subject: cell('subject'), rater: cell('rater'), value });
  }
  return readings.length === 0 ? failure({ kind: 'no-readings' }) : success(readings);
}

/** A table that `readRatingsCsv` and any spreadsheet reads: RFC 4180 with a heading. */
export const writeRatingsCsv = (readings: readonly RatedReading[]): string =>
  [[...NEEDED], ...readings.map(({ subject, rater, value }) => [subject, rater, String(value)])]
    .map((cells) => `${cells.map(csvCell).join(',')}\r\n`)
    .join('');

/** What a spreadsheet would take for a formula, and what would be taken for one with the apostrophe against that. */
const LIKE_A_FORMULA = /^'*(?:[=+@\t\r]|-(?![\d.]))/;

const unguarded = (text: string): string =>
  text.startsWith("'") && LIKE_A_FORMULA.test(text) ? text.slice(1) : text;

/** A cell as RFC 4180 wants it; text that a spreadsheet would take for a formula is led by an apostrophe. */
export function csvCell(text: string): string {
  const safe = LIKE_A_FORMULA.test(text) ? `'${text}` : text;
  return /[",;\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

interface CsvLine {
  readonly line: number;
  readonly cells: readonly string[];
}

function parseCsv(text: string, separator: string): Result<readonly CsvLine[], RatingsCsvFailure> {
  const lines: CsvLine[] = [];
  let cells: string[] = [];
  let cell = '';
  let quotedSince: number | null = null;
  let line = 1;
  let startLine = 1;
  const endLine = () => {
    lines.push({ line: startLine, cells: [...cells, cell] });
    cells = [];
    cell = '';
  };
  for (let i = 0; i < text.length; i += 1) {
    const sign = text.charAt(i);
    if (quotedSince !== null) {
      if (sign === '\n') line += 1;
      if (sign !== '"') cell += sign;
      else if (text.charAt(i + 1) === '"') {
        cell += sign;
        i += 1;
      } else quotedSince = null;
    } else if (sign === '"' && cell === '') quotedSince = line;
    else if (sign === separator) {
      cells.push(cell);
      cell = '';
    } else if (sign === '\n') {
      endLine();
      line += 1;
      startLine = line;
    } else if (sign !== '\r') cell += sign;
  }
  if (quotedSince !== null) return failure({ kind: 'open-quotation', line: quotedSince });
  if (cell !== '' || cells.length > 0) endLine();
  return success(lines);
}
