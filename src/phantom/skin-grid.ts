import type { Camera } from './camera.ts';
import type { FatPlanes } from './fat-planes.ts';
import { coarseRow } from './grid.ts';
import { MISS_LIMIT, type PlacedSkin, type SkinPassage, SkinWalker } from './soft-tissue.ts';

/**
 * Soft tissue on grids of rays.
 *
 * At the hand's outline the length inside the skin grows like the square root of the distance from the edge,
 * which no grid can follow; its square grows evenly. So the square is kept, and outside the hand the
 * distance to the skin takes its place with a minus: interpolated, it gives a sharp outline. Where one part
 * of the hand's outline crosses another, that does not help; there rays are followed on a finer grid.
 */
export interface SkinGrid {
  readonly columns: number;
  readonly rows: number;
  /** Length² / (8 × `ROUNDING_MM`) inside, minus the distance outside, mm. */
  readonly edge: Float32Array;
  readonly fatMm: Float32Array;
}

/** Radius of curvature for which the two halves of `edge` meet without a kink, mm. */
const ROUNDING_MM = 8;

/** Way through rounded skin, mm, at a distance inside its edge in mm; 0 at the edge and outside. */
export const skinLength = (edge: number): number => (edge <= 0 ? 0 : Math.sqrt(8 * ROUNDING_MM * edge));

const edgeOf = ({ insideMm, missMm }: SkinPassage): number =>
  insideMm > 0 ? (insideMm * insideMm) / (8 * ROUNDING_MM) : -missMm;

/** From this thickness on there are muscles in the way, mm. */
const MUSCLE_MM = 18;

/** Fat under the skin and between the muscles, mm. */
function fatOf({ insideMm, fatMm }: SkinPassage, xMm: number, yMm: number, planes: FatPlanes): number {
  if (insideMm === 0) return 0;
  const share = Math.min(1, insideMm / MUSCLE_MM);
  return fatMm + share * share * planes(xMm, yMm);
}

/** Second difference of `edge` beyond which nodes cannot be joined by a smooth curve, and its share of `edge`. */
const ROUGH = 0.4;
const ROUGH_SHARE = 0.05;

/** Follows one ray for each pixel of a coarse film. */
export function coarseSkin(skin: PlacedSkin, camera: Camera, planes: FatPlanes): SkinGrid {
  const { columns, rows, pitchMm } = camera;
  const edge = new Float32Array(columns * rows).fill(-MISS_LIMIT);
  const fatMm = new Float32Array(columns * rows);
  const walker = new SkinWalker(skin, camera.sourceMm);
  const passage = { insideMm: 0, fatMm: 0, missMm: 0 };
  for (let row = 0; row < rows; row += 1) {
    const yd = (camera.centreRow - (row + 0.5)) * pitchMm;
    for (let column = 0; column < columns; column += 1) {
      const xd = (column + 0.5 - camera.centreColumn) * pitchMm;
      walker.follow(xd, yd, passage);
      edge[row * columns + column] = edgeOf(passage);
      fatMm[row * columns + column] = fatOf(passage, xd, yd, planes);
    }
  }
  return { columns, rows, edge, fatMm };
}

/** Nodes of a coarse grid near which the hand's outlines cross. */
export function roughNodes({ columns, rows, edge }: SkinGrid): Uint8Array {
  const rough = new Uint8Array(columns * rows);
  for (let row = 1; row + 1 < rows; row += 1) {
    for (let column = 1; column + 1 < columns; column += 1) {
      const at = row * columns + column;
      const twice = 2 * edge[at]!;
      const across = Math.abs(edge[at - 1]! - twice + edge[at + 1]!);
      const down = Math.abs(edge[at - columns]! - twice + edge[at + columns]!);
      if (Math.max(across, down) > ROUGH + ROUGH_SHARE * Math.max(0, edge[at]!)) rough[at] = 1;
    }
  }
  return rough;
}

/** Rows [from, to) of a finer grid over the same film. */
export interface FineSkin extends SkinGrid {
  readonly from: number;
}

/**
 * Fills rows [from, to) of a grid `factor` times as fine: from the coarse one by smooth curves, and along
 * rays of its own near rough nodes.
 *
 * @param camera - Camera whose pixels are the nodes of the fine grid.
 */
export function fineSkin(
  skin: PlacedSkin,
  camera: Camera,
  planes: FatPlanes,
  coarse: SkinGrid,
  rough: Uint8Array,
  factor: number,
  from: number,
  to: number,
): FineSkin {
  const { columns, pitchMm } = camera;
  const edge = new Float32Array(columns * (to - from));
  const fatMm = new Float32Array(columns * (to - from));
  const walker = new SkinWalker(skin, camera.sourceMm);
  const passage = { insideMm: 0, fatMm: 0, missMm: 0 };
  for (let row = from; row < to; row += 1) {
    const start = (row - from) * columns;
    coarseRow(coarse.edge, coarse.columns, coarse.rows, factor, row, edge.subarray(start, start + columns));
    coarseRow(coarse.fatMm, coarse.columns, coarse.rows, factor, row, fatMm.subarray(start, start + columns));
    const yd = (camera.centreRow - (row + 0.5)) * pitchMm;
    const above = Math.max(0, Math.floor((row + 0.5) / factor - 0.5)) * coarse.columns;
    const below = Math.min(coarse.rows - 1, Math.floor((row + 0.5) / factor - 0.5) + 1) * coarse.columns;
    for (let column = 0; column < columns; column += 1) {
      const left = Math.max(0, Math.floor((column + 0.5) / factor - 0.5));
      const right = Math.min(coarse.columns - 1, left + 1);
      if (rough[above + left]! + rough[above + right]! + rough[below + left]! + rough[below + right]! === 0) {
        continue;
      }
      const xd = (column + 0.5 - camera.centreColumn) * pitchMm;
      walker.follow(xd, yd, passage);
      edge[start + column] = edgeOf(passage);
      fatMm[start + column] = fatOf(passage, xd, yd, planes);
    }
  }
  return { columns, rows: to - from, edge, fatMm, from };
}
