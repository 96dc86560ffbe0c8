import { type Projection, pixelsPerColumn, pixelsPerRow, toFilm } from '../drawing/projection.ts';
import type { Film, PixelLevel } from '../film/film.ts';
import type { DisplayLut } from '../film/grey-scale.ts';
import { screenPoint } from '../geometry/units.ts';

/** A rectangle of whole pixels of one level: columns `left` … `right − 1`, rows `top` … `bottom − 1`. */
export interface Crop {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Pixels of a level cut beyond what is visible, so that small moves need no new cut. */
const MARGIN = 48;

/**
 * The coarsest level that still has at least one pixel per device pixel in both directions, so that
 * drawing it never magnifies a picture that a finer level could have drawn sharply.
 *
 * @param devicePixelsPerColumn - Device pixels along one column of the film, > 0.
 * @param devicePixelsPerRow - Device pixels along one row of the film, > 0.
 */
export function levelFor(levels: number, devicePixelsPerColumn: number, devicePixelsPerRow: number): number {
  const scale = Math.max(devicePixelsPerColumn, devicePixelsPerRow);
  // A hair of tolerance: at exactly one half, rounding in the transform must not pick the finer level.
  const wanted = Math.floor(Math.log2(1 / scale) + 1e-9);
  return Math.min(Math.max(wanted, 0), levels - 1);
}

/** The part of a level that a canvas of the given size can show, with `margin` pixels around; may be empty. */
export function visibleCrop(
  level: PixelLevel,
  filmPixelsPerLevelPixel: number,
  projection: Projection,
  width: number,
  height: number,
  margin: number,
): Crop {
  const corners = [
    screenPoint(0, 0),
    screenPoint(width, 0),
    screenPoint(0, height),
    screenPoint(width, height),
  ].map((corner) => toFilm(projection, corner));
  const columns = corners.map(({ column }) => column / filmPixelsPerLevelPixel);
  const rows = corners.map(({ row }) => row / filmPixelsPerLevelPixel);
  return {
    left: Math.max(Math.floor(Math.min(...columns)) - margin, 0),
    top: Math.max(Math.floor(Math.min(...rows)) - margin, 0),
    right: Math.min(Math.ceil(Math.max(...columns)) + margin, level.columns),
    bottom: Math.min(Math.ceil(Math.max(...rows)) + margin, level.rows),
  };
}

const isEmpty = ({ left, top, right, bottom }: Crop): boolean => right <= left || bottom <= top;

const contains = (outer: Crop, inner: Crop): boolean =>
  outer.left <= inner.left &&
  outer.top <= inner.top &&
  outer.right >= inner.right &&
  outer.bottom >= inner.bottom;

/** Stored value → opaque grey as one little-endian RGBA word, with the stored value of the first entry. */
export interface GreyWords {
  readonly firstStored: number;
  readonly words: Uint32Array;
}

/** Spreads display grey over red, green and blue, so that a pixel is written as one word. */
export function greyWords({ values, firstStored }: DisplayLut): GreyWords {
  const words = new Uint32Array(values.length);
  for (let index = 0; index < values.length; index++) words[index] = 0xff000000 | (values[index]! * 0x010101);
  return { firstStored, words };
}

/**
 * Draws one film through a lookup table: cuts the visible part out of the level that fits the
 * magnification, maps it to grey into a small canvas, and draws that with the transform of the view.
 * The cut is kept while it still covers what is visible.
 */
export class FilmRaster {
  private readonly buffer = document.createElement('canvas');
  private readonly bufferContext: CanvasRenderingContext2D;
  private picture: ImageData | null = null;
  private cut: { level: number; crop: Crop; words: GreyWords } | null = null;

  constructor(private readonly film: Film) {
    this.buffer.width = 0;
    this.buffer.height = 0;
    this.bufferContext = contextOf(this.buffer);
  }

  /**
   * @param context - Where to draw; its transform is left as it was. The caller clears it.
   * @param projection - From film coordinates to the pixels of `context`.
   * @param width - Of the part of `context` that is visible, in its own pixels.
   * @param finest - Draw from the film as stored, whatever the magnification.
   */
  draw(
    context: CanvasRenderingContext2D,
    projection: Projection,
    width: number,
    height: number,
    words: GreyWords,
    finest = false,
  ): void {
    const index = finest
      ? 0
      : levelFor(this.film.levels.length, pixelsPerColumn(projection), pixelsPerRow(projection));
    const level = this.film.levels[index];
    if (level === undefined) return;
    const filmPixels = 2 ** index;
    // One pixel more than is visible, for the neighbours that interpolation reads.
    const needed = visibleCrop(level, filmPixels, projection, width, height, 1);
    if (isEmpty(needed)) return;
    const { cut } = this;
    const covers = cut !== null && cut.level === index && cut.words === words && contains(cut.crop, needed);
    // While the light changes, every cut is for one frame: a margin would be mapped for nothing.
    const onlyLight = cut !== null && cut.level === index && cut.words !== words;
    const crop = covers
      ? cut.crop
      : onlyLight
        ? needed
        : visibleCrop(level, filmPixels, projection, width, height, MARGIN);
    if (!covers) {
      this.develop(level, crop, words);
      this.cut = { level: index, crop, words };
    }
    const { a, b, c, d, e, f } = projection;
    // The last pixel of a level may reach beyond a film of odd size: only the film's part of it is drawn.
    const cutColumns = Math.min(crop.right, this.film.columns / filmPixels) - crop.left;
    const cutRows = Math.min(crop.bottom, this.film.rows / filmPixels) - crop.top;
    context.save();
    context.setTransform(a, b, c, d, e, f);
    context.imageSmoothingEnabled = true;
    context.drawImage(
      this.buffer,
      0,
      0,
      cutColumns,
      cutRows,
      crop.left * filmPixels,
      crop.top * filmPixels,
      cutColumns * filmPixels,
      cutRows * filmPixels,
    );
    context.restore();
  }

  /** Maps the crop of a level through the table into the buffer canvas, which only ever grows. */
  private develop(level: PixelLevel, crop: Crop, { firstStored, words }: GreyWords): void {
    const width = crop.right - crop.left;
    const height = crop.bottom - crop.top;
    if (this.buffer.width < width) this.buffer.width = width;
    if (this.buffer.height < height) this.buffer.height = height;
    if (this.picture?.width !== width || this.picture.height !== height) {
      this.picture = this.bufferContext.createImageData(width, height);
    }
    const { picture } = this;
    const out = new Uint32Array(picture.data.buffer);
    const { pixels, columns } = level;
    let to = 0;
    for (let row = crop.top; row < crop.bottom; row++) {
      const end = row * columns + crop.right;
      for (let from = row * columns + crop.left; from < end; from++) {
        out[to++] = words[pixels[from]! - firstStored]!;
      }
    }
    this.bufferContext.putImageData(picture, 0, 0);
  }
}

function contextOf(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const context = canvas.getContext('2d', { alpha: false });
  if (context === null) {
    throw new Error(
      'The browser gave no 2D canvas to draw the film on. Close other tabs and reload the page.',
    );
  }
  return context;
}
