import { isEmpty, putRecord, removeRecord } from '../../case/apply.ts';
import type { FilmPlace, FilmRecord, KnownLength, RecordId, Transaction } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { pictureKey, placeOf } from '../../case/film-place.ts';
import {
  type ObjectSize,
  type ScaleFailure,
  withObjectScale,
  withoutMagnification,
  withoutScale,
} from '../../case/film-scale.ts';
import { settingsOf } from '../../case/fixed-records.ts';
import type { Film } from '../../film/film.ts';
import type { FilmPart } from '../../geometry/film-part.ts';
import type { FilmToolActions } from '../../ui/film-tools/film-tools.ts';
import { caseShown, perform, put, type Shell, say } from '../shell.ts';
import { addedToNeither, addFilm } from './add-films.ts';
import { chooseFilm, decode, remember } from './film-actions.ts';
import { filmRecordOf } from './film-record.ts';
import { pictureOf } from './thumbnail.ts';

/** Longest side of the still picture that parts are drawn on; a large screen shows no more of it. */
const STILL_SIDE = 1600;

/** What the film tools ask for, for one film of the case. */
export function filmToolActions(shell: Shell, filmId: RecordId): FilmToolActions {
  const film = () => {
    const record = shell.store.getState().caseState.document.records[filmId];
    return record?.kind === 'film' ? record : null;
  };
  const change = (label: string, changed: (film: FilmRecord) => FilmRecord | null) => {
    const before = film();
    const after = before === null ? null : changed(before);
    if (after !== null) put(shell, label, after);
  };
  const open = (place: FilmPlace) => {
    const record = film();
    if (record !== null) void openPicture(shell, record, place);
  };
  return {
    setScale: (size, giveOrTake, plane) => setScale(shell, filmId, size, giveOrTake, plane),
    addKnownLength: (size, giveOrTake) => addKnownLength(shell, filmId, size, giveOrTake),
    useFilesScale: () => change('go back to the scale of the file', withoutScale),
    divideByMagnification: () => change('divide by the estimated magnification', withoutMagnification),
    addPicture: (frame) => open({ frame, part: null }),
    addWhole: () => open({ frame: placeOf(film() ?? {}).frame, part: null }),
    still: async () => {
      const record = film();
      const decoded = record === null ? undefined : shell.store.getState().films.get(pictureKey(record));
      if (decoded === undefined) return null;
      const { columns, rows } = decoded;
      return { url: await pictureOf(decoded, STILL_SIDE), columns, rows };
    },
    split: (parts) => {
      const record = film();
      const taken = parts.map((part): FilmPart => ({ kind: 'rectangle', ...part }));
      if (record !== null) void takeParts(shell, record, taken, 'split the picture');
    },
    straighten: async (corners, widthToHeight) => {
      const record = film();
      // The sheet that calls this has fetched it already.
      const { straightening } = await import('../../geometry/slant.ts');
      const straight = straightening(corners, widthToHeight);
      if (record !== null && straight.ok)
        await takeParts(shell, record, [straight.value.part], 'straighten the photograph');
    },
    leaveSlanted: (upToDegrees) =>
      change('say that the photograph is slanted', (before) => ({ ...before, slant: { upToDegrees } })),
    notSlanted: () =>
      change('say that the photograph is not slanted', ({ slant: _gone, ...before }) => before),
  };
}

async function setScale(
  shell: Shell,
  filmId: RecordId,
  ...[size, giveOrTake, plane]: Parameters<FilmToolActions['setScale']>
): Promise<string | null> {
  const typed = await typedLength(size, giveOrTake);
  if (typeof typed === 'string') return typed;
  const scale = markedFilm(shell.store.getState().caseState.document, filmId)?.film.scale;
  const further = scale?.from === 'object' ? scale.further : undefined;
  return scaleBy(shell, filmId, 'set the scale', {
    ...typed,
    plane,
    ...(further === undefined ? {} : { further }),
  });
}

async function addKnownLength(
  shell: Shell,
  filmId: RecordId,
  ...[size, giveOrTake]: Parameters<FilmToolActions['addKnownLength']>
): Promise<string | null> {
  const further = await typedLength(size, giveOrTake);
  if (typeof further === 'string') return further;
  const marked = markedFilm(shell.store.getState().caseState.document, filmId);
  if (marked?.marks['scale-object-2'] === undefined) return 'Place the length on the film first.';
  const { scale } = marked.film;
  if (scale?.from !== 'object') return 'Set the scale by an object of known size first.';
  const { from: _from, inFile: _inFile, ...first } = scale;
  return scaleBy(shell, filmId, 'add a known length', { ...first, further });
}

/** Makes the objects on a film its scale; why not, as a sentence. */
function scaleBy(shell: Shell, filmId: RecordId, label: string, size: ObjectSize): string | null {
  const { document } = shell.store.getState().caseState;
  const marked = markedFilm(document, filmId);
  const object = marked?.marks['scale-object'];
  if (marked === null || object === undefined) return 'Place the object on the film first.';
  const further = marked.marks['scale-object-2'] ?? null;
  const scaled = withObjectScale(marked.film, object, size, settingsOf(document), further);
  if (!scaled.ok) return scaleFailureSentence(scaled.error);
  put(shell, label, scaled.value);
  return null;
}

