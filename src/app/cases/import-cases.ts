import type { Archive } from '../../case/archive-format.ts';
import { archiveErrorSentence, damagedCaseSentence } from '../../case/archive-format.ts';
import { filmsNamedBy, readArchive } from '../../case/case-archive.ts';
import { caseFileErrorSentence } from '../../case/case-content.ts';
import { readCaseFile } from '../../case/case-file.ts';
import type { CaseId } from '../../case/document.ts';
import type { CaseState } from '../../case/history.ts';
import { sha256Of } from '../../workers/sha256.ts';
import { type Shell, say } from '../shell.ts';
import { openCase } from './case-list-actions.ts';
import { type TakenIn, takeIn } from './take-in.ts';

/** Opens a case file's text and puts the case on screen; if it cannot be opened, says why. */
export async function openCaseText(shell: Shell, text: string, fileName: string): Promise<void> {
  const read = await readCaseFile(text, sha256Of);
  if (!read.ok) {
    say(shell, caseFileErrorSentence(read.error, fileName));
    return;
  }
  const { state, films } = read.value;
  for (const { sha256, bytes } of films) await shell.keeper.keepFilm(sha256, bytes.buffer);
  const taken = await takeIn(shell, read.value);
  say(shell, takenInSentence(fileName, [taken]));
  if (taken.kind !== 'refused') await openCase(shell, state.document.id);
}

/** Takes in every case of an archive, with its films; one that cannot be read is named and the others go on. */
export async function importArchive(
  shell: Shell,
  bytes: Uint8Array<ArrayBuffer>,
  fileName: string,
): Promise<void> {
  const read = await readArchive(bytes, sha256Of);
  if (!read.ok) {
    say(shell, archiveErrorSentence(read.error, fileName));
    return;
  }
  const archive = read.value;
  const taken: TakenIn[] = [];
  const wanting = { missing: 0, changed: 0 };
  let last: CaseId | null = null;
  for (const { file } of archive.cases) {
    const films = await keepFilms(shell, archive, file.state);
    wanting.missing += films.missing;
    wanting.changed += films.changed;
    const outcome = await takeIn(shell, file);
    taken.push(outcome);
    if (outcome.kind !== 'refused') last = file.state.document.id;
  }
  const [firstDamaged, ...moreDamaged] = archive.damaged;
  if (firstDamaged !== undefined) {
    const more =
      moreDamaged.length === 0
        ? ''
        : ` ${moreDamaged.length === 1 ? 'One more case' : `${moreDamaged.length} more cases`} in it could not be read.`;
    say(shell, `${damagedCaseSentence(firstDamaged, fileName)}${more}`);
  }
  const filmWords = wantingSentence(wanting);
  if (filmWords !== null) say(shell, `${fileName}: ${filmWords}`);
  say(shell, takenInSentence(fileName, taken));
  if (archive.cases.length === 1 && last !== null) await openCase(shell, last);
}

/** Keeps the films that a case names, as far as they are in the archive and not here already. */
async function keepFilms(shell: Shell, archive: Archive, state: CaseState) {
  const found = { missing: 0, changed: 0 };
  for (const { sha256 } of filmsNamedBy(state)) {
    if ((await shell.keeper.filmBytes(sha256)) !== null) continue;
    const film = await archive.film(sha256);
    if (film.ok) await shell.keeper.keepFilm(sha256, film.value.buffer);
    else if (film.error.kind === 'film-not-in-archive') found.missing += 1;
    else found.changed += 1;
  }
  return found;
}

function wantingSentence({ missing, changed }: { missing: number; changed: number }): string | null {
  const parts = [
    ...(missing > 0
      ? [`${films(missing)} named by the cases ${missing === 1 ? 'is' : 'are'} not in the file`]
      : []),
    ...(changed > 0
      ? [
          `${films(changed)} in it ${changed === 1 ? 'is' : 'are'} not what was measured and ${changed === 1 ? 'was' : 'were'} left out`,
        ]
      : []),
  ];
  return parts.length === 0
    ? null
    : `${parts.join(', and ')}. The marks are kept: open the film’s own file and they will be on it.`;
}

const films = (count: number): string => (count === 1 ? 'a film' : `${count} films`);

/** What became of the cases of a file, in one sentence. */
export function takenInSentence(fileName: string, taken: readonly TakenIn[]): string {
  const count = (...kinds: readonly TakenIn['kind'][]) =>
    taken.filter(({ kind }) => kinds.includes(kind)).length;
  const cases = (number: number) => (number === 1 ? '1 case' : `${number} cases`);
  const [fresh, same, merged] = [count('new'), count('same'), count('merged', 'conflicts')];
  const [mended, refused] = [count('mended'), count('refused')];
  const conflicts = taken.reduce(
    (sum, one) => sum + (one.kind === 'conflicts' ? one.conflicts.length : 0),
    0,
  );
  const parts = [
    ...(fresh > 0 ? [`${cases(fresh)} taken in`] : []),
    ...(mended > 0 ? [`${cases(mended)} put in place of one that could not be read`] : []),
    ...(merged > 0 ? [`${cases(merged)} put together with the one kept here`] : []),
    ...(same > 0 ? [`${cases(same)} already here and the same`] : []),
    ...(refused > 0 ? [`${cases(refused)} not kept`] : []),
  ];
  const outcome = parts.length === 0 ? 'no case in it could be read' : parts.join(', ');
  const undecided =
    conflicts === 0
      ? ''
      : ` ${conflicts === 1 ? 'One thing was' : `${conflicts} things were`} changed on both sides; nothing is lost, decide under Cases.`;
  return `${fileName}: ${outcome}.${undecided}`;
}
