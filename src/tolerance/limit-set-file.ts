import { failure, type Result, success } from '../geometry/result.ts';
import type { LimitSet } from './limit-set.ts';
import { limitSetSchema } from './limit-set-schema.ts';
import { SHIPPED_LIMIT_SETS } from './limit-sets.ts';

/** One thing wrong with a set: which row, by its id where it has one, and why. */
interface LimitSetProblem {
  /** Path in the file, e.g. "rows[2].band.lo"; empty for the set as a whole. */
  readonly path: string;
  /** 'row 3 ("neck-small")'; null when it is not about a row. */
  readonly row: string | null;
  readonly reason: string;
}

export type LimitSetFailure =
  | { readonly kind: 'not-json'; readonly message: string }
  | { readonly kind: 'not-a-limit-set'; readonly message: string }
  | { readonly kind: 'version-too-new'; readonly version: number; readonly message: string }
  | { readonly kind: 'shipped-id'; readonly id: string; readonly message: string }
  | { readonly kind: 'invalid'; readonly problems: readonly LimitSetProblem[]; readonly message: string };

const FORMAT: LimitSet['format'] = 'raybend-limit-set';
const VERSION: LimitSet['version'] = 1;

/**
 * A local limit set from the text of a file. Whatever the file says of itself, what is imported is local.
 *
 * @param fileName - Named in every message.
 *
 * Fails, changing nothing, with `not-json`; `not-a-limit-set` (another kind of file); `version-too-new`;
 * `shipped-id` (the id of a set that ships would be shadowed); `invalid`, with every problem found.
 */
export function parseLimitSet(text: string, fileName: string): Result<LimitSet, LimitSetFailure> {
  if (text.trim() === '')
    return failure({
      kind: 'not-json',
      message: `${fileName} is empty. Choose a limit set exported from here.`,
    });
  // What no text holds, and what stands for bytes that are none: a parser would quote them on the screen.
  if (text.includes('\u0000') || text.includes('\uFFFD'))
    return failure({
      kind: 'not-json',
      message: `${fileName} holds no plain text: it is a file of another kind, or damaged. Choose a limit set exported from here.`,
    });
  let content: unknown;
  try {
    content = JSON.parse(text);
  } catch (cause) {
    const detail = cause instanceof Error ? cause.message : String(cause);
    return failure({
      kind: 'not-json',
      message: `${fileName} is not JSON (${detail}). Choose a limit set exported from here.`,
    });
  }
  if (!isRecord(content) || content.format !== FORMAT)
    return failure({
      kind: 'not-a-limit-set',
      message: `${fileName} is JSON but not a limit set: it does not begin with "format": "${FORMAT}". Choose a limit set exported from here.`,
    });
  if (typeof content.version === 'number' && content.version > VERSION)
    return failure({
      kind: 'version-too-new',
      version: content.version,
      message: `${fileName} was written by a later version (limit set version ${content.version}, this one reads ${VERSION}). Open it with that version.`,
    });
  const read = checkLimitSet(content, fileName);
  if (!read.ok) return read;
  const shipped = SHIPPED_LIMIT_SETS.find((set) => set.id === read.value.id);
  if (shipped !== undefined)
    return failure({
      kind: 'shipped-id',
      id: shipped.id,
      message: `${fileName} has the id "${shipped.id}" of the set “${shipped.title}” that ships and cannot change. Copy that set here and edit the copy, or give the file another id.`,
    });
  return success({ ...read.value, local: true });
}

/** A value as a limit set, or every reason why it is none. `name` begins the message. */
export function checkLimitSet(
  content: unknown,
  name: string,
): Result<LimitSet, Extract<LimitSetFailure, { readonly kind: 'invalid' }>> {
  const checked = limitSetSchema.safeParse(content);
  if (checked.success) return success(checked.data);
  const problems = checked.error.issues.map((issue) => ({
    path: pathText(issue.path),
    row: rowText(content, issue.path),
    reason: issue.message,
  }));
  const list = problems.map(({ path, row, reason }) =>
    row === null
      ? `${path || 'the set'}: ${reason}`
      : `${row}: ${fieldWords(path.replace(/^rows\[\d+\]\.?/, ''))}${reason}`,
  );
  return failure({
    kind: 'invalid',
    problems,
    message: `${name} was not taken over: ${list.join('; ')}. Correct this and try again; nothing was changed.`,
  });
}

/** The text of a limit set's file; `parseLimitSet` gives the same set back. */
export function serializeLimitSet(set: LimitSet): string {
  return `${JSON.stringify(set, null, 2)}\n`;
}

/** What the form calls the fields of a row that it lets be typed into. */
const FIELD_WORDS: Readonly<Record<string, string>> = {
  band: 'the limit',
  'band.lo': 'the lower end of the limit',
  'band.hi': 'the upper end of the limit',
  rays: 'the list of fingers',
  regions: 'the list of parts of the bone',
  note: 'the note',
};

/** "the lower end of the limit (band.lo) ": in words, and as it stands in the file; '' for a row as a whole. */
function fieldWords(path: string): string {
  if (path === '') return '';
  const words = FIELD_WORDS[path];
  return words === undefined ? `${path} ` : `${words} (${path}) `;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

const pathText = (path: readonly PropertyKey[]): string =>
  path
    .map((key, index) =>
      typeof key === 'number' ? `[${key}]` : index === 0 ? String(key) : `.${String(key)}`,
    )
    .join('');

/** Rows are counted from 1, as people count them. */
function rowText(content: unknown, path: readonly PropertyKey[]): string | null {
  const [rows, index] = path;
  if (rows !== 'rows' || typeof index !== 'number') return null;
  const row = isRecord(content) && Array.isArray(content.rows) ? content.rows[index] : undefined;
  const id = isRecord(row) && typeof row.id === 'string' ? ` ("${row.id}")` : '';
  return `row ${index + 1}${id}`;
}
