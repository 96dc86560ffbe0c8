import type { Spacing } from '../geometry/spacing.ts';
import type { Film, FilmFacts, FirstPicture, GreyScale, PixelLevel, StoredPixels } from './film.ts';
import { pyramid } from './pyramid.ts';

/** More pixels than any plate or detector has; a header that asks for more is wrong or hostile. */
export const LIMIT_PIXELS = 100_000_000;

/**
 * Least and greatest value outside the padding range; 0 and 0 when every pixel is padding, or there is none.
 */
function storedRange(
  pixels: StoredPixels,
  padding: GreyScale['padding'],
): { readonly least: number; readonly greatest: number } {
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  // Apart, since few films have padding and this looks at every pixel.
  if (padding === null) {
    for (let i = 0; i < pixels.length; i++) {
      const value = pixels[i] as number;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  } else {
    for (let i = 0; i < pixels.length; i++) {
      const value = pixels[i] as number;
      if (value >= padding.from && value <= padding.to) continue;
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  }
  return least <= greatest ? { least, greatest } : { least: 0, greatest: 0 };
}

/** A film from its stored values and what is known of them: adds the range and the pyramid. */
export function assembleFilm(
  full: PixelLevel,
  grey: GreyScale,
  spacing: Spacing,
  facts: FilmFacts,
  frame?: Film['frame'],
): Film {
  const { least, greatest } = storedRange(full.pixels, grey.padding);
  return {
    columns: full.columns,
    rows: full.rows,
    levels: pyramid(full, grey.padding),
    storedMin: least,
    storedMax: greatest,
    grey,
    spacing,
    facts,
    ...(frame === undefined ? {} : { frame }),
  };
}

/** A first picture from its coarse values and what is known of the whole film. */
export function assembleFirst(
  level: PixelLevel,
  step: number,
  whole: Pick<Film, 'columns' | 'rows' | 'grey' | 'spacing' | 'facts'>,
): FirstPicture {
  const { least, greatest } = storedRange(level.pixels, whole.grey.padding);
  return { ...whole, level, step, storedMin: least, storedMax: greatest };
}

/** Attributes of a picture format, which says nothing of grey scale: stored values are shown as they are. */
export const pictureGreyScale = (bitsStored: number): GreyScale => ({
  bitsStored,
  signed: false,
  photometric: 'MONOCHROME2',
  modality: { kind: 'rescale', slope: 1, intercept: 0 },
  windows: [],
  voiTables: [],
  padding: null,
});
