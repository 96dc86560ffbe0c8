import { failure, type Result, success } from '../../geometry/result.ts';
import type { FilmError } from '../film.ts';
import type { PixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';

const HEADER_BYTES = 64;
/** A replicate run turns two bytes into at most 128 (PS3.5 G.3.1). */
const GREATEST_EXPANSION = 64;

const damaged = (detail: string) => failure<FilmError>({ kind: 'damaged', format: 'dicom', detail });

/** Unpacks one segment (PS3.5 G.3.2) into every `stride`-th byte of `target`; says how many it wrote. */
function unpack(
  segment: Uint8Array,
  target: Uint8Array,
  first: number,
  stride: number,
  count: number,
): number {
  let at = 0;
  let written = 0;
  while (at < segment.length && written < count) {
    const control = segment[at++] as number;
    if (control === 128) continue;
    const literal = control < 128;
    const length = Math.min(literal ? control + 1 : 257 - control, count - written);
    for (let i = 0; i < length; i++) {
      const byte = segment[literal ? at + i : at];
      if (byte === undefined) return written;
      target[first + stride * written++] = byte;
    }
    at += literal ? control + 1 : 1;
  }
  return written;
}

/**
 * Decodes one RLE frame (PS3.5 Annex G): one segment for each byte of each sample, the most significant byte
 * first, each a whole plane.
 */
export function decodeRle(frame: Uint8Array, description: PixelDescription): Result<Samples, FilmError> {
  const { rows, columns, samplesPerPixel, bitsAllocated } = description;
  const bytesPerSample = bitsAllocated / 8;
  const pixels = rows * columns;
  const segments = samplesPerPixel * bytesPerSample;
  const expectedBytes = pixels * segments;
  if (frame.length < HEADER_BYTES) return damaged('its RLE header is not all there');
  const view = new DataView(frame.buffer, frame.byteOffset, frame.length);
  const stated = view.getUint32(0, true);
  if (stated !== segments) {
    return damaged(`its RLE header says ${stated} segments where ${segments} are needed`);
  }
  if ((frame.length - HEADER_BYTES) * GREATEST_EXPANSION < expectedBytes) {
    return failure({ kind: 'truncated', expectedBytes, foundBytes: frame.length });
  }
  const littleEndianBytes = new Uint8Array(expectedBytes);
  for (let segment = 0; segment < segments; segment++) {
    const start = view.getUint32(4 + 4 * segment, true);
    const end = segment + 1 < segments ? view.getUint32(8 + 4 * segment, true) : frame.length;
    if (start < HEADER_BYTES || end > frame.length || start > end) {
      return damaged(`its RLE segment ${segment + 1} lies outside the data`);
    }
    const sample = Math.floor(segment / bytesPerSample);
    const significance = bytesPerSample - 1 - (segment % bytesPerSample);
    const first = sample * bytesPerSample + significance;
    const written = unpack(frame.subarray(start, end), littleEndianBytes, first, segments, pixels);
    if (written < pixels) {
      return failure({ kind: 'truncated', expectedBytes: pixels, foundBytes: written });
    }
  }
  return success({
    columns,
    rows,
    components: samplesPerPixel,
    precision: bitsAllocated,
    values: bytesPerSample === 1 ? littleEndianBytes : littleEndianWords(littleEndianBytes),
    colours: null,
    notes: [],
  });
}

function littleEndianWords(bytes: Uint8Array): Uint16Array {
  const values = new Uint16Array(bytes.length / 2);
  for (let i = 0; i < values.length; i++) {
    values[i] = (bytes[2 * i] as number) | ((bytes[2 * i + 1] as number) << 8);
  }
  return values;
}
