import { crc32, deflateSync } from 'node:zlib';

/** Writes PNG files from their scanlines, by ISO/IEC 15948 5.3 (chunks) and 11.2 (critical chunks). */
export function pngChunk(type: string, data: Uint8Array): Uint8Array {
  const name = Buffer.from(type, 'latin1');
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const crc = Buffer.alloc(4);
  crc.writeUInt32BE(crc32(Buffer.concat([name, data])));
  return Buffer.concat([length, name, data, crc]);
}

export interface PngParts {
  readonly columns: number;
  readonly rows: number;
  readonly depth: number;
  /** 0 grey, 2 colour, 3 palette, 4 grey with alpha, 6 colour with alpha. */
  readonly colourType: number;
  /** Bytes of each row, unfiltered. */
  readonly lines: readonly (readonly number[])[];
  /** Chunks before the image data. */
  readonly extra?: readonly (readonly [type: string, data: readonly number[]])[];
}

export function pngFile({ columns, rows, depth, colourType, lines, extra = [] }: PngParts): Uint8Array {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(columns, 0);
  header.writeUInt32BE(rows, 4);
  header.set([depth, colourType, 0, 0, 0], 8);
  const filtered = Buffer.from(lines.flatMap((line) => [0, ...line]));
  return new Uint8Array(
    Buffer.concat([
      Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
      pngChunk('IHDR', header),
      ...extra.map(([type, data]) => pngChunk(type, Uint8Array.from(data))),
      pngChunk('IDAT', deflateSync(filtered)),
      pngChunk('IEND', new Uint8Array(0)),
    ]),
  );
}

/** 16 × 12 pixels of grey 12 x + 5 y + 10, interlaced, written with ImageMagick 6.9. */
export const interlacedPng = () =>
  new Uint8Array(
    Buffer.from(
      'iVBORw0KGgoAAAANSUhEUgAAABAAAAAMCAAAAAE5i1LLAAAARUlEQVQI12PkSmDS0GC0SmDS0GCUMzAwYFQyMDBgEhEREWESERERYRSRgAAmESiAMxjFYFJcUEAMg5GfBxXAZTCUUiAAAEKaC/mKbYguAAAAAElFTkSuQmCC',
      'base64',
    ),
  );

/** A colour profile (11.3.3.3): a name, a zero, the method 0, zlib data. */
export const iccp = (profile: Uint8Array): readonly [type: string, data: readonly number[]] => [
  'iCCP',
  [0x61, 0, 0, ...deflateSync(profile)],
];
