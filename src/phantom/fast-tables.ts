import { exponential, logarithm } from './exact-maths.ts';

/** Table look-ups for the two functions that every pixel needs; relative error below 1e-7. */

const DECAY_PER_UNIT = 256;
const DECAY_RANGE = 24;
let decayTable: Float64Array | null = null;

/** Fills `values` with exp(-value × scale); values below 0 count as 0, and 24 is the most. */
export function decay(values: Float32Array, scales: (index: number) => number): void {
  decayTable ??= Float64Array.from({ length: DECAY_RANGE * DECAY_PER_UNIT + 1 }, (_, i) =>
    exponential(-i / DECAY_PER_UNIT),
  );
  for (let i = 0; i < values.length; i += 1) {
    const x = values[i]! * scales(i) * DECAY_PER_UNIT;
    if (x <= 0) {
      values[i] = 1;
      continue;
    }
    const entry = x >= DECAY_RANGE * DECAY_PER_UNIT ? DECAY_RANGE * DECAY_PER_UNIT : Math.floor(x);
    const f = (x >= DECAY_RANGE * DECAY_PER_UNIT ? 0 : x - entry) / DECAY_PER_UNIT;
    values[i] = decayTable[entry]! * (1 - f * (1 - f * (0.5 - f / 6)));
  }
}

const MANTISSA_ENTRIES = 2048;
let mantissaTable: Float64Array | null = null;
const floats = new Float32Array(1);
const bits = new Int32Array(floats.buffer);
const LN2 = logarithm(2);

/** Natural logarithm of a positive single-precision number. */
export function quickLogarithm(x: number): number {
  mantissaTable ??= Float64Array.from({ length: MANTISSA_ENTRIES }, (_, i) =>
    logarithm(1 + (i + 0.5) / MANTISSA_ENTRIES),
  );
  floats[0] = x;
  const word = bits[0]!;
  const exponent = (word >> 23) - 127;
  const fraction = word & 0x7fffff;
  const entry = fraction >> 12;
  const middle = 1 + (entry + 0.5) / MANTISSA_ENTRIES;
  const d = (1 + fraction / 0x800000 - middle) / middle;
  return mantissaTable[entry]! + d * (1 - d * (0.5 - d / 3)) + exponent * LN2;
}
