import type { StoredPixels } from '../film.ts';
import { luminance } from '../luminance.ts';
import type { PixelDescription } from './pixel-description.ts';
import type { Samples } from './samples.ts';

/** Stored values of a grey frame and the bits they span. */
export interface GreyPixels {
  readonly pixels: StoredPixels;
  readonly bitsStored: number;
  readonly signed: boolean;
}

/** A view of a larger buffer is copied, so that a film never carries the bytes of the file it came from. */
const owned = (values: Uint8Array | Uint16Array): Uint8Array | Uint16Array => {
  if (values.byteLength === values.buffer.byteLength) return values;
  return values instanceof Uint8Array ? new Uint8Array(values) : new Uint16Array(values);
};

/**
 * Values as the header means them: the bits stored are cut out below the high bit, so that overlay bits in
 * the unused ones never show, and a signed value is extended (PS3.5 8.1.1).
 */
export function greyPixels(samples: Samples, description: PixelDescription): GreyPixels {
  const { bitsStored, highBit, signed } = description;
  const { values } = samples;
  // A decoder whose precision ends below the high bit has already moved the value down.
  const shift = samples.precision > highBit ? highBit + 1 - bitsStored : 0;
  const mask = 2 ** bitsStored - 1;
  const whole = shift === 0 && bitsStored === 8 * values.BYTES_PER_ELEMENT;
  if (whole && !signed) return { pixels: owned(values), bitsStored, signed };
  if (!signed) {
    // Values that are nobody else's are cut in place.
    const pixels = owned(values);
    for (let i = 0; i < values.length; i++) pixels[i] = ((values[i] as number) >> shift) & mask;
    return { pixels, bitsStored, signed };
  }
  const pixels = new Int16Array(values.length);
  const unused = 32 - bitsStored;
  for (let i = 0; i < values.length; i++) {
    pixels[i] = (((values[i] as number) >> shift) << unused) >> unused;
  }
  return { pixels, bitsStored, signed };
}

/** The luminance of a frame of three components; see `luminance.ts` for the formula. */
export function colourPixels(samples: Samples, description: PixelDescription): GreyPixels {
  const { values } = samples;
  const { bitsStored } = description;
  const photometric = samples.colours ?? description.photometric;
  const count = samples.columns * samples.rows;
  const pixels = values instanceof Uint8Array ? new Uint8Array(count) : new Uint16Array(count);
  const greatest = 2 ** bitsStored - 1;
  // PS3.3 C.7.6.3.1.2: YBR_PARTIAL keeps luminance between 16 and 235 of 255.
  const partial = photometric.startsWith('YBR_PARTIAL');
  const luminanceFirst = partial || photometric.startsWith('YBR_FULL');
  for (let i = 0; i < count; i++) {
    const first = values[3 * i] as number;
    const grey = luminanceFirst
      ? first
      : luminance(first, values[3 * i + 1] as number, values[3 * i + 2] as number);
    const wide = partial ? Math.round(((grey - greatest * (16 / 255)) * 255) / 219) : grey;
    pixels[i] = Math.min(Math.max(wide, 0), greatest);
  }
  return { pixels, bitsStored, signed: false };
}
