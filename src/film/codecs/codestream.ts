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

/** Markers without a length: TEM, RST0–7, SOI. ITU-T T.81 table B.1. */
const isBareMarker = (marker: number) => marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8);

/** The start-of-frame marker of a JPEG or JPEG-LS stream (T.81 B.2.2, T.87 C.2.2), or null when it has none. */
export function readJpegHeader(bytes: Uint8Array): StreamHeader | null {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return null;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] as number;
    if (marker === 0xff || isBareMarker(marker)) {
      at += marker === 0xff ? 1 : 2;
      continue;
    }
    if (marker === 0xd9 || marker === 0xda) return null;
    const length = ((bytes[at + 2] as number) << 8) | (bytes[at + 3] as number);
    const isFrame =
      marker === 0xf7 || (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker));
    if (isFrame) {
      if (at + 10 > bytes.length) return null;
      const short = (offset: number) =>
        ((bytes[at + offset] as number) << 8) | (bytes[at + offset + 1] as number);
      return {
        process: JPEG_PROCESSES[marker] ?? 'other',
        precision: bytes[at + 4] as number,
        rows: short(5),
        columns: short(7),
        components: bytes[at + 9] as number,
      };
    }
    if (length < 2) return null;
    at += 2 + length;
  }
  return null;
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
  // Segments follow each other from SIZ; each gives its length without the marker.
  for (let at = start + 2; at + 10 <= view.byteLength; at += 2 + view.getUint16(at + 2)) {
    const marker = view.getUint16(at);
    if (marker === 0xff52) return view.getUint8(at + 9);
    // From the first tile on (SOT) there is no main header any more.
    if (marker === 0xff90 || marker < 0xff00) return 0;
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
