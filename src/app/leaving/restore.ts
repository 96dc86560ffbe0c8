import { change } from '../../case/apply.ts';
import type { CaseId, CaseRecord, FilmRecord, MarkRecord, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { filmFollowing } from '../../case/film-scale.ts';
import { markId } from '../../case/marks.ts';
import { type RestoredMark, readBack } from '../../record/dicom/read-back.ts';
import { uidOf } from '../../record/dicom/uids.ts';
import { recordErrorSentence } from '../../record/record-error.ts';
import { chooseFilm } from '../films/film-actions.ts';
import { caseShown, perform, type Shell, say } from '../shell.ts';
import { sourcesOf } from './objects.ts';
import { keyedHash } from './secret.ts';

/**
 * Puts the marks of a report or presentation state that this program wrote back on the films they were placed on,
 * as one action. A film is known by the identifier in its own file, or by what this browser writes in its place.
 * Says what was done, or why nothing was.
 *
 * @param into - The case it was let go over; where another one has taken its place by now, no mark is put back.
 */
export async function restoreMarks(
  shell: Shell,
  name: string,
  bytes: Uint8Array,
  into: CaseId,
): Promise<void> {
  const read = readBack(bytes);
  if (!read.ok) {
    say(shell, recordErrorSentence(read.error, `“${name}”`));
    return;
  }
  const filmOf = await filmsByInstance(shell);
  if (caseShown(shell) !== into) {
    say(
      shell,
      `Another case was opened while “${name}” was being read, so its marks were put on no film. Drop it again over its case.`,
    );
    return;
  }
  const { document } = shell.store.getState().caseState;
  const records: MarkRecord[] = [];
  let strangers = 0;
  for (const mark of read.value) {
    const filmId = filmOf.get(instanceKey(mark.sopInstanceUid, mark.frame));
    if (filmId === undefined) strangers += 1;
    else records.push(markOn(filmId, mark));
  }
  if (records.length === 0) {
    say(
      shell,
      `“${name}” holds ${countOf(strangers)} for a film that is not in this case, or whose file is not kept here. Open the film, then drop “${name}” again.`,
    );
    return;
  }
  // Two marks may make one scale, so each is seen with all of them in place.
  const placed = {
    ...document,
    records: { ...document.records, ...Object.fromEntries(records.map((mark) => [mark.id, mark])) },
  };
  const following = records.flatMap((mark): readonly CaseRecord[] => {
    const film = filmFollowing(placed, mark, false);
    return film === null ? [] : [film];
  });
  const transaction = change(document, 'restore marks', shell.now(), ...records, ...following);
  if (transaction.steps.length === 0) {
    say(shell, `The marks of “${name}” are on their films already, so nothing was changed.`);
    return;
  }
  if (!perform(shell, { kind: 'do', transaction })) return;
  const [first] = records;
  if (first !== undefined) chooseFilm(shell, first.filmId);
  const rest =
    strangers === 0
      ? ''
      : strangers === 1
        ? ' One mark more lies on a film that is not in this case: open it and drop this again.'
        : ` ${countOf(strangers)} more lie on films that are not in this case: open them and drop it again.`;
  say(shell, `${countOf(records.length)} from “${name}” ${records.length === 1 ? 'is' : 'are'} back.${rest}`);
}

const countOf = (marks: number): string => `${marks} ${marks === 1 ? 'mark' : 'marks'}`;

const instanceKey = (uid: string, frame: number | null): string => `${uid}/${frame ?? ''}`;

/** Films of the case by the identifiers under which an object of ours may name them. */
async function filmsByInstance(shell: Shell): Promise<ReadonlyMap<string, FilmRecord['id']>> {
  const hash = await keyedHash();
  const { sources } = await sourcesOf(shell);
  const films = new Map<string, RecordId>();
  // A file of which the case has two films: the one that came first takes the marks.
  for (const { film } of markedFilms(shell.store.getState().caseState.document).toReversed()) {
    const source = sources.get(film.id);
    if (source === undefined) continue;
    films.set(instanceKey(source.sopInstanceUid, source.frame), film.id);
    films.set(instanceKey(await uidOf(hash, source.sopInstanceUid), source.frame), film.id);
  }
  return films;
}

function markOn(filmId: RecordId, { role, shape, provenance, tracing }: RestoredMark): MarkRecord {
  return {
    kind: 'mark',
    id: markId(filmId, role),
    filmId,
    role,
    shape,
    provenance,
    ...(tracing === undefined ? {} : { tracing }),
  };
}
