import { type Outline, type Rise, type Stretch, strengthTable } from './outlines.ts';
import { alongAt, COLUMNS, columnAt, ROW_MM, type Strip } from './strip.ts';

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

/** What there is to be seen along one outline beside the outline itself. */
export interface OutlineEvidence {
  /** How plainly the inner side of a cortex runs along it. */
  readonly inner: number;
  /**
   * How much brighter it is within than without, past the cortex: the far wall of a neighbour looks like an
   * outline but is darker within. −1 to 1.
   */
  readonly step: number;
  /** How plainly the outline runs on beyond the break, where the bone's own has ended. */
  readonly beyond: number;
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

/** Distances inside the outline at which its cortex may end, mm. */
const CORTEX_MM = [0.6, 2.8] as const;

export function evidenceAlong(
  strip: Strip,
  stretch: Stretch,
  rise: Rise,
  outline: Outline,
  opposite: Float32Array,
  own: Float32Array,
  breakIsLast: boolean,
): OutlineEvidence {
  const rows = outline.across.length;
  const columns = Int32Array.from(outline.across, (across) => Math.round(columnAt(across)));
  const least = Math.round(CORTEX_MM[0] / 0.125);
  const most = Math.round(CORTEX_MM[1] / 0.125);
  let inner = -1;
  for (let depth = least; depth <= most; depth += 1) {
    let sum = 0;
    for (let i = 0; i < rows; i += 1) {
      const column = Math.max(0, Math.min(COLUMNS - 1, columns[i]! + rise * depth));
      sum += opposite[(stretch.first + i) * COLUMNS + column]!;
    }
    inner = Math.max(inner, sum / rows);
  }
  return {
    inner,
    step: stepAcross(strip, stretch, rise, outline),
    beyond: beyondBreak(strip, stretch, outline, own, breakIsLast),
  };
}

/** Stretches across that a step is taken between, from the outline inwards, mm. */
const WITHIN_MM = [2.2, 3.6] as const;
const WITHOUT_MM = [-1.7, -0.5] as const;

function stepAcross(strip: Strip, stretch: Stretch, rise: Rise, outline: Outline): number {
  const rows = outline.across.length;
  const unit = 1.5 * strip.usualSlope;
  if (unit === 0) return 0;
  const meanBetween = (row: number, across: number, [from, to]: readonly [number, number]): number => {
    const first = columnAt(across + rise * from);
    const last = columnAt(across + rise * to);
    const low = Math.max(0, Math.round(Math.min(first, last)));
    const high = Math.min(COLUMNS - 1, Math.round(Math.max(first, last)));
    let sum = 0;
    for (let c = low; c <= high; c += 1) sum += strip.values[row * COLUMNS + c]!;
    return high < low ? 0 : sum / (high - low + 1);
  };
  let total = 0;
  for (let i = 0; i < rows; i += 1) {
    const row = stretch.first + i;
    const across = outline.across[i]!;
    const step = (meanBetween(row, across, WITHIN_MM) - meanBetween(row, across, WITHOUT_MM)) / unit;
    total += step / (1 + Math.abs(step));
  }
  return total / rows;
}

/** Mean of the best strength near the outline's straight prolongation, 2 to 7 mm beyond the stretch. */
function beyondBreak(
  strip: Strip,
  stretch: Stretch,
  outline: Outline,
  own: Float32Array,
  breakIsLast: boolean,
): number {
  const rows = outline.across.length;
  const used = Math.min(rows, 20);
  const end = breakIsLast ? rows - 1 : 0;
  const inward = breakIsLast ? -1 : 1;
  let lean = 0;
  let at = 0;
  let spread = 0;
  for (let k = 0; k < used; k += 1) at += outline.across[end + inward * k]! / used;
  for (let k = 0; k < used; k += 1) {
    const d = k - (used - 1) / 2;
    lean += d * (outline.across[end + inward * k]! - at);
    spread += d * d;
  }
  lean = spread > 0 ? lean / spread : 0;
  let sum = 0;
  let count = 0;
  for (let k = Math.round(5 / ROW_MM); k <= Math.round(10 / ROW_MM); k += 1) {
    const row = (breakIsLast ? stretch.last : stretch.first) - inward * k;
    if (row < 0 || row >= strip.rows) break;
    const column = Math.round(columnAt(at + lean * (-k - (used - 1) / 2)));
    let best = -0.7;
    for (let c = column - 2; c <= column + 2; c += 1) {
      if (c >= 0 && c < COLUMNS) best = Math.max(best, own[row * COLUMNS + c]!);
    }
    sum += best;
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}

const PROFILE_REACH = 1.5;
const PROFILE_BINS = 31;

/** The walls of a round tube seen from the side, for three canals; each of mean 0 and unit length. */
const TUBES: readonly Float64Array[] = [0.35, 0.5, 0.65].map((canal) => {
  const profile = Float64Array.from({ length: PROFILE_BINS }, (_, i) => {
    const u = (2 * i) / (PROFILE_BINS - 1) - 1;
    const x = Math.abs(u) * PROFILE_REACH;
    const outer = Math.sqrt(Math.max(0, 1 - x * x));
    const inner = Math.sqrt(Math.max(0, canal * canal - x * x));
    return outer - 0.85 * inner;
  });
  return standardised(profile);
});

function standardised(profile: Float64Array): Float64Array {
  const mean = profile.reduce((sum, value) => sum + value, 0) / profile.length;
  const centred = profile.map((value) => value - mean);
  const size = Math.sqrt(centred.reduce((sum, value) => sum + value * value, 0));
  return size > 0 ? centred.map((value) => value / size) : centred;
}

/**
 * How well the mean of all rows across a pair looks like a tube seen from the side, as a correlation, and how
 * evenly it does so from row to row.
 */
export function tubeLikeness(
  strip: Strip,
  stretch: Stretch,
  pair: Pair,
): { readonly whole: number; readonly evenness: number } {
  const rows = pair.one.across.length;
  const whole = new Float64Array(PROFILE_BINS);
  const row = new Float64Array(PROFILE_BINS);
  const amplitudes: number[] = [];
  const tube = TUBES[1]!;
  for (let i = 0; i < rows; i += 2) {
    const middle = (pair.one.across[i]! + pair.other.across[i]!) / 2;
    const half = (pair.other.across[i]! - pair.one.across[i]!) / 2;
    const start = (stretch.first + i) * COLUMNS;
    for (let k = 0; k < PROFILE_BINS; k += 1) {
      const u = ((2 * k) / (PROFILE_BINS - 1) - 1) * PROFILE_REACH;
      const column = Math.max(0, Math.min(COLUMNS - 1.001, columnAt(middle + u * half)));
      const c0 = Math.floor(column);
      const v = strip.values[start + c0]!;
      row[k] = v + (column - c0) * (strip.values[start + c0 + 1]! - v);
    }
    // A straight slope from neighbours behind is no part of the tube.
    const tilt = (row[PROFILE_BINS - 1]! - row[0]!) / (PROFILE_BINS - 1);
    const first = row[0]!;
    let amplitude = 0;
    for (let k = 0; k < PROFILE_BINS; k += 1) {
      const value = row[k]! - first - tilt * k;
      whole[k]! += value;
      amplitude += value * tube[k]!;
    }
    amplitudes.push(amplitude);
  }
  const shape = standardised(whole);
  let best = -1;
  for (const candidate of TUBES) {
    let sum = 0;
    for (let k = 0; k < PROFILE_BINS; k += 1) sum += candidate[k]! * shape[k]!;
    best = Math.max(best, sum);
  }
  const mean = amplitudes.reduce((sum, value) => sum + value, 0) / amplitudes.length;
  const spread = Math.sqrt(
    amplitudes.reduce((sum, value) => sum + (value - mean) ** 2, 0) / amplitudes.length,
  );
  return { whole: best, evenness: mean / (Math.abs(mean) + spread + 1e-12) };
}

export const bothTables = (strip: Strip): { rising: Float32Array; falling: Float32Array } => ({
  rising: strengthTable(strip, 1),
  falling: strengthTable(strip, -1),
});

export const acrossOnLine = (line: FrameLine, alongMm: number): number =>
  line.acrossMm + line.lean * (alongMm - line.alongMm);
