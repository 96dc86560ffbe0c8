import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import {
  endsWithImageEnd,
  markedAsRgb,
  readJpeg2000Header,
  readJpegHeader,
  type StreamHeader,
} from '../codecs/codestream.ts';
import { BrokenStream } from '../codecs/huffman.ts';
import { decodeLosslessJpeg } from '../codecs/lossless-jpeg.ts';
import { decodeSequentialJpeg } from '../codecs/sequential-jpeg.ts';
import { decodeWithWasm, type WasmPicture } from '../codecs/wasm-decoder.ts';
import type { FilmError } from '../film.ts';
import type { FilmTools, WasmCodec } from '../film-tools.ts';
import { inflateRaw, mostUnpackedBytes } from '../inflate.ts';
import { withoutProfile } from '../picture/jpeg-segments.ts';
import { interleaved, nativeFrameBytes, nativeSamples } from './native.ts';
import type { PixelDescription } from './pixel-description.ts';
import { decodeRle } from './rle.ts';
import type { Samples } from './samples.ts';
import type { PixelEncoding } from './transfer-syntax.ts';

const damaged = (detail: string) => failure<FilmError>({ kind: 'damaged', format: 'dicom', detail });

const unsupported = (detail: string) => failure<FilmError>({ kind: 'unsupported-picture', detail });

const bytesPerSample = ({ precision }: StreamHeader) => (precision > 8 ? 2 : 1);

/** A stream whose own header disagrees with the file's is not decoded: one of the two is wrong. */
export function checkHeader(
  header: StreamHeader | null,
  description: PixelDescription,
  streamBytes: number,
): Result<StreamHeader, FilmError> {
  if (header === null) return damaged('its compressed picture has no readable header');
  const { rows, columns, samplesPerPixel } = description;
  if (header.rows !== rows || header.columns !== columns) {
    return damaged(
      `its compressed picture is ${header.columns} × ${header.rows} where the file says ${columns} × ${rows}`,
    );
  }
  if (rows * columns * samplesPerPixel * bytesPerSample(header) > mostUnpackedBytes(streamBytes)) {
    return damaged('its compressed picture is far too short for its size');
  }
  if (header.components !== samplesPerPixel) {
    return damaged(
      `its compressed picture has ${header.components} components where the file says ${samplesPerPixel}`,
    );
  }
  return success(header);
}

const CODEC_NAMES: Readonly<Record<WasmCodec, string>> = {
  jpeg: 'JPEG',
  'jpeg-ls': 'JPEG-LS',
  'jpeg-2000': 'JPEG 2000',
  htj2k: 'High-Throughput JPEG 2000',
};

async function throughWasm(
  codec: WasmCodec,
  frame: Uint8Array,
  description: PixelDescription,
  tools: FilmTools,
  colours: Samples['colours'],
): Promise<Result<Samples, FilmError>> {
  const decoded = await decodeWithWasm(codec, frame, tools);
  if (!decoded.ok) {
    return decoded.error.kind === 'not-loaded'
      ? failure({ kind: 'codec-not-loaded', codec: CODEC_NAMES[codec] })
      : damaged('its compressed picture could not be read');
  }
  const samples = samplesOf(decoded.value, description, colours);
  return samples === null
    ? damaged('its compressed picture could not be decoded to its full size')
    : success(samples);
}

/** Of what a codec decoded; null where it is not of the size described, which codecs do not tell by themselves. */
export function samplesOf(
  picture: WasmPicture,
  { rows, columns, samplesPerPixel }: Pick<PixelDescription, 'rows' | 'columns' | 'samplesPerPixel'>,
  colours: Samples['colours'],
): Samples | null {
  const bytesPerSample = picture.bitsPerSample > 8 ? 2 : 1;
  const expected = rows * columns * samplesPerPixel * bytesPerSample;
  if (picture.rows !== rows || picture.columns !== columns || picture.bytes.length < expected) return null;
  const { buffer, byteOffset } = picture.bytes;
  const values =
    bytesPerSample === 1
      ? picture.bytes.subarray(0, expected)
      : new Uint16Array(buffer, byteOffset, expected / 2);
  return {
    columns,
    rows,
    components: samplesPerPixel,
    precision: picture.bitsPerSample,
    values: picture.planar ? interleaved(values) : values,
    colours,
    notes: [],
  };
}

