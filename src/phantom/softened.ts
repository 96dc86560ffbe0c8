import { blurred } from './grid.ts';

/** Standard deviation of the neighbourhood whose detail is strengthened, mm. */
export const DETAIL_MM = 0.55;

/** A picture blurred by `DETAIL_MM`, kept at a spacing that is fine enough for that. */
export interface Softened {
  /** Pixels to one value. */
  readonly block: number;
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array;
}

/** Pixels averaged into one value. */
export const detailBlock = (pitchMm: number): number => Math.max(1, Math.round(DETAIL_MM / 2.2 / pitchMm));

/** Averages blocks of pixels and blurs the averages; the first row must begin a block of the whole film. */
export function softened(density: Float32Array, columns: number, rows: number, pitchMm: number): Softened {
  const block = detailBlock(pitchMm);
  const fewerColumns = Math.ceil(columns / block);
  const fewerRows = Math.ceil(rows / block);
  const means = new Float32Array(fewerColumns * fewerRows);
  for (let row = 0; row < fewerRows; row += 1) {
    for (let column = 0; column < fewerColumns; column += 1) {
      let sum = 0;
      for (let y = 0; y < block; y += 1) {
        const start = Math.min(rows - 1, row * block + y) * columns;
        for (let x = 0; x < block; x += 1) sum += density[start + Math.min(columns - 1, column * block + x)]!;
      }
      means[row * fewerColumns + column] = sum / (block * block);
    }
  }
  const values = blurred(means, fewerColumns, fewerRows, DETAIL_MM / (block * pitchMm));
  return { block, columns: fewerColumns, rows: fewerRows, values };
}
