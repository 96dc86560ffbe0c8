import { z } from 'zod';
import { failure, type Result, success } from '../geometry/result.ts';
import { applyInPlace, invert } from './apply.ts';
import { type CaseFile, type CaseFileError, caseFileContent, FORMAT } from './case-content.ts';
import { firstIssue } from './first-issue.ts';
import { type CaseState, EMPTY_HISTORY } from './history.ts';
import { CASE_FILE_VERSION, MIGRATIONS } from './migrations/current.ts';
import { migrate } from './migrations/migrate.ts';
import { caseFileSchema } from './schema.ts';

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
  return { kind: 'invalid', ...firstIssue(error), more: error.issues.length - 1 };
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
