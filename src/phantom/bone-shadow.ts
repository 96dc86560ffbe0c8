import { attenuationPerMm } from './attenuation.ts';
import type { BonePart } from './bone-part.ts';
import { type Camera, project, turned } from './camera.ts';
import { mix } from './random.ts';
import type { Fineness } from './ring-mesh.ts';
import {
  addThickness,
  type PixelBox,
  type PixelPatch,
  type ProjectedMesh,
  projectMesh,
} from './thickness.ts';
import { tileAt, trabecularTile } from './trabeculae.ts';
import { TABLE_PER_MM } from './tube.ts';
import { add, scale, type Vector } from './vector.ts';

/** A bone part with its surfaces projected on one film. */
export interface ProjectedPart {
  readonly part: BonePart;
  readonly outer: ProjectedMesh;
  readonly inner: ProjectedMesh | null;
}

/** Facets no finer than the film can show. */
const finenessFor = (pitchMm: number): Fineness => ({
  alongMm: Math.max(0.7, 2.5 * pitchMm),
  around: pitchMm <= 0.2 ? 44 : pitchMm <= 0.5 ? 28 : 18,
});

/** The surfaces of all parts as the camera sees them; parts outside of the film are left out. */
export function projectParts(parts: readonly BonePart[], camera: Camera): ProjectedPart[] {
  const fineness = finenessFor(camera.pitchMm);
  const result: ProjectedPart[] = [];
  for (const part of parts) {
    const surfaces = part.surfaces(fineness);
    if (surfaces === null) continue;
    // Depths from the part's own middle keep the sums small and so exact.
    const zero = turned(camera, part.placing.origin)[2];
    const outer = projectMesh(surfaces.outer, part.placing, camera, zero);
    if (outer.box.left >= outer.box.right || outer.box.top >= outer.box.bottom) continue;
    const inner = surfaces.inner === null ? null : projectMesh(surfaces.inner, part.placing, camera, zero);
    result.push({ part, outer, inner });
  }
  return result;
}

/** Linear attenuation at the film's energy, 1/mm, of what the hand is made of. */
export interface Attenuations {
  readonly bone: number;
  readonly softTissue: number;
  readonly fat: number;
}

/** Linear attenuation of the three tissues, per mm, at an energy of the beam in keV. */
export const attenuationsAt = (energyKev: number): Attenuations => ({
  bone: attenuationPerMm('bone', energyKev),
  softTissue: attenuationPerMm('softTissue', energyKev),
  fat: attenuationPerMm('fat', energyKev),
});

/** Rows [from, to) of the film and their sums of attenuation × length, row by row. */
export interface RowBand {
  readonly from: number;
  readonly to: number;
  readonly values: Float32Array;
}

/** How strongly the trabecular pattern shows, by its share of the bone in the way; judged by eye. */
const TRABECULAR_CONTRAST = 0.64;

/** Adds to a band what each part stops more than the soft tissue it stands in. */
export function addBoneShadows(
  parts: readonly ProjectedPart[],
  camera: Camera,
  attenuations: Attenuations,
  boneDensity: number,
  band: RowBand,
): void {
  for (const projected of parts) {
    const { box } = projected.outer;
    const clipped: PixelBox = {
      ...box,
      top: Math.max(box.top, band.from),
      bottom: Math.min(box.bottom, band.to),
    };
    if (clipped.top >= clipped.bottom) continue;
    const width = clipped.right - clipped.left;
    const size = width * (clipped.bottom - clipped.top);
    const outer: PixelPatch = { box: clipped, width, values: new Float32Array(size) };
    addThickness(projected.outer, camera.handedness, outer);
    const inner: PixelPatch = { box: clipped, width, values: new Float32Array(size) };
    if (projected.inner !== null) addThickness(projected.inner, camera.handedness, inner);
    shade(projected.part, camera, attenuations, boneDensity, outer, inner, band);
  }
}

function shade(
  part: BonePart,
  camera: Camera,
  attenuations: Attenuations,
  boneDensity: number,
  outer: PixelPatch,
  inner: PixelPatch,
  band: RowBand,
): void {
  const { box, width } = outer;
  const { origin, distal } = part.placing;
  const atOrigin = project(camera, origin);
  const ahead = project(camera, add(origin, scale(distal, 10)));
  const alongColumns = (ahead.column - atOrigin.column) / 10;
  const alongRows = (ahead.row - atOrigin.row) / 10;
  const perMm = 1 / camera.pitchMm;
  // A bone seen end-on has no course on the film; the floor keeps its places finite.
  const lengthSquared = Math.max(0.05 * perMm * perMm, alongColumns * alongColumns + alongRows * alongRows);
  const length = Math.sqrt(lengthSquared);
  const sColumn = alongColumns / lengthSquared;
  const sRow = alongRows / lengthSquared;
  const vColumn = -alongRows / (length * perMm);
  const vRow = alongColumns / (length * perMm);
  const tile = trabecularTile(part.grain, Math.max(0.12, 0.6 * camera.pitchMm));
  const seed = mix(part.textureSeed * 31 + part.name.length);
  const offset: Vector = [(seed & 255) * 0.3, ((seed >>> 8) & 255) * 0.3, 0];
  const contrast = TRABECULAR_CONTRAST * Math.min(1, 0.2 / camera.pitchMm);
  const { bone, softTissue, fat } = attenuations;
  const shell = part.shellShare * bone + (1 - part.shellShare) * softTissue;
  const table = typeof part.cancellous === 'number' ? null : part.cancellous;
  const uniform = typeof part.cancellous === 'number' ? part.cancellous : 0;
  const last = (table?.length ?? 1) - 1;
  for (let row = box.top; row < box.bottom; row += 1) {
    let from = (row - box.top) * width;
    let to = (row - band.from) * camera.columns + box.left;
    const dRow = row + 0.5 - atOrigin.row;
    for (let column = box.left; column < box.right; column += 1, from += 1, to += 1) {
      const whole = outer.values[from]!;
      if (whole < 1e-3) continue;
      const hollow = Math.max(0, Math.min(whole, inner.values[from]!));
      let sum = (whole - hollow) * shell - whole * softTissue;
      if (hollow > 0) {
        const dColumn = column + 0.5 - atOrigin.column;
        const s = dColumn * sColumn + dRow * sRow;
        const v = dColumn * vColumn + dRow * vRow;
        const place = Math.max(0, Math.min(last, Math.round(s * TABLE_PER_MM)));
        const share = (table === null ? uniform : table[place]!) * boneDensity;
        const network = tileAt(tile, v + offset[0], s + offset[1]);
        sum += hollow * (share * bone + (1 - share) * fat);
        sum += Math.sqrt(hollow) * share * (bone - fat) * contrast * network;
        sum += (whole - hollow) * 0.025 * bone * network;
      }
      band.values[to] = band.values[to]! + sum;
    }
  }
}