/** A size and how far it may be off, as typed; what is wrong with them, as a sentence. */
async function typedLength(size: string, giveOrTake: string): Promise<KnownLength | string> {
  // Loaded when somebody types a size: the units are a large part of mathjs and used nowhere else.
  const { parseSize, parseGiveOrTake, sizeFailureSentence } = await import('../../geometry/typed-size.ts');
  const [sizeMm, spread] = [parseSize(size), parseGiveOrTake(giveOrTake)];
  if (!sizeMm.ok) return sizeFailureSentence(sizeMm.error);
  if (!spread.ok) return `Give or take: ${sizeFailureSentence(spread.error)}`;
  return {
    sizeMm: sizeMm.value,
    // Anywhere between the two ends is held equally likely: JCGM 100:2008, 4.3.7.
    sizeRelativeUncertainty: Math.min(1, spread.value / Math.sqrt(3) / sizeMm.value),
    typed: typedSize(size, giveOrTake),
  };
}

const typedSize = (size: string, giveOrTake: string): string =>
  giveOrTake.trim() === '' ? size.trim() : `${size.trim()} ± ${giveOrTake.trim()}`;

function scaleFailureSentence(error: ScaleFailure): string {
  switch (error.kind) {
    case 'object-too-small':
      return `The object covers ${Math.round(error.columns)} pixels, and ${error.neededColumns} are needed for a scale. Use a larger object or a finer film.`;
    case 'circle-not-defined':
      return `The points lie on ${Math.round(error.arc)}° of the rim, and ${Math.round(error.neededArc)}° are needed. Spread them around it.`;
    case 'too-few-points':
      return `The rim has ${error.found} of the ${error.needed} points it needs. Place it again.`;
    case 'not-a-scale-object':
      return 'Place the object on the film again, as a circle or by its two ends.';
  }
}

/** Another picture of a file of the case, as a further film of the same hand and day. */
async function openPicture(shell: Shell, { sha256, hand, day }: FilmRecord, place: FilmPlace): Promise<void> {
  const bytes = await shell.keeper.filmBytes(sha256);
  if (bytes === null) {
    say(shell, 'The file of this film is not kept on this computer. Open the file again.');
    return;
  }
  await addFilm(shell, {
    bytes: () => Promise.resolve(bytes),
    fileName: 'The picture',
    onto: { hand, day },
    place,
  });
}

/**
 * Makes parts of a film films of their own, which take over what was said of the whole. The whole goes, unless it
 * has marks; its file stays, since the parts are read from it.
 */
async function takeParts(
  shell: Shell,
  whole: FilmRecord,
  parts: readonly FilmPart[],
  label: string,
): Promise<void> {
  const begun = caseShown(shell);
  const bytes = await shell.keeper.filmBytes(whole.sha256);
  if (bytes === null) {
    say(
      shell,
      'The file of this film is not kept on this computer, so it cannot be cut. Open the file again.',
    );
    return;
  }
  const records: FilmRecord[] = [];
  for (const part of parts) {
    const place = { frame: placeOf(whole).frame, part };
    const film = await decode(shell, bytes, 'The picture', place);
    if (film === null) return;
    const record = partRecord(whole, film, shell.newId(), place);
    await remember(shell, record, film);
    records.push(record);
  }
  if (caseShown(shell) !== begun) {
    say(shell, addedToNeither(parts.length));
    return;
  }
  const { document } = shell.store.getState().caseState;
  const marks = Object.keys(markedFilm(document, whole.id)?.marks ?? {}).length;
  const transaction: Transaction = {
    label,
    at: shell.now(),
    steps: [
      ...records.map((record) => putRecord(document, record)),
      ...(marks > 0 ? [] : removeRecord(document, whole.id)),
    ],
  };
  const [first] = records;
  if (first === undefined || isEmpty(transaction)) return;
  if (perform(shell, { kind: 'do', transaction })) chooseFilm(shell, first.id);
}

/** A part keeps what the user said of the whole; view and scale hold for it where it was not straightened. */
function partRecord(whole: FilmRecord, film: Film, id: string, place: FilmPlace): FilmRecord {
  const fresh = filmRecordOf(film, { id, sha256: whole.sha256, place }, { hand: whole.hand, day: whole.day });
  const { slant, scale } = whole;
  const isCut = place.part?.kind === 'rectangle';
  return {
    ...fresh,
    moment: whole.moment,
    mirrored: whole.mirrored,
    invented: whole.invented,
    // Two exposures on one plate are two views: the view of the whole is not taken for theirs.
    ...(isCut ? {} : { view: whole.view, viewFrom: whole.viewFrom }),
    ...(isCut && slant !== undefined ? { slant } : {}),
    ...(isCut && scale !== undefined ? { scale, spacing: whole.spacing } : {}),
  };
}
