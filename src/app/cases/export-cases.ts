import { writeArchive } from '../../case/case-archive.ts';
import { storageErrorSentence } from '../../storage/storage-error.ts';
import { download, fileNameOf } from '../download.ts';
import type { WholeCase } from '../keeper.ts';
import { type Shell, say } from '../shell.ts';

/**
 * Saves cases as one ZIP file. A case that cannot be read is named, and the others are saved.
 *
 * @param withFilms - Films go along as they came, with whatever their own files say of a person.
 */
export async function exportCases(shell: Shell, ids: readonly string[], withFilms: boolean): Promise<void> {
  const { caseState, unknownFields } = shell.store.getState();
  const cases: WholeCase[] = [];
  for (const id of ids) {
    // What is on screen may not be kept yet.
    if (id === caseState.document.id) {
      cases.push({ state: caseState, unknownFields });
      continue;
    }
    const kept = await shell.keeper.read(id);
    if (kept.ok) cases.push(kept.value);
    else say(shell, storageErrorSentence(kept.error));
  }
  if (cases.length === 0) return;
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const missing = await writeArchive(
    {
      cases,
      at: shell.now(),
      filmBytes: async (sha256) => {
        if (!withFilms) return null;
        const bytes = await shell.keeper.filmBytes(sha256);
        return bytes === null ? null : new Uint8Array(bytes);
      },
    },
    (piece) => pieces.push(piece),
  );
  if (missing.length > 0 && !withFilms)
    say(
      shell,
      'The file holds marks, readings and answers, and no film. It is no safe copy of the films: choose “Included” for one.',
    );
  if (missing.length > 0 && withFilms)
    say(
      shell,
      `${missing.length === 1 ? 'A film is' : `${missing.length} films are`} not kept on this computer and not in the file; the marks on ${missing.length === 1 ? 'it' : 'them'} are.`,
    );
  const [only] = cases;
  const name = cases.length === 1 && only !== undefined ? fileNameOf(only) : `raybend ${cases.length} cases`;
  download(`${name}${withFilms ? '' : ', marks only'}.zip`, new Blob(pieces, { type: 'application/zip' }));
}
