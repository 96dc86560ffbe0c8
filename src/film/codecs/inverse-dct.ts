/** Order in which the 64 coefficients are stored, ITU-T T.81 figure 5 (zig-zag to row by row). */
export const ZIGZAG = Uint8Array.from([
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7,
  14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46,
  53, 60, 61, 54, 47, 55, 62, 63,
]);

/** √2 cos(k π / 16), 1 for k = 0: what the fast transform leaves out of each coefficient, along one side. */
const LEFT_OUT = Float64Array.from({ length: 8 }, (_, k) =>
  k === 0 ? 1 : Math.SQRT2 * Math.cos((k * Math.PI) / 16),
);
const SCALE = Float64Array.from(
  { length: 64 },
  (_, index) => ((LEFT_OUT[index >> 3] as number) * (LEFT_OUT[index & 7] as number)) / 8,
);

const TWICE_COS_1 = 2 * Math.cos(Math.PI / 8);
const DIFFERENCE = 2 * (Math.cos(Math.PI / 8) - Math.cos((3 * Math.PI) / 8));
const SUM = 2 * (Math.cos(Math.PI / 8) + Math.cos((3 * Math.PI) / 8));

/** Eight values `step` apart, in place: five multiplications, after Arai, Agui and Nakajima 1988. */
function transformEight(values: Float64Array, at: number, step: number): void {
  const c0 = values[at] as number;
  const c1 = values[at + step] as number;
  const c2 = values[at + 2 * step] as number;
  const c3 = values[at + 3 * step] as number;
  const c4 = values[at + 4 * step] as number;
  const c5 = values[at + 5 * step] as number;
  const c6 = values[at + 6 * step] as number;
  const c7 = values[at + 7 * step] as number;
  const sum26 = c2 + c6;
  const turned26 = (c2 - c6) * Math.SQRT2 - sum26;
  const even0 = c0 + c4 + sum26;
  const even3 = c0 + c4 - sum26;
  const even1 = c0 - c4 + turned26;
  const even2 = c0 - c4 - turned26;
  const sum35 = c5 + c3;
  const less53 = c5 - c3;
  const sum17 = c1 + c7;
  const less17 = c1 - c7;
  const shared = (less53 + less17) * TWICE_COS_1;
  const odd0 = sum17 + sum35;
  const odd1 = shared - less53 * SUM - odd0;
  const odd2 = (sum17 - sum35) * Math.SQRT2 - odd1;
  const odd3 = shared - less17 * DIFFERENCE - odd2;
  values[at] = even0 + odd0;
  values[at + 7 * step] = even0 - odd0;
  values[at + step] = even1 + odd1;
  values[at + 6 * step] = even1 - odd1;
  values[at + 2 * step] = even2 + odd2;
  values[at + 5 * step] = even2 - odd2;
  values[at + 3 * step] = even3 + odd3;
  values[at + 4 * step] = even3 - odd3;
}

/**
 * Inverse discrete cosine transform of one 8 × 8 block (T.81 A.3.3), in double precision.
 *
 * @param coefficients - Dequantised, row by row. Unchanged.
 * @param samples - Receives the 64 samples before the level shift.
 */
export function inverseDct(coefficients: Float64Array, samples: Float64Array): void {
  for (let i = 0; i < 64; i++) samples[i] = (coefficients[i] as number) * (SCALE[i] as number);
  for (let column = 0; column < 8; column++) transformEight(samples, column, 8);
  for (let row = 0; row < 64; row += 8) transformEight(samples, row, 1);
}
