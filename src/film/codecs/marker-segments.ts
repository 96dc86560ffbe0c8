/** A two-byte number of a JPEG stream; 0 for bytes that are not there. */
export const short = (bytes: Uint8Array, at: number): number =>
  ((bytes[at] ?? 0) << 8) | (bytes[at + 1] ?? 0);

/** A marker with a length, as in JPEG, JPEG-LS and the main header of JPEG 2000. */
export interface MarkerSegment {
  /** The second byte of its marker. */
  readonly marker: number;
  /** What stands behind its length. */
  readonly data: Uint8Array;
  /** Where in the stream its marker begins, and where the next marker or the entropy-coded data does. */
  readonly from: number;
  readonly to: number;
}

const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;

/** Markers without a length: TEM, RST0–7, SOI. ITU-T T.81 table B.1. */
const isBareMarker = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);

/**
 * The marker segments from `start` on (ITU-T T.81 B.1.1), to the end of the image, to the first that is not whole, or
 * to where something else stands in the place of a marker. Whoever meets a scan must not go on before stepping over its data.
 */
export function* segmentsFrom(bytes: Uint8Array, start: number): Generator<MarkerSegment> {
  let at = start;
  while (at + 4 <= bytes.length && bytes[at] === 0xff) {
    const marker = bytes[at + 1] as number;
    if (marker === END_OF_IMAGE) return;
    // Any number of bytes FF may stand before a marker (B.1.1.2).
    if (marker === 0xff || isBareMarker(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    const length = short(bytes, at + 2);
    const to = at + 2 + length;
    if (length < 2 || to > bytes.length) return;
    yield { marker, data: bytes.subarray(at + 4, to), from: at, to };
    at = to;
  }
}

/** The segments of a JPEG stream before its first scan. */
export function headerSegments(jpeg: Uint8Array): readonly MarkerSegment[] {
  const segments: MarkerSegment[] = [];
  for (const segment of segmentsFrom(jpeg, 2)) {
    if (segment.marker === START_OF_SCAN) break;
    segments.push(segment);
  }
  return segments;
}
