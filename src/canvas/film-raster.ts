import { type Projection, pixelsPerColumn, pixelsPerRow, toFilm } from '../drawing/projection.ts';
import type { Film, PixelLevel } from '../film/film.ts';
import type { DisplayLut } from '../film/grey-scale.ts';
import { screenPoint } from '../geometry/units.ts';
import { type Crop, putGrey } from './grey-pixels.ts';

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
 * Draws one film through a lookup table: cuts the visible part out of the level that fits the magnification, maps it to
 * grey into a canvas of its own, and draws that with the transform of the view. The cut is kept while it still covers
 * what is visible.
 */
export class FilmRaster {
  private readonly buffer = document.createElement('canvas');
  private readonly bufferContext: CanvasRenderingContext2D;
  /** What the buffer holds. */
  private cut: { level: number; crop: Crop; lut: DisplayLut } | null = null;

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
    lut: DisplayLut,
  ): boolean {
    const shift = wholePixelShift(projection);
    const level = this.film.levels[0];
    if (shift === null || level === undefined) return false;
    const { x, y } = shift;
    const needed = { left: -x, top: -y, right: width - x, bottom: height - y };
    if (!contains({ left: 0, top: 0, right: level.columns, bottom: level.rows }, needed)) return false;
    putGrey(context, level, needed, lut, 0, 0);
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
    lut: DisplayLut,
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
    const roomy = visibleCrop(level, filmPixels, projection, width, height, MARGIN);
    const crop = this.developFor(index, level, needed, roomy, lut);
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
   * Sees to it that what is needed of a level is in the buffer.
   *
   * @param roomy - What is cut when the view has moved, so that the next small move needs no new cut.
   * @returns What the buffer holds, from its upper left pixel on.
   */
  private developFor(index: number, level: PixelLevel, needed: Crop, roomy: Crop, lut: DisplayLut): Crop {
    const { cut, buffer } = this;
    const sameLevel = cut !== null && cut.level === index;
    if (sameLevel && cut.lut === lut && contains(cut.crop, needed)) return cut.crop;
    // While the light changes, every cut is for one frame: a margin would be mapped for nothing.
    const crop = sameLevel && cut.lut !== lut ? needed : roomy;
    const width = crop.right - crop.left;
    const height = crop.bottom - crop.top;
    // No larger than the cut: what is written over as a whole need not be kept for a picture still to be shown.
    if (buffer.width !== width) buffer.width = width;
    if (buffer.height !== height) buffer.height = height;
    putGrey(this.bufferContext, level, crop, lut, 0, 0);
    this.cut = { level: index, crop, lut };
    return crop;
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
