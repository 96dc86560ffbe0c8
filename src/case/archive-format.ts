import { z } from 'zod';
import type { Result } from '../geometry/result.ts';
import { type CaseFile, type CaseFileError, caseFileErrorSentence } from './case-content.ts';

z.config({ jitless: true });

/*
 * A case archive is a ZIP file: `raybend.json` (the manifest below), one case file for each case under `cases/`, and
 * the films, as they were opened, under `films/` by their SHA-256. docs/case-file.md describes it.
 */

export const ARCHIVE_FORMAT = 'raybend-archive';
export const ARCHIVE_VERSION = 1;
export const MANIFEST_ENTRY = 'raybend.json';

const sha256 = z.string().regex(/^[0-9a-f]{64}$/, 'is not a SHA-256 in lower-case hexadecimal');

export const manifestSchema = z.looseObject({
  format: z.literal(ARCHIVE_FORMAT),
  version: z.literal(ARCHIVE_VERSION),
  cases: z.array(
    z.looseObject({ entry: z.string(), id: z.string(), label: z.string() }).meta({
      description: 'One for each case: the entry of the ZIP that holds its case file.',
    }),
  ),
  films: z.array(
    z.looseObject({ entry: z.string(), sha256, bytes: z.int().min(0) }).meta({
      description: 'One for each film in the ZIP; the entry holds the bytes of its file as it was opened.',
    }),
  ),
  missingFilms: z.array(sha256).meta({
    description: 'Films that a case names and that were not kept where the archive was written.',
  }),
});

export type Manifest = z.infer<typeof manifestSchema>;

/** The JSON Schema of the manifest. */
export const archiveJsonSchema = (): object =>
  z.toJSONSchema(manifestSchema, { target: 'draft-2020-12', io: 'input' });

export const CASE_ENTRY = /^cases\/[^/\\]+\.json$/;
export const FILM_ENTRY = /^films\/([0-9a-f]{64})(?:\.(?:dcm|png|jpg))?$/;

/** Largest file of one case, and of all cases together, in bytes: 5,000 marks take about 2 MB. */
export const MOST_CASE_BYTES = 256e6;
const MOST_FILM_BYTES = 1e9;
const MOST_ENTRIES = 20_000;
/** What DEFLATE can shrink at the most, 1032 times (zlib’s technical details), with room for tiny entries. */
const MOST_SHRUNK = 1032;

/** Why an archive is not opened. Nothing of it is taken over. */
export type ArchiveError =
  | { readonly kind: 'not-a-zip'; readonly detail: string }
  | { readonly kind: 'not-an-archive' }
  | { readonly kind: 'archive-too-new'; readonly version: number; readonly known: number }
  | { readonly kind: 'manifest-invalid'; readonly detail: string }
  /** An entry whose name leads out of the archive: no Raybend writes one. */
  | { readonly kind: 'entry-outside'; readonly entry: string }
  | { readonly kind: 'entry-twice'; readonly entry: string }
  | { readonly kind: 'entry-too-large'; readonly entry: string; readonly bytes: number }
  | { readonly kind: 'too-many-entries'; readonly most: number };

/** Says to the person why an archive is not opened and what to do next. */
export function archiveErrorSentence(error: ArchiveError, fileName: string): string {
  const start = `${fileName} was not opened:`;
  switch (error.kind) {
    case 'not-a-zip':
      return `${start} it is damaged or no ZIP file (${error.detail}). Use another copy of it.`;
    case 'not-an-archive':
      return `${start} it is a ZIP file but holds no Raybend cases. Unpack it and open the films in it.`;
    case 'archive-too-new':
      return `${start} it was written by a newer Raybend (archive version ${error.version}; this one reads up to ${error.known}). Reload the page to get the newer Raybend, then open it again.`;
    case 'manifest-invalid':
      return `${start} its list of contents is not valid (${error.detail}). Use another copy of it.`;
    case 'entry-outside':
      return `${start} the entry “${shown(error.entry)}” in it points out of the file, which no case file does. Do not use it, and ask where it comes from.`;
    case 'entry-twice':
      return `${start} the entry “${shown(error.entry)}” is in it twice, so it is not clear which one counts. Use another copy of it.`;
    case 'entry-too-large':
      return `${start} the entry “${shown(error.entry)}” would unpack to ${Math.round(error.bytes / 1e6)} MB, more than a case or film can have. Use another copy of it.`;
    case 'too-many-entries':
      return `${start} it has more than ${error.most} entries. Split it into several files.`;
  }
}

/** A name from a stranger's file, cut short for a sentence. */
const shown = (entry: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: a name may hold them, a sentence may not
  entry.replace(/[\u0000-\u001f\u007f]/g, '·').slice(0, 80);

/** What is wrong with one case of an archive; the others are opened all the same. */
export interface DamagedCase {
  readonly entry: string;
  readonly error: CaseFileError;
}

export const damagedCaseSentence = ({ entry, error }: DamagedCase, fileName: string): string =>
  caseFileErrorSentence(error, `${shown(entry)} in ${fileName}`);

export type FilmInArchiveError =
  | { readonly kind: 'film-not-in-archive'; readonly sha256: string }
  | { readonly kind: 'film-changed'; readonly sha256: string; readonly found: string };

export interface Archive {
  readonly cases: readonly { readonly entry: string; readonly file: CaseFile }[];
  readonly damaged: readonly DamagedCase[];
  /** SHA-256 under which films stand in it. */
  readonly films: ReadonlySet<string>;
  /** Entries that are neither case nor film; they are left alone. */
  readonly otherEntries: number;
  /** Unpacks one film and checks that it is the one its name says. */
  film(sha256: string): Promise<Result<Uint8Array<ArrayBuffer>, FilmInArchiveError>>;
}

/** What one entry of a ZIP says of itself. */
interface EntryFacts {
  readonly name: string;
  readonly size: number;
  readonly originalSize: number;
}

/** Why an entry must not be unpacked; null when nothing speaks against it. */
export function entryRefusal(entry: EntryFacts, before: ReadonlySet<string>): ArchiveError | null {
  const { name, size, originalSize } = entry;
  const parts = name.split(/[/\\]/);
  if (name.includes('\\') || /^[A-Za-z]:|^\//.test(name) || parts.includes('..') || name.includes('\0'))
    return { kind: 'entry-outside', entry: name };
  if (before.has(name)) return { kind: 'entry-twice', entry: name };
  if (before.size >= MOST_ENTRIES) return { kind: 'too-many-entries', most: MOST_ENTRIES };
  const most = name.startsWith('films/') ? MOST_FILM_BYTES : MOST_CASE_BYTES;
  return originalSize > most || originalSize > (size + 64) * MOST_SHRUNK
    ? { kind: 'entry-too-large', entry: name, bytes: originalSize }
    : null;
}
