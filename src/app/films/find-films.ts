import type { CaseId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { placeOf } from '../../case/film-place.ts';
import type { Film } from '../../film/film.ts';
import { sniff } from '../../film/sniff.ts';
import { reasonOf } from '../../geometry/result.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import type { FoundFilm, LeftOut } from '../../ui/opening/found.ts';
import { sha256Of } from '../../workers/sha256.ts';
import { caseShown, type Shell, say } from '../shell.ts';
import { addedToNeither, addFilms } from './add-films.ts';
import { decodeSentence, type OnFirst } from './decoder.ts';
import type { Dropped, DroppedFile } from './dropped-files.ts';
import type { Onto } from './film-record.ts';
import { statedView } from './film-view.ts';
import type { Candidate } from './found-films.ts';
import { comparePatients } from './same-patient.ts';

/** Up to so many films are added without a list, or are chosen in it beforehand. */
const FEW = 4;
/** More reasons than these are listed instead of said one by one. */
const MOST_SENTENCES = 3;

/**
 * Looks through what was dropped. A few files that are plain films go into the case at once; from a folder, an
 * archive, a file of several pictures, or films that name different patients the user chooses in a list.
 *
 * @param into - The case they were let go over; where another one has taken its place by now, none is added.
 * @param onFirst - Given a coarse picture of the first film while it is read, if that film takes the plate next.
 */
export async function findFilms(
  shell: Shell,
  dropped: Dropped,
  onto: Onto,
  into: CaseId,
  onFirst: OnFirst,
): Promise<void> {
  const { found } = shell;
  found.close();
  const search = found.search;
  found.onto = onto;
  let listed = dropped.fromFolder || dropped.files.length > FEW;
  found.store.setState({
    found: listed
      ? { films: [], leftOut: [], looked: 0, of: dropped.files.length, adding: null, patientsDiffer: false }
      : null,
  });
  const films: FoundFilm[] = [];
  const leftOut: LeftOut[] = [];
  const show = (looked: number) =>
    found.show((before) => ({ ...before, films: [...films], leftOut: [...leftOut], looked }));
  for (const [index, file] of dropped.files.entries()) {
    const inside = await lookInto(shell, file);
    if (found.search !== search) return;
    listed ||= inside.isArchive;
    leftOut.push(...inside.leftOut);
    for (const one of inside.films) {
      // A film on the plate is worked on until the next one is whole.
      const showsFirst = films.length === 0 && !listed && shell.store.getState().chosenFilm === null;
      const read = await readCandidate(
        shell,
        one,
        films.length < FEW && !listed,
        showsFirst ? (picture) => found.search === search && onFirst(picture) : undefined,
      );
      if (read === null || found.search !== search) return;
      if ('reason' in read) leftOut.push(read);
      else {
        const id = shell.newId();
        found.candidates.set(id, read.candidate);
        films.push({ ...read.shown, id });
      }
      show(index);
    }
    show(index + 1);
  }
  if (dropped.cutShort)
    leftOut.push({
      name: '',
      reason: 'There were more files than are looked through. Drop a smaller folder.',
    });
  const ofCase = await patientsOfCase(shell);
  if (found.search !== search) return;
  if (caseShown(shell) !== into && films.length > 0) {
    found.close();
    say(shell, addedToNeither(films.length));
    return;
  }
  await settle(shell, films, ofCase, leftOut, dropped.files.length, listed);
}

/** All is looked through: the films are added, or what was found is listed. */
async function settle(
  shell: Shell,
  films: readonly FoundFilm[],
  ofCase: ReadonlySet<string>,
  leftOut: readonly LeftOut[],
  of: number,
  listed: boolean,
): Promise<void> {
  const { found } = shell;
  const { search } = found;
  const whose = films.map(({ id }) => ({ id, patient: found.candidates.get(id)?.patient ?? null }));
  const patients = comparePatients(whose, ofCase);
  const choices = listed || patients.differ || films.some((film) => film.frames > 1);
  const chosen = films.map(
    (film): FoundFilm => ({
      ...film,
      patient: patients.names.get(film.id) ?? null,
      chosen: !film.inCase && films.length <= FEW && patients.unquestioned.has(film.id),
    }),
  );
  const needsList = choices ? films.length + leftOut.length > 0 : leftOut.length > MOST_SENTENCES;
  if (!choices) await addAll(shell, chosen);
  // While the films were added something else may have been dropped: the list is then of that.
  if (needsList && found.search === search) {
    const left = choices ? chosen : [];
    found.store.setState({
      found: { films: left, leftOut, looked: of, of, adding: null, patientsDiffer: patients.differ },
    });
    return;
  }
  for (const { reason } of leftOut) say(shell, reason);
  if (films.length + leftOut.length === 0)
    say(shell, 'There was no file in it. Drop the folder that holds the films.');
  found.end(search);
}

/**
 * Patients that films of the case name, also of those that were opened on another day, as far as their bytes are
 * kept here. Invented films are nobody's.
 */
async function patientsOfCase({ store, found, keeper, decoder }: Shell): Promise<ReadonlySet<string>> {
  const films = markedFilms(store.getState().caseState.document).map(({ film }) => film);
  for (const { sha256, format, invented } of films) {
    if (invented || format !== 'dicom' || found.patients.has(sha256)) continue;
    const bytes = await keeper.filmBytes(sha256);
    if (bytes === null) continue;
    const key = await decoder.patientKey(bytes);
    if (key.ok) found.patients.set(sha256, key.value);
  }
  return new Set(films.flatMap(({ sha256 }) => found.patients.get(sha256) ?? []));
}

interface Inside {
  readonly isArchive: boolean;
  readonly films: readonly Pick<Candidate, 'name' | 'bytes'>[];
  readonly leftOut: readonly LeftOut[];
}

async function lookInto(shell: Shell, { name, file }: DroppedFile): Promise<Inside> {
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch (thrown) {
    return { isArchive: false, films: [], leftOut: [unreadable(name, thrown)] };
  }
  const kind = sniff(new Uint8Array(bytes));
  const isArchive = kind.kind === 'other' && kind.looksLike === 'a ZIP archive';
  const looked = await shell.decoder.lookInside({ name, bytes: new Uint8Array(bytes) });
  if (!looked.ok)
    return { isArchive, films: [], leftOut: [{ name, reason: decodeSentence(looked.error, name) }] };
  const { films, leftOut } = looked.value;
  return {
    isArchive,
    films: films.map((film) =>
      isArchive
        ? { name: `${name} / ${film.name}`, bytes: () => Promise.resolve(copyOf(film.bytes)) }
        : { name, bytes: () => file.arrayBuffer() },
    ),
    leftOut: leftOut.map((one) => {
      const inArchive = isArchive && one.name !== name ? `${name} / ${one.name}` : one.name;
      return { name: inArchive, reason: decodeSentence(one.error, inArchive) };
    }),
  };
}

function unreadable(name: string, thrown: unknown): LeftOut {
  const why = reasonOf(thrown);
  return {
    name,
    reason: `“${name}” could not be read (${why}). Copy it to this computer and open it again.`,
  };
}

/** The bytes of a file that was found; it may have been taken away or changed since it was looked into. */
export async function bytesOf({
  name,
  bytes,
}: Pick<Candidate, 'name' | 'bytes'>): Promise<LeftOut | { readonly bytes: ArrayBuffer }> {
  try {
    return { bytes: await bytes() };
  } catch (thrown) {
    return unreadable(name, thrown);
  }
}

const copyOf = (bytes: Uint8Array): ArrayBuffer => bytes.slice().buffer as ArrayBuffer;

/** What is known of a film that was found, or why there is none; null where the search was given up meanwhile. */
async function readCandidate(
  shell: Shell,
  file: Inside['films'][number],
  keepDecoded: boolean,
  onFirst?: OnFirst,
): Promise<LeftOut | { readonly candidate: Candidate; readonly shown: Omit<FoundFilm, 'id'> } | null> {
  const { search } = shell.found;
  const { name, bytes } = file;
  const read = await bytesOf(file);
  if ('reason' in read) return read;
  const whole = read.bytes;
  const sha256 = await sha256Of(whole);
  const key = await shell.decoder.patientKey(whole.slice(0));
  const patient = key.ok ? key.value : null;
  if (key.ok) shell.found.patients.set(sha256, patient);
  const decoded = await shell.decoder.decode(whole, undefined, onFirst);
  if (!decoded.ok) return { name, reason: decodeSentence(decoded.error, name) };
  const film = decoded.value;
  const thumbnail = await shell.found.pictureFor(search, film);
  if (thumbnail === null) return null;
  const inCase = isInCase(shell, sha256, 0);
  return {
    candidate: { name, sha256, bytes, film: keepDecoded ? film : null, patient },
    shown: {
      name,
      kind: kindOf(film),
      stated: statedOf(film),
      thumbnail,
      frames: film.frame?.count ?? 1,
      frame: 0,
      patient: null,
      inCase,
      chosen: false,
    },
  };
}

export const isInCase = ({ store }: Shell, sha256: string, frame: number): boolean =>
  markedFilms(store.getState().caseState.document).some(
    ({ film }) => film.sha256 === sha256 && placeOf(film).frame === frame,
  );

const FORMAT_NAMES = { dicom: 'DICOM', png: 'PNG', jpeg: 'JPEG' } as const;

function kindOf({ facts, columns, rows }: Film): string {
  const format = facts.modality === null ? FORMAT_NAMES[facts.format] : `DICOM, ${facts.modality}`;
  return `${format} · ${columns} × ${rows} pixels`;
}

const SIDE_NAMES = { L: 'left', R: 'right', B: 'both sides', U: null } as const;

function statedOf({ facts }: Film): string | null {
  const view = statedView(facts);
  const side = facts.laterality === null ? null : SIDE_NAMES[facts.laterality];
  const stated = [view === null ? facts.viewPosition : VIEW_WORDS[view], side].filter(
    (word) => word !== null,
  );
  return stated.length === 0 ? null : `the file says ${stated.join(', ')}`;
}

/** Adds films of the list, and says in the list how far it is. */
export async function addAll(shell: Shell, films: readonly FoundFilm[]): Promise<void> {
  const { found } = shell;
  const { candidates, onto, search } = found;
  const wanted = films.flatMap(({ id, frame }) => {
    const candidate = candidates.get(id);
    if (candidate === undefined) return [];
    const { name: fileName, bytes, film } = candidate;
    const place = frame === 0 ? {} : { place: { frame, part: null } };
    return [{ bytes, fileName, onto, ...place, ...(film === null ? {} : { film }) }];
  });
  await addFilms(shell, wanted, (adding) => {
    if (found.search === search) found.show((before) => ({ ...before, adding }));
  });
}
