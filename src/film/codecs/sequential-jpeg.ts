import { BitReader, BrokenStream, type HuffmanTable } from './huffman.ts';
import { readHuffman } from './huffman-tables.ts';
import { inverseDct, ZIGZAG } from './inverse-dct.ts';
import { segmentsFrom, short } from './marker-segments.ts';

/** A grey picture of 8 or 12 bits. */
export interface SequentialPicture {
  readonly columns: number;
  readonly rows: number;
  readonly precision: number;
  readonly values: Uint16Array;
}

interface Tables {
  readonly quantisation: Map<number, Float64Array>;
  readonly dc: Map<number, HuffmanTable>;
  readonly ac: Map<number, HuffmanTable>;
  restartInterval: number;
}

interface Frame {
  readonly columns: number;
  readonly rows: number;
  readonly precision: number;
  readonly quantisationTable: number;
}

/** DQT, T.81 B.2.4.1: 8-bit or 16-bit elements in zig-zag order. */
function readQuantisation(segment: Uint8Array, tables: Tables): void {
  let at = 0;
  while (at < segment.length) {
    const head = segment[at++] as number;
    const wide = head >> 4 === 1;
    const table = new Float64Array(64);
    for (let k = 0; k < 64; k++) {
      table[ZIGZAG[k] as number] = wide ? short(segment, at) : (segment[at] ?? 0);
      at += wide ? 2 : 1;
    }
    if (at > segment.length) throw new BrokenStream('a quantisation table is cut short');
    tables.quantisation.set(head & 15, table);
  }
}

/** One block, dequantised: the DC difference, then runs of zeros and AC values (T.81 F.2.2.1 and F.2.2.2). */
function readBlock(
  bits: BitReader,
  dc: HuffmanTable,
  ac: HuffmanTable,
  predicted: number,
  quantisation: Float64Array,
  coefficients: Float64Array,
): number {
  const category = bits.symbol(dc);
  if (category > 15) throw new BrokenStream('a DC difference is out of range');
  const first = predicted + bits.signed(category);
  coefficients.fill(0);
  coefficients[0] = first * (quantisation[0] as number);
  for (let k = 1; k < 64; k++) {
    const symbol = bits.symbol(ac);
    const size = symbol & 15;
    const run = symbol >> 4;
    if (size === 0) {
      if (run !== 15) break;
      k += 15;
      continue;
    }
    k += run;
    if (k > 63) throw new BrokenStream('a block holds more than 64 coefficients');
    const place = ZIGZAG[k] as number;
    coefficients[place] = bits.signed(size) * (quantisation[place] as number);
  }
  return first;
}

function readScan(
  bytes: Uint8Array,
  start: number,
  frame: Frame,
  tables: Tables,
  head: Uint8Array,
): Uint16Array {
  const selector = head[2] ?? 0;
  const dc = tables.dc.get(selector >> 4);
  const ac = tables.ac.get(selector & 15);
  const quantisation = tables.quantisation.get(frame.quantisationTable);
  if (dc === undefined || ac === undefined || quantisation === undefined) {
    throw new BrokenStream('a table it needs is missing');
  }
  const { columns, rows, precision } = frame;
  const values = new Uint16Array(columns * rows);
  const greatest = 2 ** precision - 1;
  const levelShift = 2 ** (precision - 1);
  const coefficients = new Float64Array(64);
  const samples = new Float64Array(64);
  const bits = new BitReader(bytes, start);
  const blocksAcross = Math.ceil(columns / 8);
  const blocks = blocksAcross * Math.ceil(rows / 8);
  let predicted = 0;
  for (let block = 0; block < blocks; block++) {
    if (tables.restartInterval > 0 && block > 0 && block % tables.restartInterval === 0) {
      bits.restart();
      predicted = 0;
    }
    predicted = readBlock(bits, dc, ac, predicted, quantisation, coefficients);
    inverseDct(coefficients, samples);
    const left = 8 * (block % blocksAcross);
    const top = 8 * Math.floor(block / blocksAcross);
    for (let y = 0; y < Math.min(8, rows - top); y++) {
      for (let x = 0; x < Math.min(8, columns - left); x++) {
        const value = Math.round(samples[8 * y + x] as number) + levelShift;
        values[(top + y) * columns + left + x] = Math.min(Math.max(value, 0), greatest);
      }
    }
  }
  return values;
}

/**
 * Decodes a grey sequential DCT picture with Huffman coding, ITU-T T.81 baseline and extended processes 1, 2
 * and 4, of 8 or 12 bits. Written here because no sound package decodes 12 bits. The inverse transform is in
 * double precision; decoders that use integers differ by at most 2 grey levels of 4096.
 *
 * @throws BrokenStream when the stream is cut short, or says what no encoder may say.
 */
export function decodeSequentialJpeg(bytes: Uint8Array): SequentialPicture {
  const tables: Tables = { quantisation: new Map(), dc: new Map(), ac: new Map(), restartInterval: 0 };
  let frame: Frame | null = null;
  for (const { marker, data, to } of segmentsFrom(bytes, 2)) {
    if (marker === 0xdb) readQuantisation(data, tables);
    if (marker === 0xc4) readHuffman(data, tables.dc, tables.ac);
    if (marker === 0xdd) tables.restartInterval = short(data, 0);
    if (marker === 0xc0 || marker === 0xc1) {
      if (data[5] !== 1) throw new BrokenStream('it is not a grey picture');
      frame = {
        precision: data[0] ?? 0,
        rows: short(data, 1),
        columns: short(data, 3),
        quantisationTable: data[8] ?? 0,
      };
    }
    if (marker === 0xda) {
      if (frame === null) throw new BrokenStream('its picture comes before its description');
      const { columns, rows, precision } = frame;
      return { columns, rows, precision, values: readScan(bytes, to, frame, tables, data) };
    }
  }
  throw new BrokenStream('it stops before its picture');
}
