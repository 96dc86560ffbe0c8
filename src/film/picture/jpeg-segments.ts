import { headerSegments, type MarkerSegment } from '../codecs/marker-segments.ts';

/** Whether a segment begins with a name, as those of applications do. */
export const startsWith = (data: Uint8Array, name: string): boolean =>
  Array.from(name).every((letter, i) => data[i] === letter.charCodeAt(0));

/** The file without these of its segments, which are in their order. */
export function without(jpeg: Uint8Array, segments: readonly MarkerSegment[]): Uint8Array {
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
export const profileSegments = (jpeg: Uint8Array): readonly MarkerSegment[] =>
  headerSegments(jpeg).filter(({ marker, data }) => marker === 0xe2 && startsWith(data, ICC_NAME));

/** The file without its profile: the decoder, which does not apply one, refuses a picture whose profile lacks a piece. */
export function withoutProfile(jpeg: Uint8Array): Uint8Array {
  const segments = profileSegments(jpeg);
  return segments.length === 0 ? jpeg : without(jpeg, segments);
}
