import { framing } from './framing.ts';
import { buildHand } from './hand.ts';
import type { Random } from './random.ts';
import { type Exposure, expose, renderRows } from './render.ts';
import type { InventedFilmSpec } from './spec.ts';
import type { FilmTruth } from './truth.ts';
import { truthOf } from './truth-of.ts';

/** A film that shows nobody: grey values, and everything that is known of them. */
export interface InventedFilm {
  readonly columns: number;
  readonly rows: number;
  /** 12 to 14 bits as `truth.spec.film.bitsStored` says; bone is bright. Row by row from the top left. */
  readonly pixels: Uint16Array;
  readonly truth: FilmTruth;
}

/** How many times coarser than the spec a preview is drawn; 1 is the film itself. */
export type PreviewScale = 1 | 2 | 4 | 8;

/** All that decides a film, as plain JSON: two workers given the same plan draw parts of the same film. */
export interface FilmPlan {
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  readonly previewScale: PreviewScale;
}

/** Draws the one number from which all chance of a film follows. */
export const planFilm = (
  spec: InventedFilmSpec,
  random: Random,
  previewScale: PreviewScale = 1,
): FilmPlan => ({ spec, filmSeed: Math.floor(random() * 4294967296), previewScale });

/** A film ready to be drawn row by row, and its truth. */
export interface PreparedFilm {
  readonly exposure: Exposure;
  readonly truth: FilmTruth;
}

/** Builds the hand, places it over the film, and works out what all rows share. */
export function prepareFilm(plan: FilmPlan): PreparedFilm {
  const { spec, filmSeed, previewScale } = plan;
  const hand = buildHand(spec, filmSeed);
  const { camera, extras } = framing(spec, hand, previewScale);
  return {
    exposure: expose(spec, filmSeed, hand, camera, extras),
    truth: truthOf(spec, filmSeed, hand, camera, extras),
  };
}

/** The truth of a film, without drawing it: a few milliseconds. */
export function truthOfPlan({ spec, filmSeed, previewScale }: FilmPlan): FilmTruth {
  const hand = buildHand(spec, filmSeed);
  const { camera, extras } = framing(spec, hand, previewScale);
  return truthOf(spec, filmSeed, hand, camera, extras);
}

/**
 * Invents a film.
 *
 * The same spec and the same numbers from `random` give the same pixels on every machine; see
 * exact-maths.ts for what that rests on.
 *
 * @param random - Called once. `seededRandom(seed)` makes one.
 * @param previewScale - 4 draws a film a quarter as wide and high; its truth is in its own pixels.
 */
export function inventFilm(
  spec: InventedFilmSpec,
  random: Random,
  previewScale: PreviewScale = 1,
): InventedFilm {
  const { exposure, truth } = prepareFilm(planFilm(spec, random, previewScale));
  const { columns, rows } = exposure.camera;
  return { columns, rows, pixels: renderRows(exposure, 0, rows), truth };
}
