import { BitReader, BrokenStream, type HuffmanTable } from './huffman.ts';
import { readHuffman } from './huffman-tables.ts';
import { segmentsFrom, short } from './marker-segments.ts';

/** A picture of one or more components, side by side in each pixel. */
export interface LosslessPicture {
  readonly columns: number;
  readonly rows: number;
  readonly components: number;
  readonly precision: number;
  readonly values: Uint8Array | Uint16Array;
}

interface Frame {
  readonly columns: number;
  readonly rows: number;
  readonly precision: number;
  /** Component identifiers, in their order. */
  readonly components: readonly number[];
}

interface Scan {
  /** By component of the scan: its place in a pixel and its table. */
  readonly parts: readonly { readonly place: number; readonly table: HuffmanTable }[];
  /** Which neighbours a value is predicted from, T.81 table H.1. */
  readonly predictor: number;
  readonly pointTransform: number;
  /** In rows; a restart stands at the beginning of a row (T.81 H.1.1). 0: none. */
  readonly restartRows: number;
}

/** SOF3, T.81 B.2.2. Components of differing size are no radiograph's. */
function readFrame(data: Uint8Array): Frame {
  const count = data[5] ?? 0;
  const components = Array.from({ length: count }, (_, i) => data[6 + 3 * i] ?? 0);
  const sampling = components.map((_, i) => data[7 + 3 * i]);
  if (count > 1 && sampling.some((factor) => factor !== 0x11)) {
    throw new BrokenStream('its components differ in size');
  }
  return { precision: data[0] ?? 0, rows: short(data, 1), columns: short(data, 3), components };
}

/** SOS, T.81 B.2.3 with table B.3 for lossless processes. */
function readScanHeader(
  data: Uint8Array,
  frame: Frame,
  tables: ReadonlyMap<number, HuffmanTable>,
  restartInterval: number,
): Scan {
  const count = data[0] ?? 0;
  const parts = Array.from({ length: count }, (_, i) => {
    const place = frame.components.indexOf(data[1 + 2 * i] ?? -1);
    const table = tables.get((data[2 + 2 * i] ?? 0) >> 4);
    if (place < 0 || table === undefined) throw new BrokenStream('a table it needs is missing');
    return { place, table };
  });
  const predictor = data[1 + 2 * count] ?? 0;
  if (count === 0 || predictor < 1 || predictor > 7) throw new BrokenStream('it names no predictor');
  if (restartInterval % frame.columns !== 0) throw new BrokenStream('it begins anew within a row');
  return {
    parts,
    predictor,
    pointTransform: (data[3 + 2 * count] ?? 0) & 15,
    restartRows: restartInterval / frame.columns,
  };
}

/** T.81 table H.1: from the value on the left, the one above, and the one above on the left. */
function predicted(predictor: number, left: number, above: number, corner: number): number {
  switch (predictor) {
    case 1:
      return left;
    case 2:
      return above;
    case 3:
      return corner;
    case 4:
      return left + above - corner;
    case 5:
      return left + ((above - corner) >> 1);
    case 6:
      return above + ((left - corner) >> 1);
    default:
      return (left + above) >> 1;
  }
}

/**
 * One row of one component, T.81 H.1.2.1: values before the point transform, modulo 65,536. `step` parts neighbours;
 * the row above is null at the beginning and after a restart.
 */
type RowReader = (row: Uint16Array, above: Uint16Array | null) => void;

function rowReader(bits: BitReader, { parts, predictor, pointTransform }: Scan, frame: Frame): RowReader {
  const step = frame.components.length;
  const middle = 2 ** (frame.precision - pointTransform - 1);
  const end = step * frame.columns;
  const onePart = parts.length === 1 ? parts[0] : undefined;
  return (row, above) => {
    if (onePart !== undefined && (above === null || predictor === 1)) {
      // The commonest case by far: only the value on the left.
      const { place, table } = onePart;
      const first = above === null ? middle : (above[place] as number);
      bits.runningSums(table, row, { from: place, step, first });
      return;
    }
    for (let pixel = 0; pixel < end; pixel += step) {
      for (const { place, table } of parts) {
        const at = pixel + place;
        let from: number;
        if (above === null) from = pixel === 0 ? middle : (row[at - step] as number);
        else if (pixel === 0) from = above[at] as number;
        else
          from = predicted(
            predictor,
            row[at - step] as number,
            above[at] as number,
            above[at - step] as number,
          );
        row[at] = (from + bits.difference(table)) & 0xffff;
      }
    }
  };
}

/** Reads the rows of a scan into `values` and says where its data ends. */
function readScan(bytes: Uint8Array, start: number, frame: Frame, scan: Scan, values: Uint16Array): number {
  const bits = new BitReader(bytes, start);
  const read = rowReader(bits, scan, frame);
  const width = frame.columns * frame.components.length;
  let above: Uint16Array | null = null;
  for (let y = 0; y < frame.rows; y++) {
    if (scan.restartRows > 0 && y > 0 && y % scan.restartRows === 0) {
      bits.restart();
      above = null;
    }
    const row = values.subarray(y * width, (y + 1) * width);
    read(row, above);
    above = row;
  }
  return bits.end;
}

/**
 * Decodes a lossless Huffman-coded picture, ITU-T T.81 annex H (process 14, every predictor), of 2 to 16 bits.
 *
 * @throws BrokenStream when the stream is cut short, or says what no encoder may say.
 */
export function decodeLosslessJpeg(bytes: Uint8Array): LosslessPicture {
  const tables = new Map<number, HuffmanTable>();
  let restartInterval = 0;
  let frame: Frame | null = null;
  let values = new Uint16Array(0);
  let missing = new Set<number>();
  let start = 2;
  while (start > 0) {
    const segments = segmentsFrom(bytes, start);
    start = 0;
    for (const { marker, data, to } of segments) {
      if (marker === 0xc4) readHuffman(data, tables, tables);
      if (marker === 0xdd) restartInterval = short(data, 0);
      if (marker === 0xc3) {
        frame = readFrame(data);
        values = new Uint16Array(frame.columns * frame.rows * frame.components.length);
        missing = new Set(frame.components.keys());
      }
      if (marker !== 0xda) continue;
      if (frame === null) throw new BrokenStream('its picture comes before its description');
      const scan = readScanHeader(data, frame, tables, restartInterval);
      start = readScan(bytes, to, frame, scan, values);
      moveUp(values, scan, frame.components.length);
      for (const { place } of scan.parts) missing.delete(place);
      if (missing.size === 0) return finished(frame, values);
      break;
    }
  }
  throw new BrokenStream('it stops before its picture');
}

/** Undoes the point transform, T.81 A.4. */
function moveUp(values: Uint16Array, { parts, pointTransform }: Scan, step: number): void {
  if (pointTransform === 0) return;
  for (const { place } of parts) {
    for (let at = place; at < values.length; at += step)
      values[at] = (values[at] as number) << pointTransform;
  }
}

function finished(frame: Frame, values: Uint16Array): LosslessPicture {
  const { columns, rows, precision } = frame;
  return {
    columns,
    rows,
    precision,
    components: frame.components.length,
    values: precision <= 8 ? new Uint8Array(values) : values,
  };
}
