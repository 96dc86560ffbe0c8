import { unzlibSync } from 'fflate';
import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import type { PdfFailure } from './pdf-failure.ts';

/**
 * A TrueType or OpenType file from a WOFF one, whose tables are packed one by one (WOFF File Format 1.0, W3C
 * 2012, sections 3 to 5). A PDF cannot hold WOFF, and the font library reads past the end of its unpacked
 * tables.
 */

const WOFF = 0x774f4646;
const WOFF_HEADER_BYTES = 44;
const WOFF_ENTRY_BYTES = 20;
const SFNT_HEADER_BYTES = 12;
const SFNT_ENTRY_BYTES = 16;

const padded = (length: number): number => (length + 3) & ~3;

/** The file itself where it is not WOFF. Fails with `font-unreadable` where a table is not what its entry says. */
export function unpackWoff(file: Uint8Array): Result<Uint8Array, PdfFailure> {
  const damaged = (detail: string) => failure<PdfFailure>({ kind: 'font-unreadable', detail });
  const view = new DataView(file.buffer, file.byteOffset, file.length);
  if (file.length < WOFF_HEADER_BYTES || view.getUint32(0) !== WOFF) return success(file);
  const count = view.getUint16(12);
  if (WOFF_HEADER_BYTES + count * WOFF_ENTRY_BYTES > file.length)
    return damaged('its directory is cut short');
  const tables: { readonly entry: number; readonly bytes: Uint8Array }[] = [];
  for (let index = 0; index < count; index += 1) {
    const entry = WOFF_HEADER_BYTES + index * WOFF_ENTRY_BYTES;
    const [offset, packed, length] = [4, 8, 12].map((at) => view.getUint32(entry + at)) as [
      number,
      number,
      number,
    ];
    if (offset + packed > file.length) return damaged('a table is cut short');
    const stored = file.subarray(offset, offset + packed);
    try {
      const bytes = packed < length ? unzlibSync(stored, { out: new Uint8Array(length) }) : stored;
      if (bytes.length !== length) return damaged('a table has another length than it says');
      tables.push({ entry, bytes });
    } catch (thrown) {
      return damaged(reasonOf(thrown));
    }
  }
  return success(sfnt(view, tables));
}

function sfnt(
  woff: DataView,
  tables: readonly { readonly entry: number; readonly bytes: Uint8Array }[],
): Uint8Array {
  const start = SFNT_HEADER_BYTES + tables.length * SFNT_ENTRY_BYTES;
  const file = new Uint8Array(tables.reduce((sum, { bytes }) => sum + padded(bytes.length), start));
  const view = new DataView(file.buffer);
  // OpenType, table directory: the greatest power of two within the count, for a binary search.
  const power = 2 ** Math.floor(Math.log2(Math.max(1, tables.length)));
  view.setUint32(0, woff.getUint32(4));
  view.setUint16(4, tables.length);
  view.setUint16(6, power * SFNT_ENTRY_BYTES);
  view.setUint16(8, Math.log2(power));
  view.setUint16(10, (tables.length - power) * SFNT_ENTRY_BYTES);
  let offset = start;
  for (const [index, { entry, bytes }] of tables.entries()) {
    const at = SFNT_HEADER_BYTES + index * SFNT_ENTRY_BYTES;
    view.setUint32(at, woff.getUint32(entry));
    view.setUint32(at + 4, woff.getUint32(entry + 16));
    view.setUint32(at + 8, offset);
    view.setUint32(at + 12, bytes.length);
    file.set(bytes, offset);
    offset += padded(bytes.length);
  }
  return file;
}
