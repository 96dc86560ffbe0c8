import type { Assessment } from '../case/assessment.ts';
import type { CaseDocument } from '../case/document.ts';
import { markedFilms } from '../case/film-marks.ts';
import { injuryOf } from '../case/fixed-records.ts';
import { hexadecimal } from '../geometry/hexadecimal.ts';
import type { KeyedHash } from './dicom/uids.ts';
import {
  type Cell,
  COMPARISON_COLUMNS,
  type Column,
  type ComparisonRow,
  READING_COLUMNS,
  type ReadingRow,
} from './table-columns.ts';

/** A case as the tables take it. */
export interface TabledCase {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
}

export interface TableFacts {
  /** HMAC with a secret of this computer: cases and films get keys that nobody else can trace back. */
  readonly hash: KeyedHash;
  readonly softwareVersion: string;
}

/** Rows of both tables, in the order of the cases, films and readings. */
export interface Tables {
  readonly readings: readonly ReadingRow[];
  readonly comparisons: readonly ComparisonRow[];
}

const KEY_CHARACTERS = 16;

async function keyOf(hash: KeyedHash, text: string): Promise<string> {
  return hexadecimal(await hash(text)).slice(0, KEY_CHARACTERS);
}

/** The rows for any number of cases. The names that users give their cases are left out. */
export async function tablesOf(
  cases: readonly TabledCase[],
  { hash, softwareVersion }: TableFacts,
): Promise<Tables> {
  const readings: ReadingRow[] = [];
  const comparisons: ComparisonRow[] = [];
  for (const { document, assessment } of cases) {
    const caseKey = await keyOf(hash, `case ${document.id}`);
    const films = markedFilms(document).map(({ film }) => film);
    const injury = injuryOf(document);
    for (const [index, film] of films.entries()) {
      const filmNumber = index + 1;
      const filmKey = await keyOf(hash, `film ${film.sha256}`);
      const onFilm = assessment.readings.filter(({ filmId }) => filmId === film.id);
      for (const reading of onFilm) {
        readings.push({
          caseKey,
          filmKey,
          filmNumber,
          injury,
          film,
          reading,
          measurementVersion: assessment.measurementVersion,
          softwareVersion,
        });
      }
      for (const comparison of assessment.comparisons) {
        const reading = onFilm.find(({ id }) => id === comparison.readingId);
        if (reading !== undefined) {
          comparisons.push({ caseKey, filmNumber, quantity: reading.quantity, comparison });
        }
      }
    }
  }
  return { readings, comparisons };
}

/** A table as text: what each column is called and means, and every cell as it stands in the file. */
export interface WrittenTable {
  readonly columns: readonly { readonly name: string; readonly meaning: string }[];
  readonly rows: readonly (readonly string[])[];
}

export const writtenReadings = ({ readings }: Tables): WrittenTable => written(READING_COLUMNS, readings);

export const writtenComparisons = ({ comparisons }: Tables): WrittenTable =>
  written(COMPARISON_COLUMNS, comparisons);

const written = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): WrittenTable => ({
  columns,
  rows: rows.map((row) => columns.map((column) => cellText(column.of(row)))),
});

/** As CSV (RFC 4180: CRLF, quotes doubled, a header line). */
export function csvOf({ columns, rows }: WrittenTable): string {
  const lines = [columns.map(({ name }) => name), ...rows];
  return lines.map((cells) => `${cells.map(quoted).join(',')}\r\n`).join('');
}

/** Empty for nothing; numbers in full, with `Inf` as R and pandas read it. */
function cellText(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') {
    if (Number.isFinite(cell)) return String(cell);
    return cell > 0 ? 'Inf' : '-Inf';
  }
  if (typeof cell === 'boolean') return cell ? 'true' : 'false';
  return harmless(cell);
}

/**
 * A spreadsheet takes text that begins so for a formula and runs it; an apostrophe before it makes it text
 * (OWASP, CSV Injection). Numbers never come here.
 */
const harmless = (text: string): string => (/^[=+\-@\t\r]/.test(text) ? `'${text}` : text);

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** JSON with both tables and, beside them, what each column means. Numbers are in full; infinity is null. */
export function tablesJson(tables: Tables): string {
  return JSON.stringify(
    {
      format: 'raybend-readings',
      version: 1,
      columns: {
        readings: READING_COLUMNS.map(({ name, unit, meaning }) => ({ name, unit, meaning })),
        comparisons: COMPARISON_COLUMNS.map(({ name, unit, meaning }) => ({ name, unit, meaning })),
      },
      readings: tables.readings.map((row) => asObject(READING_COLUMNS, row)),
      comparisons: tables.comparisons.map((row) => asObject(COMPARISON_COLUMNS, row)),
    },
    null,
    2,
  );
}

const asObject = <Row>(columns: readonly Column<Row>[], row: Row): Readonly<Record<string, Cell>> =>
  Object.fromEntries(columns.map((column) => [column.name, column.of(row)]));
