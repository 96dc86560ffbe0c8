import { BrokenStream, HuffmanTable } from './huffman.ts';

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
