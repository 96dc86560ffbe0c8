import type { StoredPixels } from '../film.ts';
import { luminance } from '../luminance.ts';
import type { GreyOf } from './to-srgb.ts';

/** The grey of a picture and whether it held any colour. */
export interface GreyPicture {
  readonly pixels: StoredPixels;
  readonly wasColour: boolean;
}

/**
 * Luminance of a colour picture, laid over black where it is transparent.
 *
 * @param samples - Interleaved red, green, blue, and alpha where `channels` is 4.
 * @param greatest - The greatest value of a sample, 255 or 65,535; alpha is opaque there.
 * @param greyOf - The grey of a colour; luminance where the picture has no profile to be applied.
 */
export function greyOfColour(
  samples: ArrayLike<number>,
  channels: 3 | 4,
  greatest: number,
  greyOf: GreyOf | null,
): GreyPicture {
  const grey = greyOf ?? luminance;
  const count = samples.length / channels;
  const pixels = greatest === 255 ? new Uint8Array(count) : new Uint16Array(count);
  let wasColour = false;
  for (let i = 0; i < count; i++) {
    const red = samples[channels * i] as number;
    const green = samples[channels * i + 1] as number;
    const blue = samples[channels * i + 2] as number;
    const alpha = channels === 4 ? (samples[channels * i + 3] as number) : greatest;
    if (red !== green || green !== blue) wasColour = true;
    pixels[i] = Math.round((grey(red, green, blue) * alpha) / greatest);
  }
  return { pixels, wasColour };
}

/** A picture stored in grey, with a profile applied where there is one. */
export const greyOfGrey = (stored: Uint8Array | Uint16Array, greyOf: GreyOf | null): GreyPicture => ({
  pixels: greyOf === null ? stored : stored.map((grey) => greyOf(grey, grey, grey)),
  wasColour: false,
});
