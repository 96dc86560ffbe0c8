import * as Comlink from 'comlink';
import type { Film } from '../film/film.ts';
import { type FilmPlan, type PreparedFilm, prepareFilm, truthOfPlan } from '../phantom/invent.ts';
import { type BoneOutline, outlinesOfPlan } from '../phantom/outlines.ts';
import { renderRows } from '../phantom/render.ts';
import type { PhantomRay } from '../phantom/spec.ts';
import { toFilm } from '../phantom/to-film.ts';
import type { FilmTruth } from '../phantom/truth.ts';

/** What the page may ask of this worker, through comlink. */
export interface PhantomWorker {
  /** A whole invented film with its truth. Its pixels are handed over, not copied. */
  invent(plan: FilmPlan): Promise<{ readonly film: Film; readonly truth: FilmTruth }>;
  /**
   * Grey values of the rows [from, to): two workers given the same plan draw one half each, and the halves
   * laid together are the film that `invent` draws.
   */
  rows(plan: FilmPlan, from: number, to: number): Promise<Uint16Array>;
  /** The truth and the size of a film, without drawing it. */
  truth(plan: FilmPlan): Promise<FilmTruth>;
  /** The same, with where the edges of every metacarpal fall. */
  outlined(plan: FilmPlan): Promise<OutlinedFilm>;
}

/** What is known of a film besides its pixels. */
export interface OutlinedFilm {
  readonly truth: FilmTruth;
  readonly outlines: Readonly<Record<PhantomRay, BoneOutline>>;
}

/** The last film is kept ready, since its rows are asked for piece by piece. */
let kept: { readonly key: string; readonly prepared: PreparedFilm } | null = null;

function prepared(plan: FilmPlan): PreparedFilm {
  const key = JSON.stringify(plan);
  if (kept?.key !== key) kept = { key, prepared: prepareFilm(plan) };
  return kept.prepared;
}

const worker: PhantomWorker = {
  async invent(plan) {
    const { exposure, truth } = prepared(plan);
    const { columns, rows } = exposure.camera;
    const film = toFilm({ columns, rows, pixels: renderRows(exposure, 0, rows), truth });
    return Comlink.transfer(
      { film, truth },
      film.levels.map(({ pixels }) => pixels.buffer as ArrayBuffer),
    );
  },
  async rows(plan, from, to) {
    const pixels = renderRows(prepared(plan).exposure, from, to);
    return Comlink.transfer(pixels, [pixels.buffer as ArrayBuffer]);
  },
  async truth(plan) {
    return truthOfPlan(plan);
  },
  async outlined(plan) {
    return { truth: truthOfPlan(plan), outlines: outlinesOfPlan(plan) };
  },
};

Comlink.expose(worker);
