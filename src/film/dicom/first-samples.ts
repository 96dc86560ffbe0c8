import { jpeg2000Halvings, readJpeg2000Header } from '../codecs/codestream.ts';
import { decodeWithWasm } from '../codecs/wasm-decoder.ts';
import type { FilmTools } from '../film-tools.ts';
import { SMALLEST_LEVEL_SIDE } from '../pyramid.ts';
import { checkHeader, jpeg2000Colours, samplesOf } from './decode-frame.ts';
import type { PixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';
import type { PixelEncoding } from './transfer-syntax.ts';

/** Smaller films are decoded in about the time that a person takes to look up. */
const WORTH_PIXELS = 4_000_000;

/** The samples of a frame at a low resolution. */
export interface FirstSamples {
  readonly samples: Samples;
  /** Columns and rows of the frame for one of the samples: a power of two. */
  readonly step: number;
}

/**
 * The coarsest resolution of a compressed frame whose longer side is at least that of the smallest level of a pyramid.
 *
 * Only JPEG 2000, which takes by far the longest: of the others those with resolutions (High-Throughput JPEG 2000,
 * progressive JPEG) are whole in a tenth of its time.
 *
 * @param hasOverlay - An overlay may lie in the bits above those stored; then a mean over pixels means nothing.
 * @returns Null where there is none, where it is not worth it, and where it cannot be decoded: the decoding of the whole
 *   says why.
 */
export async function firstSamples(
  encoding: PixelEncoding,
  frame: Uint8Array,
  description: PixelDescription,
  hasOverlay: boolean,
  tools: FilmTools,
): Promise<FirstSamples | null> {
  const { columns, rows, signed, highBit, bitsStored, photometric } = description;
  if (encoding !== 'jpeg-2000' || columns * rows < WORTH_PIXELS) return null;
  // Means of numbers of a palette are other colours; signed values and moved ones are rare enough to wait for.
  if (hasOverlay || signed || highBit !== bitsStored - 1 || photometric === 'PALETTE COLOR') return null;
  if (!checkHeader(readJpeg2000Header(frame), description, frame.length).ok) return null;
  const wanted = Math.floor(Math.log2(Math.max(columns, rows) / SMALLEST_LEVEL_SIDE));
  const halvings = Math.min(wanted, jpeg2000Halvings(frame));
  if (halvings === 0) return null;
  const decoded = await decodeWithWasm('jpeg-2000', frame, tools, halvings);
  if (!decoded.ok) return null;
  const step = 2 ** halvings;
  const coarse = { ...description, columns: Math.ceil(columns / step), rows: Math.ceil(rows / step) };
  const samples = samplesOf(decoded.value, coarse, jpeg2000Colours(description));
  if (samples === null) return null;
  // A wavelet overshoots beside edges: beyond the bits stored the values would begin again at black.
  const greatest = 2 ** bitsStored - 1;
  return { samples: { ...samples, values: samples.values.map((value) => Math.min(value, greatest)) }, step };
}
