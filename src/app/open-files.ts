import { reasonOf } from '../geometry/result.ts';
import { chosenFiles, droppedFiles } from './films/dropped-files.ts';
import type { Onto } from './films/film-record.ts';
import { inTurn } from './in-turn.ts';
import { caseShown, type Shell, say } from './shell.ts';

/**
 * Opens what was dropped, chosen or pasted: case files and case archives as cases, all else as films or with the
 * reason why not. Call it in the event itself, or a dropped folder cannot be read any more.
 */
export async function openFiles(
  shell: Shell,
  given: readonly File[] | DataTransfer,
  onto: Onto,
): Promise<void> {
  const { store } = shell;
  const dropping = Array.isArray(given)
    ? chosenFiles(given as readonly File[])
    : droppedFiles(given as DataTransfer);
  store.setState(({ opening }) => ({ opening: opening + 1 }));
  try {
    // A case that is on its way onto the screen, as the first one at the start, is the one they were meant for.
    await inTurn(shell, async () => undefined);
    const into = caseShown(shell);
    // What reads files is fetched with the first of them.
    const { takeDropped } = await import('./take-dropped.ts');
    await takeDropped(shell, await dropping, onto, into);
  } catch (thrown) {
    const why = reasonOf(thrown);
    say(shell, `What was dropped could not be read (${why}). Copy it to this computer and open it again.`);
  } finally {
    store.setState(({ opening }) => ({ opening: opening - 1 }));
  }
}
