/** Samples of one frame as a decoder gives them: interleaved by pixel, not yet masked to the bits stored. */
export interface Samples {
  readonly columns: number;
  readonly rows: number;
  readonly components: 1 | 3;
  /** Bits of a sample that the decoder filled: the precision of its stream, or the bits allocated. */
  readonly precision: number;
  /** In the container of the bits allocated; signed values as two's complement. */
  readonly values: Uint8Array | Uint16Array;
  /** What the three components are, where the decoder has already turned them; null: as the header says. */
  readonly colours: 'RGB' | null;
  /** Oddities of the stream, as sentences. */
  readonly notes: readonly string[];
}
