import { describe, expect, test } from 'vitest';
import { type Crop, putGrey } from '../../src/canvas/grey-pixels.ts';
import type { PixelLevel, StoredPixels } from '../../src/film/film.ts';
import type { DisplayLut } from '../../src/film/grey-scale.ts';

function canvasOf(width: number, height: number): CanvasRenderingContext2D {
  const canvas = document.createElement('canvas');
  Object.assign(canvas, { width, height });
  return canvas.getContext('2d', { alpha: false })!;
}

/** A grey for each stored value from `firstStored` on, neighbours far apart. */
const lutOf = (firstStored: number, count: number): DisplayLut => ({
  firstStored,
  values: Uint8ClampedArray.from({ length: count }, (_, index) => (index * 37) % 256),
});

/** Fills a level with values of the table, in no order. */
function levelOf<Pixels extends StoredPixels>(pixels: Pixels, columns: number, lut: DisplayLut): PixelLevel {
  for (let at = 0; at < pixels.length; at++) {
    pixels[at] = lut.firstStored + ((at * 7919) % lut.values.length);
  }
  return { columns, rows: pixels.length / columns, pixels };
}

/** Where a canvas shows something else than the table says of the crop; null: nowhere. */
function firstWrong(
  context: CanvasRenderingContext2D,
  { pixels, columns }: PixelLevel,
  { left, top, right, bottom }: Crop,
  { firstStored, values }: DisplayLut,
): string | null {
  const { data } = context.getImageData(0, 0, right - left, bottom - top);
  let at = 0;
  for (let row = top; row < bottom; row++) {
    for (let column = left; column < right; column++, at += 4) {
      const grey = values[pixels[row * columns + column]! - firstStored]!;
      const rightGrey = [grey, grey, grey, 255].every((part, index) => data[at + index] === part);
      if (!rightGrey) return `column ${column}, row ${row}: ${data.slice(at, at + 4)} in place of ${grey}`;
    }
  }
  return null;
}

function shown(level: PixelLevel, crop: Crop, lut: DisplayLut): string | null {
  const context = canvasOf(crop.right - crop.left, crop.bottom - crop.top);
  putGrey(context, level, crop, lut, 0, 0);
  return firstWrong(context, level, crop, lut);
}

describe('grey put on a canvas', () => {
  test.each([
    { of: '8 bits', pixels: new Uint8Array(31 * 20), lut: lutOf(0, 256) },
    { of: '16 bits', pixels: new Uint16Array(31 * 20), lut: lutOf(65_000, 536) },
    { of: '16 bits with a sign', pixels: new Int16Array(31 * 20), lut: lutOf(-300, 600) },
  ])('is that of the table, for stored values of $of', ({ pixels, lut }) => {
    const level = levelOf(pixels, 31, lut);
    // All of it, and parts of an odd and of an even number of pixels.
    expect(shown(level, { left: 0, top: 0, right: 31, bottom: 20 }, lut)).toBeNull();
    expect(shown(level, { left: 3, top: 2, right: 20, bottom: 13 }, lut)).toBeNull();
    expect(shown(level, { left: 4, top: 19, right: 6, bottom: 20 }, lut)).toBeNull();
  });

  test('follows the light, the film and the place, each when it alone has changed', () => {
    const [dark, light] = [lutOf(0, 256), { ...lutOf(0, 256), values: new Uint8ClampedArray(256).fill(200) }];
    const one = levelOf(new Uint8Array(31 * 20), 31, dark);
    const other = { ...one, pixels: one.pixels.slice().reverse() };
    const crop = { left: 3, top: 2, right: 20, bottom: 13 };
    expect(shown(one, crop, dark)).toBeNull();
    expect(shown(one, crop, light)).toBeNull();
    expect(shown(one, crop, dark)).toBeNull();
    expect(shown(other, crop, dark)).toBeNull();
    expect(shown(other, { left: 4, top: 2, right: 21, bottom: 13 }, dark)).toBeNull();
    expect(shown(other, { left: 4, top: 3, right: 21, bottom: 14 }, dark)).toBeNull();
  });

  test('is whole where there is more of it than is put at a time', () => {
    // 2,100 × 2,000 pixels are two bands, of which the second is the smaller.
    const lut = lutOf(0, 4096);
    const level = levelOf(new Uint16Array(2100 * 2000), 2100, lut);
    expect(shown(level, { left: 0, top: 0, right: 2100, bottom: 2000 }, lut)).toBeNull();
  });

  test('comes where it is wanted, and leaves what lies beside it', () => {
    const lut: DisplayLut = { firstStored: 0, values: Uint8ClampedArray.of(255) };
    const context = canvasOf(4, 3);
    putGrey(
      context,
      { columns: 2, rows: 1, pixels: new Uint8Array(2) },
      { left: 0, top: 0, right: 2, bottom: 1 },
      lut,
      1,
      2,
    );
    const { data } = context.getImageData(0, 0, 4, 3);
    const greys = Array.from({ length: 12 }, (_, index) => data[4 * index]);
    expect(greys).toEqual([0, 0, 0, 0, 0, 0, 0, 0, 0, 255, 255, 0]);
  });

  test('is nothing for an empty part', () => {
    const context = canvasOf(2, 2);
    const level = { columns: 2, rows: 2, pixels: new Uint8Array(4) };
    putGrey(context, level, { left: 1, top: 0, right: 1, bottom: 2 }, lutOf(0, 1), 0, 0);
    expect([...context.getImageData(0, 0, 2, 2).data].filter((_, index) => index % 4 < 3)).toEqual(
      new Array(12).fill(0),
    );
  });
});
