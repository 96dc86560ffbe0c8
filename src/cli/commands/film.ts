import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { lookInside } from '../../film/container.ts';
import type { FilmError } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { readFilm } from '../../film/read-film.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { describeFilm, type FilmLine } from '../film-line.ts';
import { nodeFilmTools } from '../node-film-tools.ts';

const USAGE = 'film FILE… [--all-pictures]';
const ALL_PICTURES = '--all-pictures';

/** One line of the output: a film, or a file that is none with its reason. */
type Said =
  | ({ readonly file: string; readonly ok: true } & FilmLine)
  | {
      readonly file: string;
      readonly ok: false;
      readonly error: FilmError | { readonly kind: 'unreadable' };
      readonly sentence: string;
    };

/**
 * What files hold, as one line of JSON each: what the film says of itself and a SHA-256 of its stored values, or
 * the error by name. A folder or a ZIP archive stands for the files in it.
 */
export const film: Command = {
  usage: USAGE,
  about: `What films are, one line of JSON for each file, also of those in folders and ZIP archives: kind, transfer syntax, size, bits, spacing with its meaning, window, range and a SHA-256 of the stored values; or the error by name. ${ALL_PICTURES}: a line for each picture of a file that holds several.`,
  async run(args) {
    const unknown = args.find((arg) => arg.startsWith('-') && arg !== ALL_PICTURES);
    const paths = args.filter((arg) => !arg.startsWith('-'));
    if (paths.length === 0 || unknown !== undefined) {
      complain('usage', `Give files, folders or ZIP archives: raybend ${USAGE}`);
      return EXIT.usage;
    }
    const outcomes = new Set<FilmError['kind'] | 'unreadable' | 'film'>();
    for await (const said of filmsIn(paths, args.includes(ALL_PICTURES))) {
      outcomes.add(said.ok ? 'film' : said.error.kind);
      console.log(JSON.stringify(said));
    }
    if (outcomes.size === 0) complain('no-files', 'There is no file in what was given.');
    if (outcomes.has('unreadable')) return EXIT.unreadable;
    return outcomes.size === 1 && outcomes.has('film') ? EXIT.done : EXIT.refused;
  },
};

async function* filmsIn(paths: readonly string[], allPictures: boolean): AsyncGenerator<Said> {
  for (const path of paths) {
    for await (const file of filesUnder(path)) {
      if (typeof file === 'string') yield* filmsOf(file, allPictures);
      else yield file;
    }
  }
}

/** Files of a folder and of those in it, by name; a file by itself. What cannot be read is said. */
async function* filesUnder(path: string): AsyncGenerator<string | Extract<Said, { ok: false }>> {
  try {
    if (!(await stat(path)).isDirectory()) {
      yield path;
      return;
    }
    for (const name of (await readdir(path)).toSorted()) yield* filesUnder(join(path, name));
  } catch (problem) {
    yield unreadable(path, problem);
  }
}

async function* filmsOf(file: string, allPictures: boolean): AsyncGenerator<Said> {
  let bytes: Uint8Array;
  try {
    bytes = new Uint8Array(await readFile(file));
  } catch (problem) {
    yield unreadable(file, problem);
    return;
  }
  const { films: found, leftOut } = lookInside([{ name: file, bytes }]);
  // The names of files in an archive are told from the archive's own.
  const within = (name: string) => (name === file ? file : `${file}/${name}`);
  for (const one of found) yield* picturesOf(within(one.name), one.bytes, allPictures);
  for (const { name, error } of leftOut)
    yield { file: within(name), ok: false, error, sentence: sentence(error, within(name)) };
}

const unreadable = (file: string, problem: unknown) =>
  ({
    file,
    ok: false,
    error: { kind: 'unreadable' },
    sentence: `“${file}” could not be read (${problem instanceof Error ? problem.message : String(problem)}). Check the path and try again.`,
  }) as const;

async function* picturesOf(file: string, bytes: Uint8Array, all: boolean): AsyncGenerator<Said> {
  let count = 1;
  for (let frame = 0; frame < (all ? count : 1); frame += 1) {
    const read = await readFilm(bytes, nodeFilmTools, frame);
    if (!read.ok) {
      yield { file, ok: false, error: read.error, sentence: sentence(read.error, file) };
      continue;
    }
    count = read.value.frame?.count ?? 1;
    yield { file, ok: true, ...describeFilm(read.value) };
  }
}
