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

/**
 * Opaque grey of a stored value as one little-endian RGBA word: `words[storedValue & 0xffff]`. One entry for each
 * of the values that 16 bits can hold, so that no index has to be checked or moved, a million times a frame; signed
 * words, because an unsigned one this great is a slower number to the engine.
 */
export type GreyWords = Int32Array;

const POSSIBLE_VALUES = 0x10000;
const BLACK_WORD = 0xff000000 | 0;

/** Spreads display grey over red, green and blue, so that a pixel is written as one word. Other values are black. */
export function greyWords({ values, firstStored }: DisplayLut): GreyWords {
  const words = new Int32Array(POSSIBLE_VALUES).fill(BLACK_WORD);
  for (let index = 0; index < values.length; index++) {
    words[(firstStored + index) & 0xffff] = BLACK_WORD | (values[index]! * 0x010101);
  }
  return words;
}

/** How far from whole pixels a film may lie and still be put pixel on pixel: interpolation would change no grey. */
const WHOLE_PIXEL_TOLERANCE = 1e-6;

/** The shift in whole pixels that a projection is, or null if it turns, scales, or shifts by parts of a pixel. */
export function wholePixelShift({ a, b, c, d, e, f }: Projection): { x: number; y: number } | null {
  const x = Math.round(e);
  const y = Math.round(f);
  const off = [a - 1, b, c, d - 1, e - x, f - y];
  return off.every((part) => Math.abs(part) < WHOLE_PIXEL_TOLERANCE) ? { x, y } : null;
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
  /** The buffer canvas holds the cut; what is put on the screen pixel on pixel never goes through it. */
  private buffered = false;

  constructor(private readonly film: Film) {
    this.buffer.width = 0;
    this.buffer.height = 0;
    this.bufferContext = contextOf(this.buffer);
  }

  /**
   * Puts the film pixel on pixel, past every transform and interpolation: a third of the copying. Only where it lies
   * so on a canvas that it fills and that nothing clips.
   *
   * @returns Whether it was put; if not, `draw` draws it.
   */
  put(
    context: CanvasRenderingContext2D,
    projection: Projection,
    width: number,
    height: number,
    words: GreyWords,
  ): boolean {
    const shift = wholePixelShift(projection);
    const level = this.film.levels[0];
    if (shift === null || level === undefined) return false;
    const { x, y } = shift;
    const needed = { left: -x, top: -y, right: width - x, bottom: height - y };
    if (!contains({ left: 0, top: 0, right: level.columns, bottom: level.rows }, needed)) return false;
    const crop = this.developFor(0, level, needed, needed, words);
    if (this.picture === null) return false;
    context.putImageData(this.picture, crop.left + x, crop.top + y);
    return true;
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
    const crop = this.developFor(
      index,
      level,
      needed,
      visibleCrop(level, filmPixels, projection, width, height, MARGIN),
      words,
    );
    if (!this.buffered) this.fillBuffer();
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

  /**
   * Sees to it that what is needed of a level is mapped.
   *
   * @param roomy - What is cut when the view has moved, so that the next small move needs no new cut.
   * @returns What is mapped.
   */
  private developFor(index: number, level: PixelLevel, needed: Crop, roomy: Crop, words: GreyWords): Crop {
    const { cut } = this;
    const sameLevel = cut !== null && cut.level === index;
    if (sameLevel && cut.words === words && contains(cut.crop, needed)) return cut.crop;
    // While the light changes, every cut is for one frame: a margin would be mapped for nothing.
    const crop = sameLevel && cut.words !== words ? needed : roomy;
    this.develop(level, crop, words);
    this.cut = { level: index, crop, words };
    this.buffered = false;
    return crop;
  }

  /** Maps the crop of a level through the table into `picture`. */
  private develop({ pixels, columns }: PixelLevel, crop: Crop, words: GreyWords): void {
    const width = crop.right - crop.left;
    const height = crop.bottom - crop.top;
    if (this.picture?.width !== width || this.picture.height !== height) {
      this.picture = this.bufferContext.createImageData(width, height);
    }
    const out = new Int32Array(this.picture.data.buffer);
    for (let row = 0; row < height; row++) {
      const from = (crop.top + row) * columns + crop.left;
      // Views of one row, so that the loop over it has one index and plain bounds: twice as fast.
      const stored = pixels.subarray(from, from + width);
      const greys = out.subarray(row * width, (row + 1) * width);
      for (let column = 0; column < width; column++) greys[column] = words[stored[column]! & 0xffff]!;
    }
  }

  /** The picture as a canvas, which can be drawn turned and scaled; it only ever grows. */
  private fillBuffer(): void {
    const { picture, buffer } = this;
    if (picture === null) return;
    if (buffer.width < picture.width) buffer.width = picture.width;
    if (buffer.height < picture.height) buffer.height = picture.height;
    this.bufferContext.putImageData(picture, 0, 0);
    this.buffered = true;
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
