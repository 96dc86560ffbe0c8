/** ISO/IEC 15948 (PNG), 5.2. */
const SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

/** Chunks that bear on the pixels; others may be broken, or swell when unpacked, and are not looked at. */
const WANTED = new Set(['IHDR', 'PLTE', 'tRNS', 'pHYs', 'IDAT', 'IEND']);

export interface PngChunk {
  readonly type: string;
  /** With its length, type and checksum. */
  readonly whole: Uint8Array;
  readonly data: Uint8Array;
}

/** The chunks of a PNG file (ISO/IEC 15948 5.3); the last one is cut where the file is. */
export function chunksOf(bytes: Uint8Array): readonly PngChunk[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const chunks: PngChunk[] = [];
  for (let at = SIGNATURE.length; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const type = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    chunks.push({
      type,
      whole: bytes.subarray(at, at + 12 + length),
      data: bytes.subarray(at + 8, at + 8 + length),
    });
    at += 12 + length;
  }
  return chunks;
}

/** A file of these chunks, each with its length, type and checksum. */
export function pngOf(chunks: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const parts = [SIGNATURE, ...chunks];
  const file = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    file.set(part, at);
    at += part.length;
  }
  return file;
}

/** A file with those of the chunks alone that bear on the pixels. */
export const essential = (chunks: readonly PngChunk[]): Uint8Array =>
  pngOf(chunks.filter(({ type }) => WANTED.has(type)).map(({ whole }) => whole));
