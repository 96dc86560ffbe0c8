import { removal } from '../../case/apply.ts';
import type { FilmRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import type { Film } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { sha256Of } from '../../workers/sha256.ts';
import { perform, put, type Shell, say } from '../shell.ts';
import type { DecodeError } from './decoder.ts';
import { filmRecordOf } from './film-record.ts';
import { thumbnailOf } from './thumbnail.ts';

export interface Onto {
  readonly hand: FilmRecord['hand'];
  readonly day: number | null;
}

/** Decodes a film, keeps its bytes, and puts it into the case with what is known of it besides. */
export async function addFilm(
  shell: Shell,
  bytes: ArrayBuffer,
  fileName: string,
  onto: Onto,
  known: Partial<FilmRecord> = {},
): Promise<FilmRecord | null> {
  const sha256 = await sha256Of(bytes);
  const already = markedFilms(shell.store.getState().caseState.document).find(
    ({ film }) => film.sha256 === sha256,
  );
  if (already !== undefined) {
    chooseFilm(shell, already.film.id);
    say(shell, `${fileName} is already in this case, so it was not added again; it is shown now.`);
    return already.film;
  }
  const film = await decodeKeeping(shell, bytes, sha256, fileName);
  if (film === null) return null;
  const record = { ...filmRecordOf(film, { id: shell.newId(), sha256 }, onto), ...known };
  if (!put(shell, 'open a film', record)) return null;
  chooseFilm(shell, record.id);
  for (const note of film.facts.notes) say(shell, `${fileName}: ${note}`);
  return record;
}

/** Decodes and remembers a film; its bytes are kept on this computer before it joins the case. */
async function decodeKeeping(
  shell: Shell,
  bytes: ArrayBuffer,
  sha256: string,
  fileName: string,
): Promise<Film | null> {
  const decoded = await shell.decoder.decode(bytes.slice(0));
  if (!decoded.ok) {
    say(shell, decodeSentence(decoded.error, fileName));
    return null;
  }
  await shell.keeper.keepFilm(sha256, bytes);
  await remember(shell, sha256, decoded.value);
  return decoded.value;
}

export function decodeSentence(error: DecodeError, fileName: string): string {
  return error.kind === 'took-too-long'
    ? `${fileName} took longer than ${error.seconds} seconds to decode and was given up. Export it uncompressed and open it again.`
    : sentence(error, fileName);
}

async function remember({ store }: Shell, sha256: string, film: Film): Promise<void> {
  const thumbnail = await thumbnailOf(film);
  store.setState(({ films, thumbnails }) => ({
    films: new Map(films).set(sha256, film),
    thumbnails: new Map(thumbnails).set(sha256, thumbnail),
  }));
}

/** Decodes the films of the case that are not decoded yet; the chosen one first. */
export async function loadFilms(shell: Shell): Promise<void> {
  const { caseState, chosenFilm } = shell.store.getState();
  const records = markedFilms(caseState.document)
    .map(({ film }) => film)
    .sort((one, other) => Number(other.id === chosenFilm) - Number(one.id === chosenFilm));
  for (const record of records) {
    if (shell.store.getState().films.has(record.sha256)) continue;
    const bytes = await shell.keeper.filmBytes(record.sha256);
    const name = `The ${record.hand === 'other' ? 'other hand’s ' : ''}film of this case`;
    if (bytes === null) {
      say(shell, `${name} is not kept on this computer. Open its file again and its marks will be on it.`);
      continue;
    }
    const decoded = await shell.decoder.decode(bytes);
    if (decoded.ok) await remember(shell, record.sha256, decoded.value);
    else say(shell, decodeSentence(decoded.error, name));
  }
}

export function chooseFilm({ store }: Shell, id: RecordId): void {
  store.setState({ chosenFilm: id, task: null });
}

export function removeFilm(shell: Shell, id: RecordId): void {
  const { document } = shell.store.getState().caseState;
  const transaction = removal(document, 'take a film out', shell.now(), id);
  if (!perform(shell, { kind: 'do', transaction })) return;
  const left = markedFilms(shell.store.getState().caseState.document)[0];
  shell.store.setState({ chosenFilm: left?.film.id ?? null, task: null });
}
