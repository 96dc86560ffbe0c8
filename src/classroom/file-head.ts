import { failure, type Result, success } from '../geometry/result.ts';

/** Why a file of the classroom is not opened. Nothing of it is taken over. */
export type ClassroomFileError =
  | { readonly kind: 'not-json'; readonly detail: string }
  | { readonly kind: 'not-this-format'; readonly wanted: string; readonly found: string | null }
  | { readonly kind: 'version-too-new'; readonly version: number; readonly known: number }
  | { readonly kind: 'invalid'; readonly path: string; readonly problem: string };

/** Says to the person which file is not opened, why, and what to do next. */
export function classroomFileSentence(error: ClassroomFileError, fileName: string): string {
  const start = `${fileName} was not opened:`;
  switch (error.kind) {
    case 'not-json':
      return `${start} it is damaged or no file of the classroom (${error.detail}). Ask for another copy.`;
    case 'not-this-format':
      return `${start} it is not a ${error.wanted} file${error.found === null ? '' : ` but a ${error.found} file`}. Open it where such files belong.`;
    case 'version-too-new':
      return `${start} it was written by a newer Raybend (file version ${error.version}; this one reads up to ${error.known}). Reload the page to get the newer Raybend, then open it again.`;
    case 'invalid':
      return `${start} it is not valid at ${error.path || 'the top'} (${error.problem}). Correct the file or ask for another copy.`;
  }
}

/** The `format` a JSON text states, or null: to tell what kind of file it is before anything else is read. */
export function formatOf(text: string): string | null {
  try {
    const parsed: unknown = JSON.parse(text);
    if (typeof parsed !== 'object' || parsed === null || !('format' in parsed)) return null;
    return typeof parsed.format === 'string' ? parsed.format : null;
  } catch {
    return null;
  }
}

/** Parsed JSON that states the wanted format in a version that is known; the rest is for a schema. */
export function headOf(text: string, format: string, known: number): Result<object, ClassroomFileError> {
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (thrown) {
    return failure({ kind: 'not-json', detail: (thrown as Error).message });
  }
  const found = typeof parsed === 'object' && parsed !== null && 'format' in parsed ? parsed.format : null;
  if (found !== format) {
    return failure({
      kind: 'not-this-format',
      wanted: format,
      found: typeof found === 'string' ? found : null,
    });
  }
  const { version } = parsed as { version?: unknown };
  if (typeof version === 'number' && version > known) {
    return failure({ kind: 'version-too-new', version, known });
  }
  return success(parsed as object);
}
