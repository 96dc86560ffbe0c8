import { createHash } from 'node:crypto';
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { lookInside } from '../../film/container.ts';
import { transferSyntax } from '../../film/dicom/transfer-syntax.ts';
import type { Film, FilmError, StoredPixels } from '../../film/film.ts';
import { sentence } from '../../film/film-error.ts';
import { defaultLight } from '../../film/light.ts';
import { readFilm } from '../../film/read-film.ts';
import { type Command, complain, EXIT } from '../command.ts';
import { nodeFilmTools } from '../node-film-tools.ts';

const USAGE = 'films PATH… [--json] [--all-pictures]';
const OPTIONS: ReadonlySet<string> = new Set(['--json', '--all-pictures']);

/** One line of the output: a film, or a file that is none with its reason. */
type Said =
  | ({ readonly file: string; readonly ok: true } & ReturnType<typeof describe>)
  | {
      readonly file: string;
      readonly ok: false;
      readonly error: FilmError | { readonly kind: 'unreadable' };
      readonly sentence: string;
    };

/** What the files, folders and ZIP archives given hold: a line for each film, or the reason why it is none. */
export const films: Command = {
  usage: USAGE,
  about:
    'What films say of themselves, from files, folders and ZIP archives: format, size, spacing with its meaning, view, notes and a SHA-256 of the pixels; or why a file is not opened. One line of JSON for each with --json.',
  async run(args) {
    const unknown = args.find((arg) => arg.startsWith('-') && !OPTIONS.has(arg));
    const paths = args.filter((arg) => !arg.startsWith('-'));
    if (paths.length === 0 || unknown !== undefined) {
      complain('usage', `Give files, folders or ZIP archives: raybend ${USAGE}`);
      return EXIT.usage;
    }
    let readAny = false;
    for await (const said of filmsIn(paths, args.includes('--all-pictures'))) {
      readAny ||= said.ok;
      console.log(args.includes('--json') ? JSON.stringify(said) : inWords(said));
    }
    return readAny ? EXIT.done : EXIT.refused;
  },
};

async function* filmsIn(paths: readonly string[], allPictures: boolean): AsyncGenerator<Said> {
  for (const path of paths) {
    for await (const file of filesUnder(path)) {
      if (typeof file !== 'string') {
        yield file;
        continue;
      }
      const bytes = new Uint8Array(await readFile(file));
      const { films: found, leftOut } = lookInside([{ name: file, bytes }]);
      // The names of files in an archive are told from the archive's own.
      const within = (name: string) => (name === file ? file : `${file}/${name}`);
      for (const film of found) yield* picturesOf(within(film.name), film.bytes, allPictures);
      for (const { name, error } of leftOut)
        yield { file: within(name), ok: false, error, sentence: sentence(error, within(name)) };
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
    const why = problem instanceof Error ? problem.message : String(problem);
    yield {
      file: path,
      ok: false,
      error: { kind: 'unreadable' },
      sentence: `“${path}” could not be read (${why}). Check the path and try again.`,
    };
  }
}

async function* picturesOf(name: string, bytes: Uint8Array, all: boolean): AsyncGenerator<Said> {
  let count = 1;
  for (let frame = 0; frame < (all ? count : 1); frame += 1) {
    const read = await readFilm(bytes, nodeFilmTools, frame);
    if (!read.ok) {
      yield { file: name, ok: false, error: read.error, sentence: sentence(read.error, name) };
      continue;
    }
    count = read.value.frame?.count ?? 1;
    yield { file: name, ok: true, ...describe(read.value) };
  }
}

function describe(film: Film) {
  const { facts, grey } = film;
  const [whole] = film.levels;
  return {
    format: facts.format,
    modality: facts.modality,
    transferSyntax:
      facts.transferSyntaxUid === null
        ? null
        : { uid: facts.transferSyntaxUid, name: transferSyntax(facts.transferSyntaxUid).name },
    sopClassUid: facts.sopClassUid,
    columns: film.columns,
    rows: film.rows,
    picture: (film.frame?.index ?? 0) + 1,
    pictures: film.frame?.count ?? 1,
    bitsStored: grey.bitsStored,
    signed: grey.signed,
    photometric: grey.photometric,
    wasColour: facts.wasColour,
    least: film.storedMin,
    greatest: film.storedMax,
    window: defaultLight(film).shown,
    spacing: film.spacing,
    viewPosition: facts.viewPosition,
    viewCode: facts.viewCode ?? null,
    laterality: facts.laterality,
    patientOrientation: facts.patientOrientation,
    lossy: facts.lossy,
    burnedIn: facts.burnedIn,
    notes: facts.notes,
    pixelsSha256: sha256Of(whole!.pixels),
  };
}

/** SHA-256 over the stored values, little-endian in 8 or 16 bits. */
function sha256Of(pixels: StoredPixels): string {
  if (pixels.BYTES_PER_ELEMENT === 1) return createHash('sha256').update(pixels).digest('hex');
  const bytes = Buffer.alloc(2 * pixels.length);
  pixels.forEach((value, index) => {
    bytes.writeUInt16LE(value & 0xffff, 2 * index);
  });
  return createHash('sha256').update(bytes).digest('hex');
}

function inWords(said: Said): string {
  if (!said.ok) return `${said.file}\n  ${said.sentence}`;
  const { spacing } = said;
  const scale =
    spacing.kind === 'ratio'
      ? `no millimetres, pixels ${spacing.rowToColumn === 1 ? 'square' : `${spacing.rowToColumn} times as high as wide`}`
      : `${spacing.rowSpacingMm} × ${spacing.columnSpacingMm} mm, ${spacing.plane} plane, by ${spacing.origin}`;
  const lines = [
    `${said.format}${said.modality === null ? '' : ` ${said.modality}`}, ${said.columns} × ${said.rows}, ${said.bitsStored} bits${said.transferSyntax === null ? '' : `, ${said.transferSyntax.name}`}`,
    scale,
    ...(said.pictures > 1 ? [`picture ${said.picture} of ${said.pictures}`] : []),
    ...(said.viewPosition === null && said.laterality === null
      ? []
      : [`view ${said.viewPosition ?? 'not said'}, side ${said.laterality ?? 'not said'}`]),
    ...spacing.conflicts,
    ...said.notes,
  ];
  return `${said.file}\n${lines.map((line) => `  ${line}`).join('\n')}`;
}
