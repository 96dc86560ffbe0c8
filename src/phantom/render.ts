import {
  type Attenuations,
  addBoneShadows,
  attenuationsAt,
  type ProjectedPart,
  projectParts,
} from './bone-shadow.ts';
import { type Camera, coarser } from './camera.ts';
import type { PhantomSceneExtras } from './extras.ts';
import { addExtras } from './extras.ts';
import { decay, quickLogarithm } from './fast-tables.ts';
import { drawFatPlanes, type FatPlanes } from './fat-planes.ts';
import { blurred, coarseRow } from './grid.ts';
import type { Hand } from './hand.ts';
import { mix, normalQuantiles } from './random.ts';
import { coarseSkin, fineSkin, roughNodes, type SkinGrid } from './skin-grid.ts';
import { skinOnGrid, skinRows } from './skin-shadow.ts';
import { type PlacedSkin, placeSkin } from './soft-tissue.ts';
import { DETAIL_MM, detailBlock, type Softened, softened } from './softened.ts';
import type { InventedFilmSpec } from './spec.ts';

/** All that is worked out once for a film, before its rows are drawn. */
export interface Exposure {
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  readonly camera: Camera;
  readonly parts: readonly ProjectedPart[];
  readonly extras: PhantomSceneExtras;
  readonly attenuations: Attenuations;
  /** Pixels of the film to one node of the coarse grids, and of the fine grid of the skin. */
  readonly step: number;
  readonly fineStep: number;
  readonly placedSkin: PlacedSkin;
  readonly fatPlanes: FatPlanes;
  readonly skin: SkinGrid;
  readonly rough: Uint8Array;
  /** Scattered light as a share of the open beam, on the coarse grid. */
  readonly scatter: Float32Array;
  /** Density over a neighbourhood of several millimetres, on the coarse grid. */
  readonly broad: Float32Array;
}

/** Spacing of the coarse grids and of the fine one, mm. */
const COARSE_MM = 1.1;
const FINE_MM = 0.35;
const SCATTER_SPREAD_MM = 11;
const BROAD_MM = 7;
/** Grey of the open beam, as a share of the full range. */
const OPEN_BEAM_GREY = 0.03;
/** Density at which the grey scale reaches half of `GREY_RANGE`: steep for skin, flat for dense overlaps. */
const HALF_DENSITY = 0.85;
const GREY_RANGE = 1.28;

/** What is needed to make any rows of a film: all shadows in place, nothing summed yet. */
export function expose(
  spec: InventedFilmSpec,
  filmSeed: number,
  hand: Hand,
  camera: Camera,
  extras: PhantomSceneExtras,
): Exposure {
  // A preview's pixels are coarse themselves; then the grids need not be finer than a few of them.
  const fineStep = Math.max(1, Math.round(Math.max(FINE_MM, 1.6 * camera.pitchMm) / camera.pitchMm));
  const coarseMm = Math.max(COARSE_MM, 3 * camera.pitchMm);
  const step = fineStep * Math.max(1, Math.round(coarseMm / (fineStep * camera.pitchMm)));
  const small = coarser(camera, step);
  const attenuations = attenuationsAt(spec.exposure.energyKev);
  const placedSkin = placeSkin(hand.skin, camera);
  const fatPlanes = drawFatPlanes(filmSeed);
  const skin = coarseSkin(placedSkin, small, fatPlanes);
  const coarseParts = projectParts(hand.parts, small);
  const sums = skinOnGrid(skin, attenuations);
  const band = { from: 0, to: small.rows, values: sums };
  addBoneShadows(coarseParts, small, attenuations, spec.hand.boneDensity, band);
  // Without lead: it lies beside or under the hand, and would darken its surroundings.
  addExtras({ ...extras, marker: null, markerGrid: null }, small, attenuations, band);
  const density = sums.map((sum) => Math.max(0, Math.min(6, sum)));
  decay(sums, () => 1);
  const { scatterShare } = spec.exposure;
  // Scatter is made where the beam is partly stopped, and is strongest behind a third left over.
  const strength = (scatterShare / (1 - scatterShare)) * 1.5;
  const made = sums.map((share) => strength * share * (1 - share));
  return {
    spec,
    filmSeed,
    camera,
    parts: projectParts(hand.parts, camera),
    extras,
    attenuations,
    step,
    fineStep,
    placedSkin,
    fatPlanes,
    skin,
    rough: roughNodes(skin),
    scatter: blurred(made, small.columns, small.rows, SCATTER_SPREAD_MM / small.pitchMm),
    broad: blurred(density, small.columns, small.rows, BROAD_MM / small.pitchMm),
  };
}

/** Rows beyond a band that its blurs reach into. */
function apron(exposure: Exposure): number {
  const { pitchMm } = exposure.camera;
  return (
    Math.ceil((3 * exposure.spec.exposure.blurMm) / pitchMm) + Math.ceil((4.5 * DETAIL_MM) / pitchMm) + 4
  );
}

/**
 * Grey values of the rows [from, to). Whatever the bands a film is drawn in, its pixels are the same.
 */
