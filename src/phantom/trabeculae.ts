import { cosine, exponential, sine } from './exact-maths.ts';
import { between, normalDeviate, type Random, seededRandom } from './random.ts';

/** Side of the tile in entries; it repeats. */
const TILE = 256;
const MASK = TILE - 1;
const HALF_PI = Math.PI / 2;

/**
 * The shadow of a network of trabeculae, as a repeating tile of deviations (mean 0, standard deviation 1): fine
 * struts laid over one another, denser here than there.
 */
export interface TrabecularTile {
  readonly cellMm: number;
  readonly values: Float32Array;
}

/** Which way the struts run: in a finger bone mostly along it, in a carpal every way. Judged by eye. */
const GRAINS = {
  long: { leanRadians: 0.36, acrossShare: 0.22 },
  round: { leanRadians: 1.0, acrossShare: 0.35 },
} as const;

/** Half width of a strut's shadow, and its length, mm; judged by eye. */
const STRUT_SIGMA_MM = 0.085;
const STRUT_MM = [1.2, 4.5] as const;
/** Struts to a square millimetre: so many lie over one another that few are seen from end to end. */
const STRUTS_PER_SQUARE_MM = 7;

/** Lays one strut on the tile, a little bent, fading towards its ends. */
function addStrut(values: Float32Array, cellMm: number, random: Random, lean: number): void {
  let x = random() * TILE;
  let y = random() * TILE;
  const lengthCells = between(random, ...STRUT_MM) / cellMm;
  const bend = (0.4 * normalDeviate(random)) / lengthCells;
  const strength = between(random, 0.35, 1);
  const sigma = Math.max(0.62, STRUT_SIGMA_MM / cellMm);
  const reach = Math.ceil(2.2 * sigma);
  const steps = Math.max(2, Math.ceil(lengthCells / 0.7));
  const stride = lengthCells / steps;
  for (let step = 0; step <= steps; step += 1) {
    const heading = lean + bend * (step * stride - lengthCells / 2);
    x += stride * sine(heading);
    y += stride * cosine(heading);
    const t = (2 * step) / steps - 1;
    const here = strength * (1 - t * t) * stride;
    const column = Math.round(x);
    const row = Math.round(y);
    for (let r = row - reach; r <= row + reach; r += 1) {
      for (let c = column - reach; c <= column + reach; c += 1) {
        const square = ((r - y) * (r - y) + (c - x) * (c - x)) / (2 * sigma * sigma);
        // Close to a bell, and exact on every machine.
        const bell = 1 / (1 + square + 0.5 * square * square);
        const at = (r & MASK) * TILE + (c & MASK);
        values[at] = values[at]! + here * bell;
      }
    }
  }
}

function blurAround(source: Float32Array, sigma: number, along: 'rows' | 'columns'): Float32Array {
  const reach = Math.min(TILE / 2 - 1, Math.ceil(2.5 * sigma));
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

/** Broad unevenness of the network: patches of about a millimetre and a half. */
function patches(label: string, cellMm: number): Float32Array {
  const random = seededRandom(20250, label);
  const white = Float32Array.from({ length: TILE * TILE }, () => normalDeviate(random));
  const sigma = 0.75 / cellMm;
  return standardise(blurAround(blurAround(white, sigma, 'columns'), sigma, 'rows'));
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
  const { leanRadians, acrossShare } = GRAINS[grain];
  const random = seededRandom(20250, `struts ${grain}`);
  const struts = new Float32Array(TILE * TILE);
  const sideMm = TILE * cellMm;
  // On a coarse tile struts run into one another anyway; fewer of them give the same shadow.
  const count = Math.min(9000, Math.round(STRUTS_PER_SQUARE_MM * sideMm * sideMm));
  for (let i = 0; i < count; i += 1) {
    const crossing = random() < acrossShare ? HALF_PI : 0;
    addStrut(struts, cellMm, random, crossing + leanRadians * normalDeviate(random));
  }
  const even = standardise(struts);
  const broad = patches(`patches ${grain}`, cellMm);
  const values = standardise(even.map((value, i) => value * (1 + 0.3 * broad[i]!) + 0.35 * broad[i]!));
  const tile = { cellMm, values };
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
