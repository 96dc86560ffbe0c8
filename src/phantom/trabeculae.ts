import { exponential } from './exact-maths.ts';
import { normalDeviate, seededRandom } from './random.ts';

/** Side of the tile in entries; it repeats. */
const TILE = 256;
const MASK = TILE - 1;

/**
 * The shadow of a network of trabeculae, as a repeating tile of deviations (mean 0, standard deviation 1):
 * band-passed noise, drawn out along the bone, its crests sharpened.
 */
export interface TrabecularTile {
  readonly cellMm: number;
  readonly values: Float32Array;
}

function blurAround(source: Float32Array, sigma: number, along: 'rows' | 'columns'): Float32Array {
  if (sigma < 0.2) return source;
  const reach = Math.ceil(3 * sigma);
  const weights = Array.from({ length: 2 * reach + 1 }, (_, k) =>
    exponential(-((k - reach) * (k - reach)) / (2 * sigma * sigma)),
  );
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const result = new Float32Array(TILE * TILE);
  const strideAcross = along === 'columns' ? 1 : TILE;
  const strideOther = along === 'columns' ? TILE : 1;
  for (let i = 0; i < TILE; i += 1) {
    for (let j = 0; j < TILE; j += 1) {
      let sum = 0;
      for (let k = -reach; k <= reach; k += 1) {
        sum += weights[k + reach]! * source[i * strideOther + ((j + k) & MASK) * strideAcross]!;
      }
      result[i * strideOther + j * strideAcross] = sum / total;
    }
  }
  return result;
}

function standardise(values: Float32Array): Float32Array {
  let mean = 0;
  for (const value of values) mean += value / values.length;
  let variance = 0;
  for (const value of values) variance += ((value - mean) * (value - mean)) / values.length;
  const deviation = Math.sqrt(variance);
  return values.map((value) => (value - mean) / deviation);
}

/** Noise with features of about `acrossMm` by `alongMm`. */
function band(label: string, cellMm: number, acrossMm: number, alongMm: number): Float32Array {
  const random = seededRandom(20250, label);
  const white = Float32Array.from({ length: TILE * TILE }, () => normalDeviate(random));
  const across = Math.max(0.5, acrossMm / cellMm);
  const along = Math.max(0.5, alongMm / cellMm);
  const fine = blurAround(blurAround(white, across, 'columns'), along, 'rows');
  const broad = blurAround(blurAround(fine, across * 2.4, 'columns'), along * 1.6, 'rows');
  return standardise(fine.map((value, i) => value - broad[i]!));
}

const tiles = new Map<string, TrabecularTile>();

/**
 * @param grain - `long`: as in a finger bone; `round`: as in a carpal.
 * @param cellMm - Width of one entry.
 */
export function trabecularTile(grain: 'round' | 'long', cellMm: number): TrabecularTile {
  const key = `${grain} ${cellMm}`;
  const known = tiles.get(key);
  if (known !== undefined) return known;
  const stretch = grain === 'long' ? 2.1 : 1.25;
  const fine = band(`fine ${grain}`, cellMm, 0.13, 0.13 * stretch);
  const coarse = band(`coarse ${grain}`, cellMm, 0.3, 0.3 * stretch);
  const mixed = fine.map((value, i) => {
    const sum = 0.8 * value + 0.6 * coarse[i]!;
    return sum + 0.22 * sum * sum;
  });
  const tile = { cellMm, values: standardise(mixed) };
  tiles.set(key, tile);
  return tile;
}

/** The tile at a place in mm, between entries by straight lines. */
export function tileAt(tile: TrabecularTile, acrossMm: number, alongMm: number): number {
  const x = acrossMm / tile.cellMm;
  const y = alongMm / tile.cellMm;
  const column = Math.floor(x);
  const row = Math.floor(y);
  const tx = x - column;
  const ty = y - row;
  const { values } = tile;
  const c0 = column & MASK;
  const c1 = (column + 1) & MASK;
  const r0 = (row & MASK) * TILE;
  const r1 = ((row + 1) & MASK) * TILE;
  const upper = values[r0 + c0]! + (values[r0 + c1]! - values[r0 + c0]!) * tx;
  const lower = values[r1 + c0]! + (values[r1 + c1]! - values[r1 + c0]!) * tx;
  return upper + (lower - upper) * ty;
}
