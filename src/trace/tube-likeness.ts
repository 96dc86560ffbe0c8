import type { Stretch } from './outlines.ts';
import type { Pair } from './pairs.ts';
import { COLUMNS, columnAt, type Strip } from './strip.ts';

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
