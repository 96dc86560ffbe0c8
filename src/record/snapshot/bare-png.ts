import { crc32 } from '../../film/picture/crc32.ts';
import { chunksOf, pngOf } from '../../film/picture/png-chunks.ts';

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
  const kept = chunksOf(png).filter(({ type }) => NEEDED.has(type));
  return pngOf(
    kept.flatMap(({ type, whole }) =>
      type === 'IHDR' && pixelsPerMm !== null ? [whole, physicalSize(pixelsPerMm)] : [whole],
    ),
  );
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
