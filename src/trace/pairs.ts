import type { Outline, Stretch } from './outlines.ts';
import { alongAt, type Strip } from './strip.ts';

/** A straight line in a frame: where it crosses, and how it leans. */
export interface FrameLine {
  readonly alongMm: number;
  readonly acrossMm: number;
  /** Across per along. */
  readonly lean: number;
}

/** Two outlines taken as the two sides of the bone. */
export interface Pair {
  readonly one: Outline;
  readonly other: Outline;
  /** Through the mid-points. */
  readonly line: FrameLine;
  /** Means over the stretch, mm. */
  readonly widthMm: number;
  /** Width on the last row less width on the first, by a straight fit, mm. */
  readonly taperMm: number;
  /** Root-mean-square distance of the mid-points from a parabola, mm. */
  readonly roughnessMm: number;
  /** Height of that parabola over its chord, mm; positive: to the right. */
  readonly bowMm: number;
}

const NARROWEST_MM = 4.2;
const WIDEST_MM = 14.5;

/** Least squares with Huber weights of across on along; `own` are fixed weights. */
function robustLine(
  places: Float64Array,
  across: Float64Array,
  own: Float64Array,
): { middle: number; at: number; lean: number } {
  const count = places.length;
  const weights = own.slice();
  let middle = 0;
  let at = 0;
  let lean = 0;
  const distances = new Float64Array(count);
  for (let round = 0; round < 4; round += 1) {
    let sw = 0;
    let ss = 0;
    let sa = 0;
    for (let i = 0; i < count; i += 1) {
      sw += weights[i]!;
      ss += weights[i]! * places[i]!;
      sa += weights[i]! * across[i]!;
    }
    middle = ss / sw;
    at = sa / sw;
    let spread = 0;
    let mixed = 0;
    for (let i = 0; i < count; i += 1) {
      const d = places[i]! - middle;
      spread += weights[i]! * d * d;
      mixed += weights[i]! * d * (across[i]! - at);
    }
    lean = spread > 0 ? mixed / spread : 0;
    if (round === 3) break;
    for (let i = 0; i < count; i += 1)
      distances[i] = Math.abs(across[i]! - at - lean * (places[i]! - middle));
    const typical = distances.slice().sort()[count >> 1]!;
    const limit = Math.max(0.12, 2.2 * typical);
    for (let i = 0; i < count; i += 1) {
      weights[i] = own[i]! * (distances[i]! <= limit ? 1 : limit / distances[i]!);
    }
  }
  return { middle, at, lean };
}

/** Bow and root-mean-square distance of a parabola fitted by least squares; the bow is its height over its chord. */
function parabola(values: Float64Array): { bow: number; roughness: number } {
  const count = values.length;
  // Orthogonal polynomials on an even grid: 1, t, t² − mean of t².
  let m0 = 0;
  let m1 = 0;
  let n1 = 0;
  let mean2 = 0;
  const half = (count - 1) / 2;
  for (let i = 0; i < count; i += 1) {
    const t = i - half;
    m0 += values[i]!;
    m1 += values[i]! * t;
    n1 += t * t;
  }
  m0 /= count;
  mean2 = n1 / count;
  m1 = n1 > 0 ? m1 / n1 : 0;
  let m2 = 0;
  let n2 = 0;
  for (let i = 0; i < count; i += 1) {
    const t = i - half;
    const p = t * t - mean2;
    m2 += values[i]! * p;
    n2 += p * p;
  }
  m2 = n2 > 0 ? m2 / n2 : 0;
  let sum = 0;
  for (let i = 0; i < count; i += 1) {
    const t = i - half;
    sum += (values[i]! - m0 - m1 * t - m2 * (t * t - mean2)) ** 2;
  }
  return { bow: -m2 * half * half, roughness: Math.sqrt(sum / count) };
}

/** Two outlines as a pair; null where they lie closer together or farther apart than the sides of a metacarpal. */
export function pairUp(strip: Strip, stretch: Stretch, one: Outline, other: Outline): Pair | null {
  const rows = one.across.length;
  let width = 0;
  let narrowest = Number.POSITIVE_INFINITY;
  let lean = 0;
  let spread = 0;
  const half = (rows - 1) / 2;
  for (let i = 0; i < rows; i += 1) {
    const here = other.across[i]! - one.across[i]!;
    width += here / rows;
    narrowest = Math.min(narrowest, here);
    lean += here * (i - half);
    spread += (i - half) ** 2;
  }
  if (width < NARROWEST_MM || width > WIDEST_MM || narrowest < 0.6 * NARROWEST_MM) return null;
  const places = new Float64Array(rows);
  const middles = new Float64Array(rows);
  const weights = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    places[i] = alongAt(strip, stretch.first + i);
    middles[i] = (one.across[i]! + other.across[i]!) / 2;
    const plain = Math.max(0, Math.min(one.strength[i]!, other.strength[i]!));
    weights[i] = 0.05 + plain / (0.7 + plain);
  }
  const line = robustLine(places, middles, weights);
  const shape = parabola(middles);
  return {
    one,
    other,
    line: { alongMm: line.middle, acrossMm: line.at, lean: line.lean },
    widthMm: width,
    taperMm: spread > 0 ? (lean / spread) * (rows - 1) : 0,
    roughnessMm: shape.roughness,
    bowMm: shape.bow,
  };
}

export const acrossOnLine = (line: FrameLine, alongMm: number): number =>
  line.acrossMm + line.lean * (alongMm - line.alongMm);
