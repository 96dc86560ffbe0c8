import { strFromU8, strToU8, unzipSync, Zip, ZipDeflate, ZipPassThrough } from 'fflate';
import { failure, type Result, reasonOf, success } from '../geometry/result.ts';
import {
  ARCHIVE_FORMAT,
  ARCHIVE_VERSION,
  type Archive,
  type ArchiveError,
  CASE_ENTRY,
  type DamagedCase,
  entryRefusal,
  FILM_ENTRY,
  MANIFEST_ENTRY,
  type Manifest,
  MOST_CASE_BYTES,
  manifestSchema,
} from './archive-format.ts';
import type { CaseFile } from './case-content.ts';
import { readCaseFile, writeCaseFile } from './case-file.ts';
import type { FilmRecord } from './document.ts';
import { firstIssue } from './first-issue.ts';
import { injuryOf } from './fixed-records.ts';
import type { CaseState } from './history.ts';

type Sha256Of = (bytes: Uint8Array<ArrayBuffer>) => Promise<string>;

/** Whether bytes begin like a ZIP file (PKWARE APPNOTE, 4.3.7 and 4.3.16). */
export const looksLikeZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && (bytes[2] === 3 || bytes[2] === 5);

/**
 * Reads a case archive. A case in it that cannot be read is named and the others are opened; a film is unpacked and
 * checked only when it is asked for, so that no more than one is in memory.
 *
 * @param sha256Of - Lower-case hexadecimal SHA-256; from the shell, since this layer has no crypto.
 */
export async function readArchive(
  bytes: Uint8Array<ArrayBuffer>,
  sha256Of: Sha256Of,
): Promise<Result<Archive, ArchiveError>> {
  const listed = listEntries(bytes);
  if (!listed.ok) return listed;
  const names = [...listed.value];
  const manifest = readManifest(bytes, listed.value);
  if (!manifest.ok) return manifest;
  const cases: { entry: string; file: CaseFile }[] = [];
  const damaged: DamagedCase[] = [];
  const entries = names.filter((name) => CASE_ENTRY.test(name));
  const unpacked = unpackEach(bytes, entries);
  for (const entry of entries) {
    const read = await readCaseFile(strFromU8(unpacked.get(entry) ?? new Uint8Array()), sha256Of);
    if (read.ok) cases.push({ entry, file: read.value });
    else damaged.push({ entry, error: read.error });
  }
  const films = new Map(
    names.flatMap((name) => {
      const sha256 = FILM_ENTRY.exec(name)?.[1];
      return sha256 === undefined ? [] : [[sha256, name] as const];
    }),
  );
  const known = (name: string) => name === MANIFEST_ENTRY || CASE_ENTRY.test(name) || FILM_ENTRY.test(name);
  return success({
    cases,
    damaged,
    films: new Set(films.keys()),
    otherEntries: names.filter((name) => !known(name) && !name.endsWith('/')).length,
    async film(sha256) {
      const entry = films.get(sha256);
      if (entry === undefined) return failure({ kind: 'film-not-in-archive', sha256 });
      const unpacked = unpackOrNothing(bytes, entry);
      const found = await sha256Of(unpacked);
      return found === sha256 ? success(unpacked) : failure({ kind: 'film-changed', sha256, found });
    },
  });
}

function listEntries(bytes: Uint8Array): Result<ReadonlySet<string>, ArchiveError> {
  const names = new Set<string>();
  let refusal: ArchiveError | null = null;
  let caseBytes = 0;
  try {
    unzipSync(bytes, {
      filter(entry) {
        refusal ??= entryRefusal(entry, names);
        if (CASE_ENTRY.test(entry.name)) caseBytes += entry.originalSize;
        if (caseBytes > MOST_CASE_BYTES)
          refusal ??= { kind: 'entry-too-large', entry: entry.name, bytes: caseBytes };
        names.add(entry.name);
        return false;
      },
    });
  } catch (thrown) {
    return failure({ kind: 'not-a-zip', detail: messageOf(thrown) });
  }
  return refusal === null ? success(names) : failure(refusal);
}

function readManifest(bytes: Uint8Array, names: ReadonlySet<string>): Result<Manifest, ArchiveError> {
  if (!names.has(MANIFEST_ENTRY)) return failure({ kind: 'not-an-archive' });
  try {
    const parsed: unknown = JSON.parse(strFromU8(unpack(bytes, MANIFEST_ENTRY)));
    const { format, version } = (parsed ?? {}) as { format?: unknown; version?: unknown };
    if (format !== ARCHIVE_FORMAT) return failure({ kind: 'not-an-archive' });
    if (typeof version === 'number' && version > ARCHIVE_VERSION)
      return failure({ kind: 'archive-too-new', version, known: ARCHIVE_VERSION });
    const checked = manifestSchema.safeParse(parsed);
    if (checked.success) return success(checked.data);
    const { path, problem } = firstIssue(checked.error);
    return failure({ kind: 'manifest-invalid', detail: `${path}: ${problem}` });
  } catch (thrown) {
    return failure({ kind: 'manifest-invalid', detail: messageOf(thrown) });
  }
}

