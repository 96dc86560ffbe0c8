import type { PixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';

/** Bytes of one uncompressed frame. YBR_FULL_422 keeps two samples a pixel, PS3.3 C.7.6.3.1.2. */
export function nativeFrameBytes(description: PixelDescription): number {
  const { rows, columns, samplesPerPixel, bitsAllocated } = description;
  const samples = description.photometric.endsWith('422') ? 2 : samplesPerPixel;
  return rows * columns * samples * (bitsAllocated / 8);
}

const MACHINE_IS_LITTLE_ENDIAN = new Uint8Array(Uint16Array.of(1).buffer)[0] === 1;

/** 16-bit words from bytes at any offset, whatever order the machine has. */
function words(bytes: Uint8Array, littleEndian: boolean): Uint16Array {
  // Not slice(): that of Node's Buffer copies nothing.
  const copy = new Uint8Array(bytes.subarray(0, bytes.length & ~1));
  const values = new Uint16Array(copy.buffer);
  if (littleEndian !== MACHINE_IS_LITTLE_ENDIAN) {
    for (let i = 0; i < values.length; i++) {
      const value = values[i] as number;
      values[i] = (value >> 8) | (value << 8);
    }
  }
  return values;
}

/** Three planes one after another (Planar Configuration 1, JPEG-LS in three scans) to samples side by side. */
export function interleaved<Values extends Uint8Array | Uint16Array>(planes: Values): Values {
  const pixels = planes.length / 3;
  const values = planes.slice() as Values;
  for (let i = 0; i < pixels; i++) {
    for (let plane = 0; plane < 3; plane++) values[3 * i + plane] = planes[plane * pixels + i] as number;
  }
  return values;
}

/** Y1 Y2 Cb Cr of two neighbouring pixels to Y Cb Cr of each. */
function from422(pairs: Uint8Array | Uint16Array): Uint8Array | Uint16Array {
  const pixels = pairs.length / 2;
  const values = pairs instanceof Uint8Array ? new Uint8Array(3 * pixels) : new Uint16Array(3 * pixels);
  for (let i = 0; i < pixels; i++) {
    const pair = 4 * (i >> 1);
    values[3 * i] = pairs[pair + (i & 1)] as number;
    values[3 * i + 1] = pairs[pair + 2] as number;
    values[3 * i + 2] = pairs[pair + 3] as number;
  }
  return values;
}

/**
 * Samples of an uncompressed frame.
 *
 * @param bytes - Exactly `nativeFrameBytes` of them.
 */
export function nativeSamples(bytes: Uint8Array, description: PixelDescription, bigEndian: boolean): Samples {
  const { rows, columns, samplesPerPixel, bitsAllocated } = description;
  const stored = bitsAllocated === 16 ? words(bytes, !bigEndian) : bytes;
  const values =
    samplesPerPixel === 1
      ? stored
      : description.photometric.endsWith('422')
        ? from422(stored)
        : description.planar
          ? interleaved(stored)
          : stored;
  return {
    columns,
    rows,
    components: samplesPerPixel,
    precision: bitsAllocated,
    values,
    colours: null,
    notes: [],
  };
}
