import { emptyCase } from '../case/apply.ts';
import { caseFileErrorSentence, type FilmBytes, readCaseFile, writeCaseFile } from '../case/case-file.ts';
import { caseId } from '../case/document.ts';
import { markedFilms } from '../case/film-marks.ts';
import { injuryOf } from '../case/fixed-records.ts';
import { type CaseState, freshState } from '../case/history.ts';
import { sha256Of } from '../workers/sha256.ts';
import { download } from './download.ts';
import { loadFilms } from './films/film-actions.ts';
import { type Shell, say } from './shell.ts';

/** Saves the case as a file, with its films inside if asked for. */
export async function saveCaseFile(shell: Shell, withFilms: boolean): Promise<void> {
  const { caseState } = shell.store.getState();
  const films: FilmBytes[] = [];
  if (withFilms) {
    for (const { film } of markedFilms(caseState.document)) {
      const bytes = await shell.keeper.filmBytes(film.sha256);
      if (bytes === null) {
        say(shell, 'A film of this case is not kept on this computer, so the file holds the others only.');
        continue;
      }
      films.push({ sha256: film.sha256, bytes: new Uint8Array(bytes) });
    }
  }
  const text = writeCaseFile({ state: caseState, films, unknownFields: {} });
  const label = injuryOf(caseState.document)
    .label.replace(/[^\p{L}\p{N} _-]/gu, '')
    .trim();
  download(`${label === '' ? 'raybend case' : label}.json`, new Blob([text], { type: 'application/json' }));
}

/** Opens a case file's text; if it cannot be opened, says why and leaves the open case as it is. */
export async function openCaseText(shell: Shell, text: string, fileName: string): Promise<void> {
  const read = await readCaseFile(text, sha256Of);
  if (!read.ok) {
    say(shell, caseFileErrorSentence(read.error, fileName));
    return;
  }
  for (const { sha256, bytes } of read.value.films) await shell.keeper.keepFilm(sha256, bytes.buffer);
  await shell.keeper.begin(read.value.state);
  await showCase(shell, read.value.state);
}

/** Makes a case the one on screen and decodes its films. */
export async function showCase(shell: Shell, state: CaseState): Promise<void> {
  const first = markedFilms(state.document)[0];
  shell.store.setState({
    caseState: state,
    chosenFilm: first?.film.id ?? null,
    task: null,
    lights: new Map(),
    views: new Map(),
  });
  await loadFilms(shell);
}

/** An empty case; the one on screen stays kept on this computer. */
export async function newCase(shell: Shell): Promise<void> {
  const state = freshState(emptyCase(caseId(shell.newId())));
  await shell.keeper.begin(state);
  await showCase(shell, state);
}
