import { BrokenStream, HuffmanTable } from './huffman.ts';

/** A two-byte number of a JPEG stream; 0 for bytes that are not there. */
export const short = (bytes: Uint8Array, at: number): number =>
  ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);

export interface Segment {
  readonly marker: number;
  /** What stands behind its length. */
  readonly data: Uint8Array;
  /** Where the next marker or the entropy-coded data begins. */
  readonly end: number;
}

/**
 * The marker segments of a JPEG stream from `start` on, to the first that is not whole (ITU-T T.81 B.1.1). Whoever
 * meets a scan must not go on before stepping over its data.
 *
 * @throws BrokenStream where something else stands in the place of a marker.
 */
export function* segmentsOf(bytes: Uint8Array, start: number): Generator<Segment> {
  let at = start;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) throw new BrokenStream('a marker is missing');
    const marker = bytes[at + 1] as number;
    if (marker === 0xff) {
      at++;
      continue;
    }
    const end = at + 2 + short(bytes, at + 2);
    if (end > bytes.length) return;
    yield { marker, data: bytes.subarray(at + 4, end), end };
    at = end;
  }
}

/** DHT, T.81 B.2.4.2: adds the tables of a segment. */
export function readHuffman(
  data: Uint8Array,
  dc: Map<number, HuffmanTable>,
  ac: Map<number, HuffmanTable>,
): void {
  let at = 0;
  while (at < data.length) {
    const head = data[at++] as number;
    const counts = data.subarray(at, at + 16);
    const total = counts.reduce((sum, count) => sum + count, 0);
    const values = data.subarray(at + 16, at + 16 + total);
    if (counts.length < 16 || values.length < total) throw new BrokenStream('a Huffman table is cut short');
    (head >> 4 === 0 ? dc : ac).set(head & 15, new HuffmanTable(counts, values));
    at += 16 + total;
  }
}
