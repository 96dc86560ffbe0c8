/** What happens to a film on its way out of a hospital: grey values only, the picture stays in place. */
export const SPOILINGS = {
  none: null,
  /** A picture of 8 bits through a narrow window: a tenth of the values at each end are lost. */
  windowed: (values: Float32Array): Float32Array => {
    const [low, high] = ends(values, 0.1);
    return values.map((value) => Math.round(255 * held((value - low) / (high - low))));
  },
  /** The same through a curve, as screens and printers have it. */
  curved: (values: Float32Array): Float32Array => {
    const [low, high] = ends(values, 0.01);
    return values.map((value) => Math.round(255 * held((value - low) / (high - low)) ** 2));
  },
  /** Blocks of 8 × 8 pixels that lose their finest detail, as JPEG at a low quality takes it away. */
  blocky: (values: Float32Array, columns: number): Float32Array => {
    const [low, high] = ends(values, 0.002);
    const spoiled = values.slice();
    const rows = values.length / columns;
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const at = row * columns + column;
        // Pairs of pixels within a block share one value, rounded to 32 greys.
        const from = at - (column % 2 === 1 && column % 8 !== 0 ? 1 : 0);
        spoiled[at] = Math.round(31 * held((values[from]! - low) / (high - low)));
      }
    }
    return spoiled;
  },
} as const satisfies Readonly<
  Record<string, ((values: Float32Array, columns: number) => Float32Array) | null>
>;

export type Spoiling = keyof typeof SPOILINGS;

const held = (share: number): number => Math.max(0, Math.min(1, share));

function ends(values: Float32Array, share: number): readonly [number, number] {
  const sorted = values.slice().sort();
  return [
    sorted[Math.floor(share * (sorted.length - 1))]!,
    sorted[Math.ceil((1 - share) * (sorted.length - 1))]!,
  ];
}
