import { crc32 } from '../../film/picture/crc32.ts';

/** ISO/IEC 15948 (PNG), 5.2: the signature. */
const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
/** What a picture cannot be shown without; everything else is left behind. */
const NEEDED: ReadonlySet<string> = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND']);

/**
 * A PNG file with its pixels and, where it is known, how large they are (11.3.5.3 pHYs); no text, time, profile or
 * anything else that whoever wrote it put beside them.
 *
 * @param png - A sound PNG file.
 * @param pixelsPerMm - Of the finished picture, in both directions; null: not known, and nothing is said.
 */
export function barePng(png: Uint8Array, pixelsPerMm: number | null): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [SIGNATURE];
  const view = new DataView(png.buffer, png.byteOffset, png.byteLength);
  for (let at = SIGNATURE.length; at + 12 <= png.length; ) {
    const end = at + 12 + view.getUint32(at);
    const kind = String.fromCharCode(...png.subarray(at + 4, at + 8));
    if (NEEDED.has(kind)) parts.push(png.subarray(at, end));
    if (kind === 'IHDR' && pixelsPerMm !== null) parts.push(physicalSize(pixelsPerMm));
    at = end;
  }
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

/** The chunk pHYs: pixels per metre in both directions, and that the unit is the metre. */
function physicalSize(pixelsPerMm: number): Uint8Array {
  const chunk = new Uint8Array(4 + 4 + 9 + 4);
  const view = new DataView(chunk.buffer);
  view.setUint32(0, 9);
  chunk.set(
    Array.from('pHYs', (letter) => letter.charCodeAt(0)),
    4,
  );
  view.setUint32(8, Math.round(1000 * pixelsPerMm));
  view.setUint32(12, Math.round(1000 * pixelsPerMm));
  view.setUint8(16, 1);
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  return chunk;
}
