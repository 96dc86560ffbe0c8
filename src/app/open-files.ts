import { openCaseText } from './case-file-actions.ts';
import { addFilm, type Onto } from './films/film-actions.ts';
import { type Shell, say } from './shell.ts';

/** Opens files one after another; each that cannot be opened says why, and the others go on. */
export async function openFiles(shell: Shell, files: readonly File[], onto: Onto): Promise<void> {
  const { store } = shell;
  store.setState(({ opening }) => ({ opening: opening + files.length }));
  for (const file of files) {
    try {
      await openFile(shell, file, onto);
    } catch (thrown) {
      say(
        shell,
        `${file.name} could not be read (${(thrown as Error).message}). Copy it to this computer and open it again.`,
      );
    } finally {
      store.setState(({ opening }) => ({ opening: opening - 1 }));
    }
  }
}

async function openFile(shell: Shell, file: File, onto: Onto): Promise<void> {
  const bytes = await file.arrayBuffer();
  if (looksLikeJson(bytes)) {
    await openCaseText(shell, new TextDecoder().decode(bytes), file.name);
    return;
  }
  await addFilm(shell, bytes, file.name, onto);
}

/** `{` after a byte-order mark or white space: no film begins so, a case file does. */
const looksLikeJson = (bytes: ArrayBuffer): boolean =>
  /^\uFEFF?\s*\{/.test(new TextDecoder().decode(bytes.slice(0, 64)));
