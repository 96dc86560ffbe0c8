import { failure, type Result, success } from '../geometry/result.ts';
import type { RatingTable } from '../geometry/statistics/table.ts';

/** A complete table of ratings with the names of its rows and columns, both in the order first met. */
export interface Ratings {
  readonly subjects: readonly string[];
  readonly raters: readonly string[];
  /** By subject, then rater. NaN where a subject was not rated. */
  readonly rows: RatingTable;
}

export type RatingFileFailure =
  | { readonly kind: 'column-missing'; readonly message: string }
  | { readonly kind: 'cell-missing'; readonly message: string }
  | { readonly kind: 'not-a-number'; readonly message: string }
  | { readonly kind: 'rated-twice'; readonly message: string };

const COLUMNS = ['subject', 'rater', 'value'] as const;

/**
 * Ratings from comma-separated text with the columns subject, rater and value, in any order and among others.
 * A decimal point is a full stop; a field in quotes may hold commas and doubled quotes (RFC 4180).
 *
 * @param name - Of the file; begins every message.
 *
 * Fails with `column-missing`, `cell-missing` and `not-a-number` with the line counted from 1, and `rated-twice`
 * where a rater has two values for one subject.
 */
export function parseRatings(text: string, name: string): Result<Ratings, RatingFileFailure> {
  const [header = [], ...lines] = text
    .replace(/^\uFEFF/, '')
    .split(/\r\n|\n|\r/)
    .map(fieldsOf);
  const places = COLUMNS.map((column) => header.findIndex((field) => field.trim().toLowerCase() === column));
  const absent = COLUMNS.filter((_, index) => (places[index] ?? -1) < 0);
  if (absent.length > 0)
    return failure({
      kind: 'column-missing',
      message: `${name} has no column “${absent.join('”, “')}” in its first line. It needs: ${COLUMNS.join(', ')}.`,
    });
  const cells = new Map<string, Map<string, number>>();
  const raters = new Set<string>();
  for (const [index, fields] of lines.entries()) {
    if (fields.every((field) => field.trim() === '')) continue;
    const [subject = '', rater = '', written = ''] = places.map((place) => (fields[place] ?? '').trim());
    const where = `${name}, line ${index + 2}`;
    if (subject === '' || rater === '' || written === '')
      return failure({
        kind: 'cell-missing',
        message: `${where} lacks a subject, a rater or a value. Fill it in or take the line out.`,
      });
    const value = Number(written);
    if (!Number.isFinite(value))
      return failure({
        kind: 'not-a-number',
        message: `${where} has the value “${written}”, which is no number. Write it with a full stop as decimal point and without a unit.`,
      });
    const ofSubject = cells.get(subject) ?? new Map<string, number>();
    if (ofSubject.has(rater))
      return failure({
        kind: 'rated-twice',
        message: `${where} rates subject “${subject}” by “${rater}” a second time. Give repeats names of their own, such as “${rater} 2”.`,
      });
    cells.set(subject, ofSubject.set(rater, value));
    raters.add(rater);
  }
  return success({
    subjects: [...cells.keys()],
    raters: [...raters],
    rows: [...cells.values()].map((ofSubject) =>
      [...raters].map((rater) => ofSubject.get(rater) ?? Number.NaN),
    ),
  });
}

/** The fields of one line. */
function fieldsOf(line: string): readonly string[] {
  const fields = line.match(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g) ?? [];
  // The pattern matches once more, empty, at the end of the line.
  return fields
    .slice(0, Math.max(1, line.endsWith(',') ? fields.length : fields.length - 1))
    .map((field) => field.replace(/,$/, ''))
    .map((field) => (field.startsWith('"') ? field.slice(1, -1).replaceAll('""', '"') : field));
}
