/** Order in which the 64 coefficients are stored, ITU-T T.81 figure 5 (zig-zag to row by row). */
export const ZIGZAG = Uint8Array.from([
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7,
  14, 21, 28, 35, 42, 49, 56, 57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46,
  53, 60, 61, 54, 47, 55, 62, 63,
]);

/** `BASIS[8 x + u]` = C(u)/2 · cos((2x+1) u π / 16), T.81 A.3.3. */
const BASIS = Float64Array.from({ length: 64 }, (_, index) => {
  const x = index >> 3;
  const u = index & 7;
  return (u === 0 ? Math.SQRT1_2 : 1) * 0.5 * Math.cos(((2 * x + 1) * u * Math.PI) / 16);
});

const columnsDone = new Float64Array(64);

/**
 * Inverse discrete cosine transform of one 8 × 8 block, by columns and then by rows in double precision.
 *
 * @param coefficients - Dequantised, row by row. Unchanged.
 * @param samples - Receives the 64 samples before the level shift.
 */
export function inverseDct(coefficients: Float64Array, samples: Float64Array): void {
  for (let u = 0; u < 8; u++) {
    for (let y = 0; y < 8; y++) {
      let sum = 0;
      for (let v = 0; v < 8; v++) sum += (BASIS[8 * y + v] as number) * (coefficients[8 * v + u] as number);
      columnsDone[8 * y + u] = sum;
    }
  }
  for (let y = 0; y < 8; y++) {
    for (let x = 0; x < 8; x++) {
      let sum = 0;
      for (let u = 0; u < 8; u++) sum += (BASIS[8 * x + u] as number) * (columnsDone[8 * y + u] as number);
      samples[8 * y + x] = sum;
    }
  }
}
