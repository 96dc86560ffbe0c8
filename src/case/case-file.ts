import { z } from 'zod';
import { failure, type Result, success } from '../geometry/result.ts';
import { applyInPlace, invert } from './apply.ts';
import { type CaseState, EMPTY_HISTORY } from './history.ts';
import { CASE_FILE_VERSION, MIGRATIONS } from './migrations/current.ts';
import { type MigrationFailed, migrate } from './migrations/migrate.ts';
import { caseFileSchema } from './schema.ts';

const FORMAT = 'raybend-case';

/** A film's bytes as they travel in a case file. */
export interface FilmBytes {
  readonly sha256: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** What a case file holds. */
export interface CaseFile {
  readonly state: CaseState;
  readonly films: readonly FilmBytes[];
  /** Top-level fields this version does not know; written back as they were. */
  readonly unknownFields: Readonly<Record<string, unknown>>;
}

/** Why a case file is not opened. Nothing of it is taken over. */
export type CaseFileError =
  | { readonly kind: 'not-json'; readonly detail: string }
  | { readonly kind: 'not-a-case-file' }
  | { readonly kind: 'version-too-new'; readonly version: number; readonly known: number }
  | MigrationFailed
  | { readonly kind: 'invalid'; readonly path: string; readonly problem: string; readonly more: number }
  | { readonly kind: 'film-mismatch'; readonly sha256: string; readonly found: string };

/** Says to the person which file is not opened, why, and what to do next. */
export function caseFileErrorSentence(error: CaseFileError, fileName: string): string {
  const start = `${fileName} was not opened:`;
  switch (error.kind) {
    case 'not-json':
      return `${start} it is damaged or no case file (${error.detail}). Use another copy of it.`;
    case 'not-a-case-file':
      return `${start} it is not a Raybend case file. Films (DICOM, PNG, JPEG) are opened by dropping them on a case.`;
    case 'version-too-new':
      return `${start} it was written by a newer Raybend (file version ${error.version}; this one reads up to ${error.known}). Reload the page to get the newer Raybend, then open it again.`;
    case 'migration-failed':
      return `${start} it could not be brought up to file version ${error.to} (${error.name}: ${error.detail}). Keep the file as it is and use another copy of the case.`;
    case 'invalid':
      return `${start} it is not valid at ${error.path || 'the top'} (${error.problem})${
        error.more > 0 ? ` and in ${error.more} more places` : ''
      }. Correct the file or use another copy of it.`;
    case 'film-mismatch':
      return `${start} the film ${error.sha256.slice(0, 12)}… in it is not the film that was measured (its content gives ${error.found.slice(0, 12)}…). Use another copy of the file.`;
  }
}

/**
 * The text of a case file.
 *
 * @param films - Bytes to put into the file, so that it can be opened where the films are not.
 */
export function writeCaseFile({ state, films, unknownFields }: CaseFile): string {
  return JSON.stringify({
    ...caseFileContent(state, unknownFields),
    ...(films.length > 0
      ? { films: films.map(({ sha256, bytes }) => ({ sha256, bytesBase64: toBase64(bytes) })) }
      : {}),
  });
}

/** A case file without films, as plain data. */
export const caseFileContent = (
  { document, history }: CaseState,
  unknownFields: CaseFile['unknownFields'],
): Readonly<Record<string, unknown>> => ({
  ...unknownFields,
  format: FORMAT,
  version: CASE_FILE_VERSION,
  case: document,
  ...(history.transactions.length > 0 ? { history } : {}),
});

/**
 * Reads a case file: is it JSON → is it ours → is its version known → migrate → validate → does the history
 * belong to the case → are the films the ones that were measured.
 *
 * @param sha256Of - Lower-case hexadecimal SHA-256 of bytes; from the shell, since this layer has no crypto.
 */
export async function readCaseFile(
  text: string,
  sha256Of: (bytes: Uint8Array<ArrayBuffer>) => Promise<string>,
): Promise<Result<CaseFile, CaseFileError>> {
  const content = readText(text);
  if (!content.ok) return content;
  for (const { sha256, bytes } of content.value.films) {
    const found = await sha256Of(bytes);
    if (found !== sha256) return failure({ kind: 'film-mismatch', sha256, found });
  }
  return content;
}

function readText(text: string): Result<CaseFile, CaseFileError> {
  try {
    return readCaseContent(JSON.parse(text));
  } catch (thrown) {
    if (!(thrown instanceof SyntaxError)) throw thrown;
    return failure({ kind: 'not-json', detail: thrown.message });
  }
}

/** `readCaseFile` from data that is parsed already; the bytes of films in it are not checked. */
export function readCaseContent(parsed: unknown): Result<CaseFile, CaseFileError> {
  if (!isOurs(parsed)) return failure({ kind: 'not-a-case-file' });
  if (parsed.version > CASE_FILE_VERSION) {
    return failure({ kind: 'version-too-new', version: parsed.version, known: CASE_FILE_VERSION });
  }
  const migrated = migrate(parsed, parsed.version, MIGRATIONS);
  if (!migrated.ok) return migrated;
  const checked = caseFileSchema.safeParse(migrated.value);
  if (!checked.success) return failure(invalidity(checked.error));
  const {
    format: _format,
    version: _version,
    case: document,
    history,
    films,
    ...unknownFields
  } = checked.data;
  const state: CaseState = { document, history: history ?? EMPTY_HISTORY };
  const strayed = strayedTransaction(state);
  if (strayed !== null) {
    const path = `history.transactions.${strayed}`;
    return failure({ kind: 'invalid', path, problem: 'does not lead to the case in the file', more: 0 });
  }
  return success({
    state,
    films: (films ?? []).map((film) => ({
      sha256: film.sha256,
      bytes: z.core.util.base64ToUint8Array(film.bytesBase64),
    })),
    unknownFields,
  });
}

function isOurs(parsed: unknown): parsed is Readonly<Record<string, unknown>> & { readonly version: number } {
  if (typeof parsed !== 'object' || parsed === null) return false;
  const { format, version } = parsed as Readonly<Record<string, unknown>>;
  return format === FORMAT && typeof version === 'number' && Number.isInteger(version) && version >= 1;
}

function invalidity(error: z.ZodError): CaseFileError {
  const [first] = error.issues;
  return {
    kind: 'invalid',
    path: (first?.path ?? []).map(String).join('.'),
    problem: first?.message ?? 'is not valid',
    more: error.issues.length - 1,
  };
}

/** Index of the first transaction, going back from the case and then forwards again, that does not fit; or null. */
function strayedTransaction({ document, history }: CaseState): number | null {
  const records = { ...document.records };
  for (let index = history.position - 1; index >= 0; index -= 1) {
    const transaction = history.transactions[index];
    if (transaction && applyInPlace(records, invert(transaction)) !== null) return index;
  }
  for (const [index, transaction] of history.transactions.entries()) {
    if (applyInPlace(records, transaction) !== null) return index;
  }
  return null;
}

/** A multiple of 3, so that pieces join without padding; small, because zod builds each one character by character. */
const BASE64_PIECE_BYTES = 3 * 8192;

function toBase64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let start = 0; start < bytes.length; start += BASE64_PIECE_BYTES) {
    pieces.push(z.core.util.uint8ArrayToBase64(bytes.subarray(start, start + BASE64_PIECE_BYTES)));
  }
  return pieces.join('');
}
