import { unzipSync } from 'fflate';
import { MANIFEST_ENTRY } from '../case/archive-format.ts';
import { looksLikeZip } from '../case/case-archive.ts';
import type { CaseId } from '../case/document.ts';
import { importArchive, openCaseText } from './cases/import-cases.ts';
import type { Dropped, DroppedFile } from './films/dropped-files.ts';
import type { Onto } from './films/film-record.ts';
import { findFilms } from './films/find-films.ts';
import { withFirstPicture } from './films/first-picture.ts';
import { isRecordObject, START_BYTES } from './leaving/is-record-object.ts';
import { caseShown, type Shell } from './shell.ts';

/**
 * Case files and case archives are opened as cases, DICOM reports give marks back, all else may be films.
 *
 * @param into - The case that was on screen when they were let go; what lies beside a case file joins that one.
 */
export async function takeDropped(shell: Shell, dropped: Dropped, onto: Onto, into: CaseId): Promise<void> {
  const { films, objects, openedCase } = await sorted(shell, dropped);
  const ofCase = openedCase ? caseShown(shell) : into;
  if (films !== null) {
    await withFirstPicture(shell, ofCase, (onFirst) => findFilms(shell, films, onto, ofCase, onFirst));
  }
  // After the films, which may be the ones they belong to.
  if (objects.length > 0) await restoreAll(shell, objects, ofCase);
}

interface Sorted {
  /** Null when nothing was dropped that may be a film. */
  readonly films: Dropped | null;
  /** DICOM reports and presentation states. */
  readonly objects: readonly DroppedFile[];
  /** Whether a case among it has taken the place of the one on screen. */
  readonly openedCase: boolean;
}

/** Opens the case files among what was dropped by itself, and sorts the rest. */
async function sorted(shell: Shell, dropped: Dropped): Promise<Sorted> {
  // In a folder a case file is one file among others, and would take the place of the case on screen.
  if (dropped.fromFolder) return { films: dropped, objects: [], openedCase: false };
  const files: DroppedFile[] = [];
  const objects: DroppedFile[] = [];
  let openedCase = false;
  for (const one of dropped.files) {
    if (await openAsCase(shell, one)) {
      openedCase = true;
      continue;
    }
    (isRecordObject(await startOf(one, START_BYTES)) ? objects : files).push(one);
  }
  return {
    films: files.length === 0 && dropped.files.length > 0 ? null : { ...dropped, files },
    objects,
    openedCase,
  };
}

async function restoreAll(shell: Shell, objects: readonly DroppedFile[], into: CaseId): Promise<void> {
  const { restoreMarks } = await import('./leaving/restore.ts');
  for (const { name, file } of objects)
    await restoreMarks(shell, name, new Uint8Array(await file.arrayBuffer()), into);
}

/** The first bytes of a file; none where it cannot be read, which is said by whoever reads it whole. */
const startOf = async ({ file }: DroppedFile, bytes: number): Promise<Uint8Array> =>
  new Uint8Array(
    await file
      .slice(0, bytes)
      .arrayBuffer()
      .catch(() => new ArrayBuffer(0)),
  );

async function openAsCase(shell: Shell, dropped: DroppedFile): Promise<boolean> {
  const { name, file } = dropped;
  const start = await startOf(dropped, 64);
  if (looksLikeJson(start)) {
    const text = await file.text();
    if (isOfClassroom(text)) shell.store.setState({ place: 'classroom', handed: { name, text } });
    else await openCaseText(shell, text, name);
    return true;
  }
  if (!looksLikeZip(start)) return false;
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (!isCaseArchive(bytes)) return false;
  await importArchive(shell, bytes, name);
  return true;
}

/** `{` after a byte-order mark or white space: no film begins so, a case file does. */
const looksLikeJson = (start: Uint8Array): boolean => /^\uFEFF?\s*\{/.test(new TextDecoder().decode(start));

/** A set of films, a study or attempts; the classroom, fetched when it is entered, reads and checks them. */
const isOfClassroom = (text: string): boolean =>
  /^\uFEFF?\s*\{\s*"format"\s*:\s*"raybend-(film-set|study|attempts)"/.test(text.slice(0, 200));

/** A ZIP with a manifest of ours in it; any other is a clinic's, with films. */
function isCaseArchive(bytes: Uint8Array): boolean {
  let ours = false;
  try {
    unzipSync(bytes, {
      filter: ({ name }) => {
        ours ||= name === MANIFEST_ENTRY;
        return false;
      },
    });
  } catch {
    // Looked at again, and refused with its reason, as an archive of films.
    return false;
  }
  return ours;
}
