import { unzipSync } from 'fflate';
import { dicomRefusal } from './dicom/read-dicom.ts';
import type { FilmError } from './film.ts';
import { mostUnpackedBytes } from './inflate.ts';
import { sniff } from './sniff.ts';

/** A file as it was dropped, chosen or found in an archive; the name is for the person and is not kept. */
export interface NamedFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export interface Contents {
  /** Files that may be radiographs, in the order they were found; each is read by `readFilm`. */
  readonly films: readonly NamedFile[];
  /** Every other file, with the reason; `sentence` in `film-error.ts` says it. */
  readonly leftOut: readonly { readonly name: string; readonly error: FilmError }[];
}

/** A patient's disc holds some hundreds of files; beyond these an archive is not one, or is hostile. */
const LIMIT_ENTRIES = 5000;
const LIMIT_UNPACKED_BYTES = 1_000_000_000;
/** Deflate turns at most 1,032 bytes into one. */
const GREATEST_EXPANSION = 1032;

const unreadableArchive = (what: string): FilmError => ({
  kind: 'not-a-film',
  looksLike: `a ZIP archive ${what}`,
});

/** Why a file that is no archive is left out; null when it may be a film. */
function whyNot(bytes: Uint8Array): FilmError | null {
  if (bytes.length === 0) return { kind: 'empty-file' };
  const found = sniff(bytes);
  switch (found.kind) {
    case 'dicom':
      return dicomRefusal(bytes, null);
    case 'bare-dicom':
      return dicomRefusal(bytes, found);
    case 'png':
    case 'jpeg':
      return null;
    case 'other':
      return { kind: 'not-a-film', looksLike: found.looksLike };
  }
}

type Entry = { readonly name: string; readonly error: FilmError } | NamedFile;

/** One file of an archive, unpacked on its own so that a damaged one does not stop the rest. */
function unpack(archive: Uint8Array, name: string): Entry {
  try {
    const bytes = unzipSync(archive, { filter: (file) => file.name === name })[name];
    return bytes === undefined
      ? { name, error: unreadableArchive('entry that is not there') }
      : { name, bytes };
  } catch {
    return { name, error: unreadableArchive('entry that cannot be unpacked: it is damaged or locked') };
  }
}

/** The files of an archive; sizes are judged by the archive's own list before anything is unpacked. */
function unpackAll(archive: NamedFile): readonly Entry[] {
  const inside: { readonly name: string; readonly believable: boolean }[] = [];
  let unpackedBytes = 0;
  try {
    unzipSync(archive.bytes, {
      filter: ({ name, size, originalSize }) => {
        if (name.endsWith('/')) return false;
        const believable = originalSize <= size * GREATEST_EXPANSION;
        inside.push({ name, believable });
        unpackedBytes += believable ? originalSize : 0;
        return false;
      },
    });
  } catch {
    return [{ name: archive.name, error: unreadableArchive('that cannot be read') }];
  }
  if (inside.length > LIMIT_ENTRIES || unpackedBytes > LIMIT_UNPACKED_BYTES) {
    const limits = `of more than ${LIMIT_ENTRIES} files or ${LIMIT_UNPACKED_BYTES / 1e9} GB`;
    return [{ name: archive.name, error: unreadableArchive(limits) }];
  }
  if (unpackedBytes > mostUnpackedBytes(archive.bytes.length)) {
    return [{ name: archive.name, error: unreadableArchive('that unpacks to far more than films do') }];
  }
  return inside.map(({ name, believable }) =>
    believable
      ? unpack(archive.bytes, name)
      : { name, error: unreadableArchive('entry that says it is larger than it can be') },
  );
}

/**
 * Sorts files into films and the rest: what a person drops is a film, a folder, an archive or a whole disc.
 * ZIP archives are opened, archives within them are not. A DICOMDIR is left out as the list it is: the films it
 * lists are found by themselves.
 *
 * @param files - In any number and of any kind; their names are only repeated.
 */
export function lookInside(files: readonly NamedFile[]): Contents {
  const films: NamedFile[] = [];
  const leftOut: Contents['leftOut'][number][] = [];
  for (const file of files) {
    const found = sniff(file.bytes);
    const isArchive = found.kind === 'other' && found.looksLike === 'a ZIP archive';
    for (const entry of isArchive ? unpackAll(file) : [file]) {
      const error = 'error' in entry ? entry.error : whyNot(entry.bytes);
      if (error === null && 'bytes' in entry) films.push(entry);
      else if (error !== null) leftOut.push({ name: entry.name, error });
    }
  }
  return { films, leftOut };
}
