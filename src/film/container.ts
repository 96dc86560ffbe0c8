import { unzipSync } from 'fflate';
import { dicomRefusal } from './dicom/read-dicom.ts';
import type { FilmError } from './film.ts';
import { GREATEST_EXPANSION, mostUnpackedBytes } from './inflate.ts';
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
/** Each of one name is looked for by itself; a program that packs several folders into one may repeat a few. */
const LIMIT_OF_ONE_NAME = 64;

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

/** An entry of an archive as the archive lists it. */
interface Listed {
  readonly name: string;
  /** Counted from 0. */
  readonly place: number;
  /** Whether deflate can make a file of its size from its packed bytes. */
  readonly believable: boolean;
}

/** An archive's own list is walked once for each group; entries one by one would take their number squared. */
const GROUP = 64;
/** Groups with a damaged entry, which are unpacked one by one; with more of them an archive is damaged throughout. */
const MOST_DAMAGED_GROUPS = 8;

/** The entries of these places in the archive's list, by name. Throws where one of them is damaged or locked. */
function unzipPlaces(archive: Uint8Array, wanted: ReadonlySet<number>): Readonly<Record<string, Uint8Array>> {
  let place = -1;
  return unzipSync(archive, {
    filter: () => {
      place += 1;
      return wanted.has(place);
    },
  });
}

/** Groups in which no name comes twice, since what is unpacked is found by its name. */
function groupsOf(wanted: readonly Listed[]): readonly (readonly Listed[])[] {
  const met = new Map<string, number>();
  /** First all entries that are the first of their name, then the second ones, and so on. */
  const rounds: Listed[][] = [];
  for (const entry of wanted) {
    const before = met.get(entry.name) ?? 0;
    met.set(entry.name, before + 1);
    rounds[before] ??= [];
    rounds[before].push(entry);
  }
  return rounds.flatMap((round) =>
    Array.from({ length: Math.ceil(round.length / GROUP) }, (_, index) =>
      round.slice(index * GROUP, (index + 1) * GROUP),
    ),
  );
}

/** The bytes of the wanted entries; of those that are damaged null, and they do not stop the rest. */
function unpack(archive: Uint8Array, wanted: readonly Listed[]): ReadonlyMap<Listed, Uint8Array | null> {
  let damagedGroups = 0;
  const unpackGroup = (group: readonly Listed[]): readonly (Uint8Array | null)[] => {
    const unpacked = attempt(archive, group);
    if (unpacked !== null) return unpacked;
    damagedGroups += 1;
    if (damagedGroups > MOST_DAMAGED_GROUPS) return group.map(() => null);
    return group.map((entry) => attempt(archive, [entry])?.[0] ?? null);
  };
  return new Map(
    groupsOf(wanted).flatMap((group) => {
      const unpacked = unpackGroup(group);
      return group.map((entry, index) => [entry, unpacked[index] ?? null] as const);
    }),
  );
}

function attempt(archive: Uint8Array, group: readonly Listed[]): readonly (Uint8Array | null)[] | null {
  try {
    const unpacked = unzipPlaces(archive, new Set(group.map(({ place }) => place)));
    return group.map(({ name }) => unpacked[name] ?? null);
  } catch {
    return null;
  }
}

function mostOfOneName(inside: readonly Listed[]): number {
  const counts = new Map<string, number>();
  for (const { name } of inside) counts.set(name, (counts.get(name) ?? 0) + 1);
  return Math.max(0, ...counts.values());
}

/** The files of an archive; sizes are judged by the archive's own list before anything is unpacked. */
function unpackAll(archive: NamedFile): readonly Entry[] {
  const inside: Listed[] = [];
  let place = -1;
  let unpackedBytes = 0;
  try {
    unzipSync(archive.bytes, {
      filter: ({ name, size, originalSize }) => {
        place += 1;
        if (name.endsWith('/')) return false;
        const believable = originalSize <= size * GREATEST_EXPANSION;
        inside.push({ name, place, believable });
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
  if (mostOfOneName(inside) > LIMIT_OF_ONE_NAME) {
    return [
      { name: archive.name, error: unreadableArchive(`of more than ${LIMIT_OF_ONE_NAME} files of one name`) },
    ];
  }
  const [believed, lies] = [inside.filter((one) => one.believable), inside.filter((one) => !one.believable)];
  const unpacked = unpack(archive.bytes, believed);
  return [
    ...believed.map((entry): Entry => {
      const { name } = entry;
      const bytes = unpacked.get(entry) ?? null;
      return bytes === null
        ? { name, error: unreadableArchive('entry that cannot be unpacked: it is damaged or locked') }
        : { name, bytes };
    }),
    ...lies.map(({ name }) => ({
      name,
      error: unreadableArchive('entry that says it is larger than it can be'),
    })),
  ];
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
