import { exponential } from './exact-maths.ts';

/** Gaussian weights out to three standard deviations, summing to 1. */
function gaussianWeights(sigma: number): Float64Array {
  const reach = Math.max(0, Math.ceil(3 * sigma));
  const weights = new Float64Array(2 * reach + 1);
  let total = 0;
  for (let k = -reach; k <= reach; k += 1) {
    const weight = sigma === 0 ? 1 : exponential(-(k * k) / (2 * sigma * sigma));
    weights[k + reach] = weight;
    total += weight;
  }
  return weights.map((weight) => weight / total);
}

/**
 * Gaussian blur of a picture, edge values held beyond the edges. The result of a pixel depends on its
 * neighbourhood alone and not on how much of the picture is given.
 */
export function blurred(source: Float32Array, columns: number, rows: number, sigma: number): Float32Array {
  const weights = gaussianWeights(sigma);
  const reach = (weights.length - 1) / 2;
  if (reach === 0) return source;
  const across = new Float32Array(columns * rows);
  const padded = new Float32Array(columns + 2 * reach);
  for (let row = 0; row < rows; row += 1) {
    const start = row * columns;
    padded.set(source.subarray(start, start + columns), reach);
    padded.fill(source[start]!, 0, reach);
    padded.fill(source[start + columns - 1]!, reach + columns);
    for (let column = 0; column < columns; column += 1) {
      let sum = weights[reach]! * padded[column + reach]!;
      for (let k = 1; k <= reach; k += 1) {
        sum += weights[reach + k]! * (padded[column + reach - k]! + padded[column + reach + k]!);
      }
      across[start + column] = sum;
    }
  }
  const result = new Float32Array(columns * rows);
  const above = new Int32Array(reach + 1);
  const below = new Int32Array(reach + 1);
  for (let row = 0; row < rows; row += 1) {
    for (let k = 0; k <= reach; k += 1) {
      above[k] = Math.max(0, row - k) * columns;
      below[k] = Math.min(rows - 1, row + k) * columns;
    }
    const start = row * columns;
    for (let c = 0; c < columns; c += 1) {
      let sum = weights[reach]! * across[start + c]!;
      for (let k = 1; k <= reach; k += 1) {
        sum += weights[reach + k]! * (across[above[k]! + c]! + across[below[k]! + c]!);
      }
      result[start + c] = sum;
    }
  }
  return result;
}

/**
 * One row of a fine film looked up in a coarse one, `step` pixels to a node, by cubic convolution
 * (Catmull–Rom; Keys 1981): smooth across the nodes, edge values held.
 *
 * @param out - As long as the film is wide.
 */
export function coarseRow(
  grid: Float32Array,
  gridColumns: number,
  gridRows: number,
  step: number,
  row: number,
  out: Float32Array,
): void {
  const place = (row + 0.5) / step - 0.5;
  const base = Math.floor(place);
  const weights = cubicWeights(place - base);
  const line = new Float64Array(gridColumns);
  for (let k = 0; k < 4; k += 1) {
    const start = Math.max(0, Math.min(gridRows - 1, base - 1 + k)) * gridColumns;
    const weight = weights[k]!;
    for (let c = 0; c < gridColumns; c += 1) line[c]! += weight * grid[start + c]!;
  }
  const last = gridColumns - 1;
  for (let phase = 0; phase < step; phase += 1) {
    const at = (phase + 0.5) / step - 0.5;
    const shift = Math.floor(at);
    const [w0, w1, w2, w3] = cubicWeights(at - shift);
    for (let node = 0, column = phase; column < out.length; node += 1, column += step) {
      const c = node + shift;
      out[column] =
        w0 * line[Math.max(0, Math.min(last, c - 1))]! +
        w1 * line[Math.max(0, Math.min(last, c))]! +
        w2 * line[Math.max(0, Math.min(last, c + 1))]! +
        w3 * line[Math.max(0, Math.min(last, c + 2))]!;
    }
  }
}

function cubicWeights(t: number): readonly [number, number, number, number] {
  const s = 1 - t;
  return [
    -0.5 * t * s * s,
    1 - 2.5 * t * t + 1.5 * t * t * t,
    1 - 2.5 * s * s + 1.5 * s * s * s,
    -0.5 * s * t * t,
  ];
}
