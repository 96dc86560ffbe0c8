import type { FilmPlace, FilmRecord } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { pictureKey, placeOf } from '../../case/film-place.ts';
import type { Film } from '../../film/film.ts';
import { reasonOf } from '../../geometry/result.ts';
import { sha256Of } from '../../workers/sha256.ts';
import { caseShown, put, type Shell, say, sayOfFilm } from '../shell.ts';
import { chooseFilm, decode, remember } from './film-actions.ts';
import { filmRecordOf, type Onto } from './film-record.ts';

/** A film that is to be added. */
export interface Wanted {
  readonly bytes: () => Promise<ArrayBuffer>;
  readonly fileName: string;
  readonly onto: Onto;
  /** What is known of it besides what its file says. */
  readonly known?: Partial<FilmRecord>;
  /** Which picture of the file. */
  readonly place?: FilmPlace;
  /** Where it is decoded already. */
  readonly film?: Film;
}

/**
 * Decodes a film, keeps its bytes, puts it into the case with what is known of it besides, and shows it.
 *
 * @param leavesPlate - Whether a film that is on the plate by then stays there.
 * @returns Null where it cannot be read, or where another case has taken the place of the one it was opened in.
 */
export async function addFilm(
  shell: Shell,
  wanted: Wanted,
  { leavesPlate = false }: { readonly leavesPlate?: boolean } = {},
): Promise<FilmRecord | null> {
  const begun = caseShown(shell);
  const ready = await prepare(shell, wanted, []);
  if (caseShown(shell) !== begun) return null;
  if (ready === null || ready.inCase) return ready?.record ?? null;
  if (!put(shell, 'open a film', ready.record)) return null;
  if (!leavesPlate || shell.store.getState().chosenFilm === null) chooseFilm(shell, ready.record.id);
  sayNotes(shell, ready);
  return ready.record;
}

/**
 * Adds several films as one action and shows the first of them. They join the case together once all are decoded:
 * each change of the case draws the form and the strip anew, which takes the page's time. A film that cannot be
 * read is said, and keeps none of the others out.
 *
 * @param onProgress - How many are decoded.
 */
export async function addFilms(
  shell: Shell,
  films: readonly Wanted[],
  onProgress: (done: number) => void,
): Promise<void> {
  const begun = caseShown(shell);
  const fresh: Prepared[] = [];
  for (const [index, wanted] of films.entries()) {
    if (caseShown(shell) !== begun) break;
    const ready = await prepare(shell, wanted, fresh);
    if (ready !== null && !ready.inCase) fresh.push(ready);
    onProgress(index + 1);
  }
  if (caseShown(shell) !== begun) {
    say(shell, addedToNeither(films.length));
    return;
  }
  const first = fresh[0];
  if (first === undefined) return;
  const label = fresh.length === 1 ? 'open a film' : `open ${fresh.length} films`;
  if (!put(shell, label, ...fresh.map(({ record }) => record))) return;
  // The strip is drawn with the films, then the plate with the first of them: two tasks, not one long one.
  await new Promise((resolve) => setTimeout(resolve));
  chooseFilm(shell, first.record.id);
  for (const one of fresh) sayNotes(shell, one);
}

export const addedToNeither = (count: number): string =>
  count === 1
    ? 'Another case was opened while the film was being read, so it was added to neither. Open it again in its case.'
    : `Another case was opened while ${count} films were being read, so they were added to neither. Open them again in their case.`;

/** A film whose bytes are kept. */
interface Prepared {
  readonly record: FilmRecord;
  /** The case holds it already, and it is shown. */
  readonly inCase: boolean;
  readonly fileName: string;
  readonly notes: readonly string[];
}

/** @param beside - Films that will join the case with this one. */
async function prepare(
  shell: Shell,
  { bytes: read, fileName, onto, known, place, film }: Wanted,
  beside: readonly Prepared[],
): Promise<Prepared | null> {
  const bytes = await read().catch((thrown: unknown) => {
    const why = reasonOf(thrown);
    say(shell, `${fileName} could not be read (${why}), so it was not added. Open it again.`);
    return null;
  });
  if (bytes === null) return null;
  const sha256 = await sha256Of(bytes);
  const isThis = (one: FilmRecord) => one.sha256 === sha256 && placeOf(one).frame === (place?.frame ?? 0);
  if (beside.some(({ record }) => isThis(record))) {
    say(shell, `${fileName} holds the same film as another of these files, so it was added once.`);
    return null;
  }
  const already = markedFilms(shell.store.getState().caseState.document).find((one) =>
    isThis(one.film),
  )?.film;
  if (already !== undefined) {
    await showAgain(shell, already, bytes, fileName);
    return { record: already, inCase: true, fileName, notes: [] };
  }
  const decoded = film ?? (await decode(shell, bytes, fileName, place));
  if (decoded === null) return null;
  await shell.keeper.keepFilm(sha256, bytes);
  const file = { id: shell.newId(), sha256, ...(place === undefined ? {} : { place }) };
  const record = { ...filmRecordOf(decoded, file, onto), ...known };
  // Invented films are shared on purpose: every sample case has the same ones.
  if (!record.invented) await sayWhoElseHasIt(shell, sha256, fileName);
  await remember(shell, record, decoded);
  return { record, inCase: false, fileName, notes: decoded.facts.notes };
}

function sayNotes(shell: Shell, { fileName, notes }: Prepared): void {
  for (const note of notes) sayOfFilm(shell, `${fileName}: ${note}`);
}

/** The same film in two cases is as a rule a film opened in the wrong one. */
async function sayWhoElseHasIt(shell: Shell, sha256: string, fileName: string): Promise<void> {
  const { id } = shell.store.getState().caseState.document;
  const cases = await shell.keeper.list();
  const other = cases.find((one) => one.id !== id && one.filmHashes.includes(sha256));
  if (other === undefined) return;
  const label = other.label === '' ? 'a case without a label' : `the case “${other.label}”`;
  sayOfFilm(shell, `${fileName} is also in ${label}. Check that it belongs to this hand.`);
}

/** A file whose film the case holds: shown, and brought back where its bytes were no longer kept here. */
async function showAgain(
  shell: Shell,
  film: FilmRecord,
  bytes: ArrayBuffer,
  fileName: string,
): Promise<void> {
  const here = shell.store.getState().films.has(pictureKey(film));
  if (!here) await shell.keeper.keepFilm(film.sha256, bytes);
  chooseFilm(shell, film.id);
  if (here)
    sayOfFilm(shell, `${fileName} is already in this case, so it was not added again; it is shown now.`);
}
