/** A segment of a JPEG file: the second byte of its marker, and what follows its length. */
export interface JpegSegment {
  readonly marker: number;
  readonly data: Uint8Array;
  /** Where in the file its marker begins, and where the next one does. */
  readonly from: number;
  readonly to: number;
}

/** The segments before the first scan (ITU-T T.81 B.1.1.4); they end where the file stops making sense. */
export function segmentsOf(jpeg: Uint8Array): readonly JpegSegment[] {
  const segments: JpegSegment[] = [];
  for (let at = 2; jpeg[at] === 0xff && jpeg[at + 1] !== 0xda && at + 4 <= jpeg.length; ) {
    // Any number of bytes FF may stand before a marker (B.1.1.2).
    if (jpeg[at + 1] === 0xff) {
      at++;
      continue;
    }
    const length = ((jpeg[at + 2] as number) << 8) | (jpeg[at + 3] as number);
    if (length < 2) break;
    const to = at + 2 + length;
    segments.push({ marker: jpeg[at + 1] as number, data: jpeg.subarray(at + 4, to), from: at, to });
    at = to;
  }
  return segments;
}

/** Whether a segment begins with a name, as those of applications do. */
export const startsWith = (data: Uint8Array, name: string): boolean =>
  Array.from(name).every((letter, i) => data[i] === letter.charCodeAt(0));

/** The file without these of its segments, which are in their order. */
export function without(jpeg: Uint8Array, segments: readonly JpegSegment[]): Uint8Array {
  const kept = new Uint8Array(jpeg.length - segments.reduce((sum, { from, to }) => sum + to - from, 0));
  let read = 0;
  let written = 0;
  for (const { from, to } of [...segments, { from: jpeg.length, to: jpeg.length }]) {
    kept.set(jpeg.subarray(read, from), written);
    written += from - read;
    read = to;
  }
  return kept;
}

/** APP2 (ICC.1:2022 B.4): this name, the number of the piece from 1, how many there are, the piece. */
const ICC_NAME = 'ICC_PROFILE\0';

/** The pieces of a colour profile, in the order of the file. */
export const profileSegments = (jpeg: Uint8Array): readonly JpegSegment[] =>
  segmentsOf(jpeg).filter(
    ({ marker, data, to }) => marker === 0xe2 && to <= jpeg.length && startsWith(data, ICC_NAME),
  );

/** The file without its profile: the decoder, which does not apply one, refuses a picture whose profile lacks a piece. */
export function withoutProfile(jpeg: Uint8Array): Uint8Array {
  const segments = profileSegments(jpeg);
  return segments.length === 0 ? jpeg : without(jpeg, segments);
}