/** The inverse colour transform is part of the decoding of JPEG 2000: ICT and RCT come out as RGB. */
export const jpeg2000Colours = ({ photometric }: PixelDescription): Samples['colours'] =>
  photometric === 'YBR_ICT' || photometric === 'YBR_RCT' ? 'RGB' : null;

/** What the decoders of this repository throw at a broken stream becomes an error by name. */
function unlessBroken(decode: () => Omit<Samples, 'colours' | 'notes'>): Result<Samples, FilmError> {
  try {
    return success({ ...decode(), colours: null, notes: [] });
  } catch (thrown) {
    if (thrown instanceof BrokenStream) return damaged(`its JPEG stream is broken: ${thrown.message}`);
    throw thrown;
  }
}

function decodeTwelveBit(frame: Uint8Array, description: PixelDescription): Result<Samples, FilmError> {
  return description.samplesPerPixel === 3
    ? unsupported('colour of 12 bits in JPEG Extended')
    : unlessBroken(() => ({ ...decodeSequentialJpeg(frame), components: 1 }));
}

/** PS3.5 8.2.16: each frame is one raw deflate stream of native pixels. */
function inflateFrame(frame: Uint8Array, description: PixelDescription): Result<Samples, FilmError> {
  const expectedBytes = nativeFrameBytes(description);
  try {
    const inflated = inflateRaw(frame, expectedBytes + 1);
    return inflated.length < expectedBytes
      ? failure({ kind: 'truncated', expectedBytes, foundBytes: inflated.length })
      : success(nativeSamples(inflated.subarray(0, expectedBytes), description, false));
  } catch (thrown) {
    return damaged(`its deflated picture could not be read (${reasonOf(thrown)})`);
  }
}

const PROFILE_LEFT_OUT =
  'Its JPEG picture holds a colour profile (ICC), which was not applied: the greys are as stored, and may look lighter or darker than meant.';

async function decodeEightBit(
  frame: Uint8Array,
  description: PixelDescription,
  tools: FilmTools,
): Promise<Result<Samples, FilmError>> {
  const plain = withoutProfile(frame);
  const stream = description.photometric === 'RGB' ? markedAsRgb(plain) : plain;
  const colours = description.samplesPerPixel === 3 ? 'RGB' : null;
  const decoded = await throughWasm('jpeg', stream, description, tools, colours);
  if (!decoded.ok || plain === frame) return decoded;
  return success({ ...decoded.value, notes: [...decoded.value.notes, PROFILE_LEFT_OUT] });
}

/** By the process the stream itself states: files whose label names another process exist. */
async function decodeJpeg(
  frame: Uint8Array,
  description: PixelDescription,
  tools: FilmTools,
): Promise<Result<Samples, FilmError>> {
  const checked = checkHeader(readJpegHeader(frame), description, frame.length);
  if (!checked.ok) return checked;
  const header = checked.value;
  if (!endsWithImageEnd(frame)) return damaged('its JPEG stream stops before its end');
  switch (header.process) {
    case 'lossless':
      return unlessBroken(() => ({ ...decodeLosslessJpeg(frame), components: description.samplesPerPixel }));
    case 'jpeg-ls':
      return throughWasm('jpeg-ls', frame, description, tools, null);
    case 'baseline':
    case 'extended':
    case 'progressive':
      if (header.precision === 8) return decodeEightBit(frame, description, tools);
      return header.process === 'extended'
        ? decodeTwelveBit(frame, description)
        : unsupported(`a ${header.process} JPEG of ${header.precision} bits`);
    default:
      return unsupported('a JPEG process with arithmetic coding or hierarchy');
  }
}

/**
 * Decodes one frame of pixel data.
 *
 * @param frame - The bytes of this frame alone: native, or one compressed stream.
 */
export async function decodeFrame(
  encoding: PixelEncoding,
  frame: Uint8Array,
  description: PixelDescription,
  bigEndian: boolean,
  tools: FilmTools,
): Promise<Result<Samples, FilmError>> {
  switch (encoding) {
    case 'native':
      return success(nativeSamples(frame, description, bigEndian));
    case 'deflated-frame':
      return inflateFrame(frame, description);
    case 'rle':
      return decodeRle(frame, description);
    case 'jpeg':
    case 'jpeg-ls':
      return decodeJpeg(frame, description, tools);
    case 'jpeg-2000':
    case 'htj2k': {
      const header = checkHeader(readJpeg2000Header(frame), description, frame.length);
      return header.ok
        ? throughWasm(encoding, frame, description, tools, jpeg2000Colours(description))
        : header;
    }
  }
}
