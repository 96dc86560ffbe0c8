import { emptyCase } from '../case/apply.ts';
import type { FilmBytes } from '../case/case-content.ts';
import { caseId, type RecordId } from '../case/document.ts';
import { markedFilms } from '../case/film-marks.ts';
import { freshState } from '../case/history.ts';
import { download, fileNameOf } from './download.ts';
import { loadFilms } from './films/film-actions.ts';
import { inTurn } from './in-turn.ts';
import type { WholeCase } from './keeper.ts';
import { type Shell, say } from './shell.ts';

/** Saves the case as a file, with its films inside if asked for. */
export async function saveCaseFile(shell: Shell, withFilms: boolean): Promise<void> {
  const { caseState, unknownFields } = shell.store.getState();
  const films: FilmBytes[] = [];
  if (withFilms) {
    // Parts of one picture share its file.
    const wanted = new Set(markedFilms(caseState.document).map(({ film }) => film.sha256));
    for (const sha256 of wanted) {
      const bytes = await shell.keeper.filmBytes(sha256);
      if (bytes === null) {
        say(shell, 'A film of this case is not kept on this computer, so the file holds the others only.');
        continue;
      }
      films.push({ sha256, bytes: new Uint8Array(bytes) });
    }
  }
  const { writeCaseFile } = await import('../case/case-file.ts');
  const text = writeCaseFile({ state: caseState, films, unknownFields });
  download(`${fileNameOf({ state: caseState })}.json`, new Blob([text], { type: 'application/json' }));
}

/**
 * Makes a case the one on screen. Its films are decoded one after another, the one shown first; nobody waits for all
 * of them.
 *
 * @param chosen - The film to show first, if the case has it.
 */
export function showCase(
  shell: Shell,
  { state, unknownFields }: WholeCase,
  chosen: RecordId | null = null,
): void {
  const films = markedFilms(state.document).map(({ film }) => film);
  const first = films.find(({ id }) => id === chosen) ?? films[0];
  shell.store.setState(({ messages }) => ({
    caseState: state,
    unknownFields,
    chosenFilm: first?.id ?? null,
    beside: null,
    task: null,
    repeats: null,
    lights: new Map(),
    views: new Map(),
    messages: messages.filter(({ ofCase }) => ofCase === undefined || ofCase === state.document.id),
  }));
  void loadFilms(shell);
}

/** An empty case; the one on screen stays kept on this computer. */
export async function newCase(shell: Shell): Promise<void> {
  const whole: WholeCase = { state: freshState(emptyCase(caseId(shell.newId()))), unknownFields: {} };
  await inTurn(shell, async () => {
    await shell.keeper.begin(whole);
    showCase(shell, whole);
  });
}