export function renderRows(exposure: Exposure, from: number, to: number): Uint16Array {
  const { camera, spec, step, skin } = exposure;
  const { columns } = camera;
  // Whole blocks of pixels, whatever the band.
  const block = detailBlock(camera.pitchMm);
  const first = Math.max(0, Math.floor((from - apron(exposure)) / block) * block);
  const past = Math.min(camera.rows, Math.ceil((to + apron(exposure)) / block) * block);
  const rows = past - first;
  const { fineStep } = exposure;
  const fine = coarser(camera, fineStep);
  const grid = fineSkin(
    exposure.placedSkin,
    fine,
    exposure.fatPlanes,
    skin,
    exposure.rough,
    step / fineStep,
    Math.max(0, Math.floor(first / fineStep) - 2),
    Math.min(fine.rows, Math.ceil(past / fineStep) + 2),
  );
  const intensity = skinRows(grid, exposure.attenuations, fineStep, columns, first, past);
  const band = { from: first, to: past, values: intensity };
  addBoneShadows(exposure.parts, camera, exposure.attenuations, spec.hand.boneDensity, band);
  addExtras(exposure.extras, camera, exposure.attenuations, band);
  decay(intensity, slant(camera, first));
  const sharp = blurred(intensity, columns, rows, spec.exposure.blurMm / camera.pitchMm);
  const density = detect(exposure, sharp, first, past);
  return develop(exposure, density, softened(density, columns, rows, camera.pitchMm), first, from, to);
}

/** Thickness is summed towards the tube; a slanting ray is longer than that by its secant. */
function slant(camera: Camera, firstRow: number): (index: number) => number {
  if (camera.sourceMm === null) return () => 1;
  const { columns, pitchMm, sourceMm } = camera;
  const perSquare = (pitchMm * pitchMm) / (2 * sourceMm * sourceMm);
  let row = -1;
  let rowSquare = 0;
  return (index) => {
    const r = Math.floor(index / columns);
    if (r !== row) {
      row = r;
      const y = firstRow + r + 0.5 - camera.centreRow;
      rowSquare = y * y;
    }
    const x = index - r * columns + 0.5 - camera.centreColumn;
    return 1 + (x * x + rowSquare) * perSquare;
  };
}

/** Adds scatter and photon noise, and takes the logarithm: density above the open beam. */
function detect(exposure: Exposure, sharp: Float32Array, first: number, past: number): Float32Array {
  const { camera, spec, filmSeed, skin, step, scatter } = exposure;
  const { columns } = camera;
  const quantiles = normalQuantiles();
  // A preview's larger pixels gather more photons.
  const larger = camera.pitchMm / spec.film.pitchMm;
  const perPhoton = 1 / (spec.exposure.photonsPerPixel * larger * larger);
  const noisy = new Float32Array(sharp.length);
  const line = new Float32Array(columns);
  for (let row = first; row < past; row += 1) {
    coarseRow(scatter, skin.columns, skin.rows, step, row, line);
    let state = mix(filmSeed ^ Math.imul(row + 1, 0x9e3779b1));
    const start = (row - first) * columns;
    for (let c = 0; c < columns; c += 1) {
      state = (state + 0x9e3779b9) | 0;
      let h = Math.imul(state ^ (state >>> 16), 0x7feb352d);
      h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
      const arrived = sharp[start + c]! + Math.max(0, line[c]!);
      noisy[start + c] = arrived + Math.sqrt(arrived * perPhoton) * quantiles[h >>> 20]!;
    }
  }
  // Light spreads a little within the detector after the photons are counted, so noise has a grain.
  const grainy = blurred(noisy, columns, past - first, 0.45);
  for (let i = 0; i < grainy.length; i += 1) grainy[i] = -quickLogarithm(Math.max(1e-5, grainy[i]!));
  return grainy;
}

/** Detail, evenness and the grey scale. */
function develop(
  exposure: Exposure,
  density: Float32Array,
  soft: Softened,
  first: number,
  from: number,
  to: number,
): Uint16Array {
  const { camera, spec, skin, step, broad } = exposure;
  const { columns } = camera;
  const { detail, evenness, bitsStored } = spec.film;
  const most = 2 ** bitsStored - 1;
  const result = new Uint16Array(columns * (to - from));
  const line = new Float32Array(columns);
  const softLine = new Float32Array(columns);
  for (let row = from; row < to; row += 1) {
    coarseRow(broad, skin.columns, skin.rows, step, row, line);
    coarseRow(soft.values, soft.columns, soft.rows, soft.block, row - first, softLine);
    const source = (row - first) * columns;
    const target = (row - from) * columns;
    for (let c = 0; c < columns; c += 1) {
      const here = density[source + c]!;
      const drawn = here + detail * (here - softLine[c]!) - evenness * line[c]!;
      const bent = drawn <= 0 ? drawn / HALF_DENSITY : drawn / (drawn + HALF_DENSITY);
      const share = OPEN_BEAM_GREY + GREY_RANGE * bent;
      result[target + c] = Math.max(0, Math.min(most, Math.round(share * most)));
    }
  }
  return result;
}
