import type { Attenuations } from './bone-shadow.ts';
import { coarseRow } from './grid.ts';
import { type FineSkin, type SkinGrid, skinLength } from './skin-grid.ts';

/** Attenuation × length of skin, muscle and fat at one place. */
function skinSum(attenuations: Attenuations, edge: number, fatMm: number): number {
  const length = skinLength(edge);
  const fat = Math.max(0, Math.min(length, fatMm));
  return attenuations.softTissue * (length - fat) + attenuations.fat * fat;
}

/** The same for every node of a grid. */
export const skinOnGrid = ({ edge, fatMm }: SkinGrid, attenuations: Attenuations): Float32Array =>
  edge.map((value, i) => skinSum(attenuations, value, fatMm[i]!));

/**
 * Attenuation × length of the skin for the rows [first, past) of the film, row by row.
 *
 * @param step - Pixels to one node of the grid.
 * @param rows - Rows of the whole fine grid.
 */
export function skinRows(
  grid: FineSkin,
  attenuations: Attenuations,
  step: number,
  columns: number,
  first: number,
  past: number,
): Float32Array {
  const sums = new Float32Array(columns * (past - first));
  const fat = new Float32Array(columns);
  for (let row = first; row < past; row += 1) {
    const edge = sums.subarray((row - first) * columns, (row - first + 1) * columns);
    // The grid begins at a row of its own; shifting whole nodes keeps the phase.
    const within = row - grid.from * step;
    coarseRow(grid.edge, grid.columns, grid.rows, step, within, edge);
    coarseRow(grid.fatMm, grid.columns, grid.rows, step, within, fat);
    for (let c = 0; c < columns; c += 1) edge[c] = skinSum(attenuations, edge[c]!, fat[c]!);
  }
  return sums;
}
