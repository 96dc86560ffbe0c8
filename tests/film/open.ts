import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import type { Film, FilmError } from '../../src/film/film.ts';
import { readFilm } from '../../src/film/read-film.ts';

/** Reads a file that must open. */
export async function openFilm(bytes: Uint8Array, frame = 0): Promise<Film> {
  const result = await readFilm(bytes, nodeFilmTools, frame);
  if (!result.ok) throw new Error(`expected a film, got ${JSON.stringify(result.error)}`);
  return result.value;
}

/** Reads a file that must be refused. */
export async function refusalOf(bytes: Uint8Array): Promise<FilmError> {
  const result = await readFilm(bytes, nodeFilmTools);
  if (result.ok) throw new Error('expected a refusal, got a film');
  return result.error;
}

/** Stored values of a film at full size, after checking that the array has one for each pixel. */
export function storedValues(film: Film): number[] {
  const { pixels, columns, rows } = film.levels[0]!;
  if (pixels.length !== columns * rows)
    throw new Error(`${pixels.length} values for ${columns} × ${rows} pixels`);
  return Array.from(pixels);
}
