import { headerSegments, segmentsFrom, short } from './marker-segments.ts';

/** What a compressed stream says of itself, read without decoding it. */
export interface StreamHeader {
  readonly process:
    | 'baseline'
    | 'extended'
    | 'progressive'
    | 'lossless'
    | 'jpeg-ls'
    | 'jpeg-2000'
    /** A JPEG process with arithmetic coding or hierarchy, which nothing here reads. */
    | 'other';
  readonly columns: number;
  readonly rows: number;
  readonly components: number;
  /** Bits of a sample; of the first component where they differ. */
  readonly precision: number;
}

const JPEG_PROCESSES: Readonly<Record<number, StreamHeader['process']>> = {
  192: 'baseline',
  193: 'extended',
  194: 'progressive',
  195: 'lossless',
  247: 'jpeg-ls',
};

const isFrameHeader = (marker: number) =>
  marker === 0xf7 || (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker));

/** The start-of-frame marker of a JPEG or JPEG-LS stream (T.81 B.2.2, T.87 C.2.2), or null when it has none. */
export function readJpegHeader(bytes: Uint8Array): StreamHeader | null {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return null;
  const frame = headerSegments(bytes).find(({ marker }) => isFrameHeader(marker));
  if (frame === undefined || frame.data.length < 6) return null;
  const { marker, data } = frame;
  return {
    process: JPEG_PROCESSES[marker] ?? 'other',
    precision: data[0] as number,
    rows: short(data, 1),
    columns: short(data, 3),
    components: data[5] as number,
  };
}

/** Whether the end-of-image marker is there; entropy-coded data cannot hold its bytes (T.81 B.1.1.5). */
export function endsWithImageEnd(bytes: Uint8Array): boolean {
  for (let at = bytes.length - 2; at >= 2; at--) {
    if (bytes[at] === 0xff && bytes[at + 1] === 0xd9) return true;
  }
  return false;
}

const SIZ_SEARCH_BYTES = 4096;

/** Where the codestream begins, bare or in a JP2 box: its SOC and SIZ markers (ITU-T T.800 A.4.1, A.5.1); −1: nowhere. */
function startOfCodestream(view: DataView): number {
  const last = Math.min(view.byteLength - 45, SIZ_SEARCH_BYTES);
  for (let at = 0; at <= last; at++) if (view.getUint32(at) === 0xff4fff51) return at;
  return -1;
}

const viewOf = ({ buffer, byteOffset, length }: Uint8Array) => new DataView(buffer, byteOffset, length);

/** The SIZ marker of a JPEG 2000 codestream (ITU-T T.800 A.5.1), bare or in a JP2 box, or null. */
export function readJpeg2000Header(bytes: Uint8Array): StreamHeader | null {
  const view = viewOf(bytes);
  const at = startOfCodestream(view);
  if (at < 0) return null;
  return {
    process: 'jpeg-2000',
    columns: view.getUint32(at + 8) - view.getUint32(at + 16),
    rows: view.getUint32(at + 12) - view.getUint32(at + 20),
    components: view.getUint16(at + 40),
    precision: (view.getUint8(at + 42) & 0x7f) + 1,
  };
}

/**
 * How often a JPEG 2000 codestream can be halved: its decomposition levels (COD marker, ITU-T T.800 A.6.1). 0 where
 * that cannot be told, and where the picture does not begin at the corner of its grid: its halves would be cut otherwise.
 */
export function jpeg2000Halvings(bytes: Uint8Array): number {
  const view = viewOf(bytes);
  const start = startOfCodestream(view);
  if (start < 0 || view.getUint32(start + 16) !== 0 || view.getUint32(start + 20) !== 0) return 0;
  for (const { marker, data } of segmentsFrom(bytes, start + 2)) {
    if (marker === 0x52) return data[5] ?? 0;
    // From the first tile on (SOT) there is no main header any more.
    if (marker === 0x90) return 0;
  }
  return 0;
}

/** APP14 "Adobe" with transform 0: the three components are red, green and blue as they stand. */
const UNTRANSFORMED = [0xff, 0xee, 0, 14, 0x41, 0x64, 0x6f, 0x62, 0x65, 0, 100, 0, 0, 0, 0, 0];

/**
 * The stream of a film whose header says RGB, marked so that the decoder takes it at that word. Without a marker
 * of its own (APP0 of JFIF or APP14) the decoder would guess that the components are YCbCr and turn them.
 */
export function markedAsRgb(jpeg: Uint8Array): Uint8Array {
  const first = jpeg[3];
  if (first === 0xe0 || first === 0xee) return jpeg;
  const marked = new Uint8Array(jpeg.length + UNTRANSFORMED.length);
  marked.set(jpeg.subarray(0, 2));
  marked.set(UNTRANSFORMED, 2);
  marked.set(jpeg.subarray(2), 2 + UNTRANSFORMED.length);
  return marked;
}
