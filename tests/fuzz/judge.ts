import { createHash } from 'node:crypto';
import { archiveErrorSentence } from '../../src/case/archive-format.ts';
import { looksLikeZip, readArchive } from '../../src/case/case-archive.ts';
import { caseFileErrorSentence } from '../../src/case/case-content.ts';
import { readCaseFile } from '../../src/case/case-file.ts';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { lookInside } from '../../src/film/container.ts';
import { sentence } from '../../src/film/film-error.ts';
import { displayLut } from '../../src/film/grey-scale.ts';
import { identityOf } from '../../src/film/identity.ts';
import { defaultLight } from '../../src/film/light.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { attack } from './hostile.ts';
import { mutated } from './mutate.ts';
import { drawFrom, oneOf } from './random.ts';
import type { Seed } from './seeds.ts';

/** The file of a number: one in ten an attack, the rest spoiled sound files. */
export function hostileFile(seeds: readonly Seed[], seed: number, number: number): Seed {
  const draw = drawFrom(seed, number);
  if (draw(10) === 0) return attack(draw, seeds);
  const sound = oneOf(draw, seeds);
  const { bytes, how } = mutated(sound.bytes, oneOf(draw, seeds).bytes, draw);
  return { name: `${sound.name}: ${how}`, readBy: sound.readBy, bytes };
}

/** What may come of a file, for the summary; the rest is thrown. */
export type Verdict = 'opened' | `refused: ${string}`;

function refused(kind: string, said: string): Verdict {
  if (!/\S{2,}.*\.$/s.test(said) || /undefined|NaN|\[object/.test(said)) {
    throw new Error(`The error ${kind} has no proper sentence: ${said}`);
  }
  return `refused: ${kind}`;
}

async function readOne(bytes: Uint8Array): Promise<Verdict> {
  const read = await readFilm(bytes, nodeFilmTools);
  if (!read.ok) return refused(read.error.kind, sentence(read.error, 'a file'));
  const film = read.value;
  const { pixels } = film.levels[0]!;
  if (pixels.length !== film.rows * film.columns) throw new Error('The film has not a value for each pixel.');
  const { spacing } = film;
  if (spacing.kind === 'millimetres' && !(spacing.rowSpacingMm > 0 && spacing.columnSpacingMm > 0)) {
    throw new Error(`The film has a spacing of ${spacing.rowSpacingMm} × ${spacing.columnSpacingMm} mm.`);
  }
  const lut = displayLut(film.grey, defaultLight(film), film.storedMin, film.storedMax);
  if (lut.values[film.storedMin - lut.firstStored] === undefined)
    throw new Error('The film cannot be shown.');
  return 'opened';
}

async function readAsFilms(bytes: Uint8Array): Promise<Verdict> {
  identityOf(bytes);
  const { films, leftOut } = lookInside([{ name: 'a file', bytes }]);
  for (const { error } of leftOut) refused(error.kind, sentence(error, 'a file'));
  const inArchive = films.filter((film) => film.bytes !== bytes).slice(0, 3);
  for (const film of inArchive) await readOne(film.bytes);
  const verdict = await readOne(bytes);
  return inArchive.length > 0 ? 'opened' : verdict;
}

const sha256Of = (bytes: Uint8Array) => Promise.resolve(createHash('sha256').update(bytes).digest('hex'));

async function readAsCases(bytes: Uint8Array<ArrayBuffer>): Promise<Verdict> {
  if (!looksLikeZip(bytes)) {
    const read = await readCaseFile(new TextDecoder().decode(bytes), sha256Of);
    return read.ok ? 'opened' : refused(read.error.kind, caseFileErrorSentence(read.error, 'a file'));
  }
  const read = await readArchive(bytes, sha256Of);
  if (!read.ok) return refused(read.error.kind, archiveErrorSentence(read.error, 'a file'));
  for (const { error } of read.value.damaged) refused(error.kind, caseFileErrorSentence(error, 'a file'));
  for (const film of read.value.films) await read.value.film(film);
  return 'opened';
}

/** Reads a hostile file as the app does. Throws where that neither opens nor gives an error by name. */
export async function judge({ readBy, bytes }: Seed): Promise<Verdict> {
  const verdict = await (readBy === 'films' ? readAsFilms(bytes) : readAsCases(new Uint8Array(bytes)));
  if ('polluted' in {}) throw new Error('The file has changed the prototype of objects.');
  return verdict;
}
