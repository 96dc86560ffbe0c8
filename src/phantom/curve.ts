/** A smooth curve through given points, tabulated so that looking it up costs one multiplication. */

/** Points of a curve: [place, value], places rising. */
export type CurvePoints = readonly (readonly [at: number, value: number])[];

/**
 * Monotone cubic interpolation (Fritsch and Carlson, SIAM J Numer Anal 1980;17:238): no overshoot between
 * points, flat beyond the ends.
 *
 * @param points - At least two, places strictly rising.
 * @param places - Where the curve is wanted.
 */
export function tabulate(points: CurvePoints, places: Float64Array): Float64Array {
  const n = points.length;
  const x = points.map(([at]) => at);
  const y = points.map(([, value]) => value);
  const secants = x.slice(0, n - 1).map((at, i) => (y[i + 1]! - y[i]!) / (x[i + 1]! - at));
  const slopes = x.map((_, i) => {
    const before = secants[i - 1];
    const after = secants[i];
    if (before === undefined || after === undefined || before * after <= 0) return 0;
    return (2 * before * after) / (before + after);
  });
  const result = new Float64Array(places.length);
  let i = 0;
  for (let k = 0; k < places.length; k += 1) {
    const at = Math.max(x[0]!, Math.min(x[n - 1]!, places[k]!));
    while (i > 0 && at < x[i]!) i -= 1;
    while (i < n - 2 && at > x[i + 1]!) i += 1;
    const h = x[i + 1]! - x[i]!;
    const t = (at - x[i]!) / h;
    const s = 1 - t;
    result[k] =
      y[i]! * s * s * (1 + 2 * t) +
      slopes[i]! * h * t * s * s +
      y[i + 1]! * t * t * (3 - 2 * t) -
      slopes[i + 1]! * h * t * t * s;
  }
  return result;
}

/** Value of an evenly spaced table at a place, linear between entries, held at its ends. */
export function lookUp(table: Float64Array, perUnit: number, at: number): number {
  const place = at * perUnit;
  if (place <= 0) return table[0]!;
  const last = table.length - 1;
  if (place >= last) return table[last]!;
  const i = Math.floor(place);
  const t = place - i;
  return table[i]! * (1 - t) + table[i + 1]! * t;
}

/** The greater of two numbers with the corner rounded off over about `width`. */
export function smoothMax(p: number, q: number, width: number): number {
  const h = Math.max(width - Math.abs(p - q), 0) / width;
  return Math.max(p, q) + (h * h * width) / 4;
}

/** 0 below `from`, 1 above `to`, smooth between. */
export function smoothStep(from: number, to: number, x: number): number {
  const t = Math.max(0, Math.min(1, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}