/** An archive's list is walked once in each pass, so that their number bounds the time a hostile one takes. */
const MOST_PASSES = 300;

/** Entries by name; a damaged one is left out. Where a pass meets one, its entries are tried again by halves. */
function unpackEach(bytes: Uint8Array, entries: readonly string[]): ReadonlyMap<string, Uint8Array> {
  const unpacked = new Map<string, Uint8Array>();
  const pending = [entries];
  for (let passes = 0; passes < MOST_PASSES; passes += 1) {
    const names = pending.pop();
    if (names === undefined) break;
    const wanted = new Set(names);
    try {
      const found = unzipSync(bytes, { filter: ({ name }) => wanted.has(name) });
      for (const [name, content] of Object.entries(found)) unpacked.set(name, content);
    } catch {
      const middle = names.length >> 1;
      if (middle > 0) pending.push(names.slice(middle), names.slice(0, middle));
    }
  }
  return unpacked;
}

/** One entry by its name; throws on damaged data. */
function unpack(bytes: Uint8Array, entry: string): Uint8Array<ArrayBuffer> {
  const unpacked = unzipSync(bytes, { filter: ({ name }) => name === entry })[entry];
  return new Uint8Array(unpacked ?? []);
}

/** Damaged data gives bytes that no hash fits. */
function unpackOrNothing(bytes: Uint8Array, entry: string): Uint8Array<ArrayBuffer> {
  try {
    return unpack(bytes, entry);
  } catch {
    return new Uint8Array();
  }
}

const messageOf = (thrown: unknown): string => reasonOf(thrown);

/** Every film that a case or its history names, once each. */
export function filmsNamedBy({ document, history }: CaseState): readonly FilmRecord[] {
  const records = [
    ...Object.values(document.records),
    ...history.transactions.flatMap(({ steps }) => steps.flatMap(({ before, after }) => [before, after])),
  ];
  const films = records.flatMap((record) => (record?.kind === 'film' ? [record] : []));
  return [...new Map(films.map((film) => [film.sha256, film])).values()];
}

const ENDING: Readonly<Record<FilmRecord['format'], string>> = { dicom: 'dcm', png: 'png', jpeg: 'jpg' };

export interface ArchiveSources {
  readonly cases: readonly Pick<CaseFile, 'state' | 'unknownFields'>[];
  /** A film's bytes, or null when it is not kept here; asked for one after another. */
  readonly filmBytes: (sha256: string) => Promise<Uint8Array | null>;
  /** ISO 8601: the time that entries of a ZIP bear. */
  readonly at: string;
}

/**
 * Writes a case archive piece by piece; films are stored as they are, since most are compressed already and each can
 * be taken out with any ZIP program.
 *
 * @param onPiece - Takes each piece of the file, in order.
 * @returns SHA-256 of the films that were not kept here and are missing from the file.
 */
export async function writeArchive(
  { cases, filmBytes, at }: ArchiveSources,
  onPiece: (piece: Uint8Array<ArrayBuffer>) => void,
): Promise<readonly string[]> {
  const zip = new Zip((error, piece) => {
    if (error !== null) throw error;
    onPiece(new Uint8Array(piece));
  });
  const add = (name: string, bytes: Uint8Array, stored: boolean) => {
    const entry = stored ? new ZipPassThrough(name) : new ZipDeflate(name, { level: 6 });
    entry.mtime = at;
    zip.add(entry);
    entry.push(bytes, true);
  };
  const manifest: Manifest = {
    format: ARCHIVE_FORMAT,
    version: ARCHIVE_VERSION,
    cases: [],
    films: [],
    missingFilms: [],
  };
  const films = new Map<string, FilmRecord>();
  for (const { state, unknownFields } of cases) {
    const { id } = state.document;
    const entry = `cases/${safeName(id)}.json`;
    add(entry, strToU8(writeCaseFile({ state, films: [], unknownFields })), false);
    manifest.cases.push({ entry, id, label: injuryOf(state.document).label });
    for (const film of filmsNamedBy(state)) films.set(film.sha256, film);
  }
  for (const { sha256, format } of films.values()) {
    const bytes = await filmBytes(sha256);
    if (bytes === null) {
      manifest.missingFilms.push(sha256);
      continue;
    }
    const entry = `films/${sha256}.${ENDING[format]}`;
    add(entry, bytes, true);
    manifest.films.push({ entry, sha256, bytes: bytes.length });
  }
  add(MANIFEST_ENTRY, strToU8(JSON.stringify(manifest, null, 2)), false);
  zip.end();
  return manifest.missingFilms;
}

/** An id as part of a file's name; ids of this program are letters, digits and hyphens already. */
const safeName = (id: string): string => encodeURIComponent(id).replaceAll('*', '%2A');
