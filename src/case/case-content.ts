import type { CaseState } from './history.ts';
import { CASE_FILE_VERSION } from './migrations/current.ts';
import type { MigrationFailed } from './migrations/migrate.ts';

export const FORMAT = 'raybend-case';

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
      return `${start} it is damaged or no case file: ${error.detail}. Use another copy of it.`;
    case 'not-a-case-file':
      return `${start} it is not a Raybend case file. Films (DICOM, PNG, JPEG) are opened by dropping them on a case.`;
    case 'version-too-new':
      return `${start} it was written by a newer Raybend (file version ${error.version}; this one reads up to ${error.known}). Reload the page to get the newer Raybend, then open it again.`;
    case 'migration-failed':
      return `${start} it could not be brought up to file version ${error.to} (${error.name}: ${error.detail}). Keep the file as it is and use another copy of the case.`;
    case 'invalid':
      return `${start} it is not valid at ${error.path || 'the top'} (${error.problem})${
        error.more > 0 ? ` and in ${error.more} more ${error.more === 1 ? 'place' : 'places'}` : ''
      }. Correct the file or use another copy of it.`;
    case 'film-mismatch':
      return `${start} the film ${error.sha256.slice(0, 12)}… in it is not the film that was measured (its content gives ${error.found.slice(0, 12)}…). Use another copy of the file.`;
  }
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
