import {
  type FilmPlan,
  type InventedFilm,
  inventFilm,
  planFilm,
  truthOfPlan,
} from '../../src/phantom/invent.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { type InventedFilmRequest, type InventedFilmSpec, parseSpec } from '../../src/phantom/spec.ts';
import type { FilmTruth } from '../../src/phantom/truth.ts';

/** A spec from a request that must be valid. */
export function specOf(request: InventedFilmRequest): InventedFilmSpec {
  const parsed = parseSpec(request);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.error));
  return parsed.value;
}

export const planOf = (request: InventedFilmRequest, seed: number): FilmPlan =>
  planFilm(specOf(request), seededRandom(seed));

export const filmOf = (request: InventedFilmRequest, seed: number): InventedFilm =>
  inventFilm(specOf(request), seededRandom(seed));

/** The truth of a film that is not drawn. */
export const truthOf = (request: InventedFilmRequest, seed: number): FilmTruth =>
  truthOfPlan(planOf(request, seed));

/** A film small enough for a test, whole hand. */
export const SMALL = { columns: 300, rows: 400, pitchMm: 0.6 } as const;

/** One metacarpal by itself in a parallel beam, without noise, blur or processing. */
export const alone = (
  ray: 'thumb' | 'index' | 'middle' | 'ring' | 'small',
  turnDegrees: number,
): InventedFilmRequest => ({
  hand: { sizeDeviation: 0 },
  view: { turnDegrees },
  beam: { kind: 'parallel' },
  exposure: { photonsPerPixel: 1e6, scatterShare: 0, blurMm: 0 },
  film: { columns: 500, rows: 900, pitchMm: 0.1, detail: 0, evenness: 0, framing: 'metacarpals' },
  extras: { marker: false, onlyRay: ray },
});
