import { removal } from '../../case/apply.ts';
import type { FilmPlace, FilmRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey } from '../../case/film-place.ts';
import type { Film } from '../../film/film.ts';
import { perform, type Shell, say } from '../shell.ts';
import { decodeSentence, type OnFirst } from './decoder.ts';
import { withFirstPicture } from './first-picture.ts';
import { thumbnailOf } from './thumbnail.ts';

/** Decodes a film, or says why it cannot be. The bytes stay with the caller. */
export async function decode(
  shell: Shell,
  bytes: ArrayBuffer,
  fileName: string,
  place?: FilmPlace,
  onFirst?: OnFirst,
): Promise<Film | null> {
  const decoded = await shell.decoder.decode(bytes.slice(0), place, onFirst);
  if (decoded.ok) return decoded.value;
  say(shell, decodeSentence(decoded.error, fileName));
  return null;
}

/** Decoded films take tens of megabytes each; beyond this many the one decoded first gives way. */
const MOST_DECODED = 12;

/** Keeps a decoded film and its small picture at hand while the page is open. */
export async function remember(
  { store }: Shell,
  record: Pick<FilmRecord, 'sha256' | 'place'>,
  film: Film,
): Promise<void> {
  const key = pictureKey(record);
  const thumbnail = store.getState().thumbnails.get(key) ?? (await thumbnailOf(film));
  store.setState(({ films, thumbnails, caseState, chosenFilm, beside }) => {
    const decoded = new Map(films);
    decoded.delete(key);
    decoded.set(key, film);
    const onPlate = [chosenFilm, beside].flatMap((id) => {
      const shown = id === null ? undefined : caseState.document.records[id];
      return shown?.kind === 'film' ? [pictureKey(shown)] : [];
    });
    for (const other of [...decoded.keys()]) {
      if (decoded.size > MOST_DECODED && other !== key && !onPlate.includes(other)) decoded.delete(other);
    }
    return { films: decoded, thumbnails: new Map(thumbnails).set(key, thumbnail) };
  });
}

/** Decodes the films of the case that are not decoded yet, the chosen one first; all at least once for the strip. */
export async function loadFilms(shell: Shell): Promise<void> {
  const { caseState, chosenFilm } = shell.store.getState();
  const records = markedFilms(caseState.document)
    .map(({ film }) => film)
    .sort((one, other) => Number(other.id === chosenFilm) - Number(one.id === chosenFilm));
  for (const record of records) {
    const now = shell.store.getState();
    if (now.caseState.document.id !== caseState.document.id) return;
    if (record.id === chosenFilm || !now.thumbnails.has(pictureKey(record))) await loadFilm(shell, record);
  }
}

/** Films being decoded, so that nobody who wants one decodes it a second time. */
const loading = new WeakMap<Shell, Map<string, Promise<void>>>();

/** Decodes one film of the case unless it is decoded; if it cannot be had, says why. */
export async function loadFilm(shell: Shell, record: FilmRecord): Promise<void> {
  const key = pictureKey(record);
  if (shell.store.getState().films.has(key)) return;
  const underWay = loading.get(shell) ?? new Map<string, Promise<void>>();
  loading.set(shell, underWay);
  const begun = underWay.get(key) ?? loadNow(shell, record).finally(() => underWay.delete(key));
  underWay.set(key, begun);
  await begun;
}

async function loadNow(shell: Shell, record: FilmRecord): Promise<void> {
  const bytes = await shell.keeper.filmBytes(record.sha256);
  const name = `The ${record.hand === 'other' ? 'other hand’s ' : ''}film of this case`;
  if (bytes === null) {
    say(shell, `${name} is not kept on this computer. Open its file again and its marks will be on it.`);
    return;
  }
  await withFirstPicture(shell, pictureKey(record), async (onFirst) => {
    const film = await decode(shell, bytes, name, record.place, onFirst);
    if (film !== null) await remember(shell, record, film);
  });
}

/** Puts a film of the case on the plate, and ends what was being placed. */
export function chooseFilm(shell: Shell, id: RecordId): void {
  shell.store.setState({ chosenFilm: id, task: null, repeats: null });
  const record = shell.store.getState().caseState.document.records[id];
  if (record?.kind === 'film') void loadFilm(shell, record);
}

/** Takes a film with its marks out of the case, as one action; the first of the others takes its place on the plate. */
export function removeFilm(shell: Shell, id: RecordId): void {
  const { document } = shell.store.getState().caseState;
  const transaction = removal(document, 'take a film out', shell.now(), id);
  if (!perform(shell, { kind: 'do', transaction })) return;
  const left = markedFilms(shell.store.getState().caseState.document)[0];
  if (left === undefined) shell.store.setState({ chosenFilm: null, task: null, repeats: null });
  else chooseFilm(shell, left.film.id);
}
