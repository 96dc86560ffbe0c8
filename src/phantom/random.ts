import { exponential } from './exact-maths.ts';

/** A source of chance: each call gives a number in [0, 1). */
export type Random = () => number;

/** One round of mixing a 32-bit word so that neighbouring inputs give unrelated outputs. */
export function mix(word: number): number {
  let h = word | 0;
  h = Math.imul(h ^ (h >>> 16), 0x7feb352d);
  h = Math.imul(h ^ (h >>> 15), 0x846ca68b);
  return (h ^ (h >>> 16)) >>> 0;
}

/**
 * Seeded generator (small fast counter, 128 bits of state; integer arithmetic only, so the same on every
 * machine). Not for secrets.
 *
 * @param seed - Any integer; its low 32 bits are used.
 * @param label - Names a stream: the same seed with another label gives unrelated numbers, so that drawing
 *   one more number for the skin does not move the bones.
 */
export function seededRandom(seed: number, label = ''): Random {
  let key = mix(seed ^ 0x9e3779b9);
  for (const character of label) key = mix(key ^ (character.codePointAt(0) ?? 0));
  let a = mix(key ^ 0x243f6a88) | 0;
  let b = mix(key ^ 0x85a308d3) | 0;
  let c = mix(key ^ 0x13198a2e) | 0;
  let counter = 1;
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (((c << 21) | (c >>> 11)) + sum) | 0;
    return (sum >>> 0) / 4294967296;
  };
  for (let warmUp = 0; warmUp < 12; warmUp += 1) next();
  return next;
}

/** A normal deviate as the sum of twelve uniform ones: mean 0, variance 1, within ±6. */
export function normalDeviate(random: Random): number {
  let sum = -6;
  for (let n = 0; n < 12; n += 1) sum += random();
  return sum;
}

/** A normal deviate held within ± `limit` standard deviations. */
export const boundedDeviate = (random: Random, limit: number): number =>
  Math.max(-limit, Math.min(limit, normalDeviate(random)));

/** Evenly spread from `from` up to, but not, `to`. */
export const between = (random: Random, from: number, to: number): number => from + (to - from) * random();

/** Number of entries of the table of normal quantiles; twelve random bits choose one. */
const QUANTILES = 4096;

let quantileTable: Float32Array | null = null;

/** Quantiles of the standard normal distribution at (i + ½)/4096, by summing its density. */
export function normalQuantiles(): Float32Array {
  if (quantileTable !== null) return quantileTable;
  const table = new Float32Array(QUANTILES);
  const step = 1 / 1024;
  const scale = 1 / Math.sqrt(2 * Math.PI);
  let cumulative = 0.5;
  let density = scale;
  let x = 0;
  for (let i = QUANTILES / 2; i < QUANTILES; i += 1) {
    const wanted = (i + 0.5) / QUANTILES;
    for (;;) {
      const nextDensity = scale * exponential(-((x + step) * (x + step)) / 2);
      const gain = ((density + nextDensity) / 2) * step;
      if (cumulative + gain >= wanted) {
        table[i] = x + (step * (wanted - cumulative)) / gain;
        table[QUANTILES - 1 - i] = -(table[i] as number);
        break;
      }
      cumulative += gain;
      density = nextDensity;
      x += step;
    }
  }
  quantileTable = table;
  return table;
}
