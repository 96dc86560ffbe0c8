import type { PixelLevel, StoredPixels } from '../film/film.ts';
import type { DisplayLut } from '../film/grey-scale.ts';
import { lookUpMachine, TABLE_BYTES } from './look-up-machine.ts';

/** A rectangle of whole pixels of one level: columns `left` … `right − 1`, rows `top` … `bottom − 1`. */
export interface Crop {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const BLACK_WORD = 0xff000000 | 0;

/**
 * Writes a run of display greys into a table of opaque greys as little-endian RGBA words: `table[storedValue & 0xffff]`.
 *
 * @param before - What the table held, made black first; null: it is all made black.
 */
export function writeWords(table: Int32Array, before: DisplayLut | null, lut: DisplayLut): void {
  if (before === null) table.fill(BLACK_WORD);
  for (let index = 0; before !== null && index < before.values.length; index++) {
    table[(before.firstStored + index) & 0xffff] = BLACK_WORD;
  }
  for (let index = 0; index < lut.values.length; index++) {
    table[(lut.firstStored + index) & 0xffff] = BLACK_WORD | (lut.values[index]! * 0x010101);
  }
}

/** Pixels put at a time, at most: a screen of 1920 × 1080 at once. What they are mapped in never becomes smaller. */
const BAND_PIXELS = 2 ** 21;

/** One for the page: all that is drawn is mapped in it, one after the other. */
const machine = lookUpMachine();
/** What its table holds. */
let held: DisplayLut | null = null;
/** The parts of its memory that are stored values, and a picture of them, of this width and height. */
let band: { readonly stored: Uint16Array; readonly picture: ImageData } | null = null;
/** Whose stored values lie in the band, and which: they stay while only the light changes. */
let copied: { readonly pixels: WeakRef<StoredPixels>; readonly crop: Crop } | null = null;

/**
 * Maps a part of a level to grey and puts it on a canvas, past its transform.
 *
 * @param crop - Within the level; may be empty.
 * @param x - Where its first column comes, in pixels of the canvas; `y`, its first row. May lie outside.
 */
export function putGrey(
  context: CanvasRenderingContext2D,
  level: PixelLevel,
  crop: Crop,
  lut: DisplayLut,
  x: number,
  y: number,
): void {
  if (held !== lut) writeWords(new Int32Array(machine.buffer, 0, TABLE_BYTES / 4), held, lut);
  held = lut;
  // No band is wider than what it is made of.
  for (let left = crop.left; left < crop.right; left += BAND_PIXELS) {
    const right = Math.min(left + BAND_PIXELS, crop.right);
    const high = Math.floor(BAND_PIXELS / (right - left));
    for (let top = crop.top; top < crop.bottom; top += high) {
      const bottom = Math.min(top + high, crop.bottom);
      const picture = develop(level, { left, top, right, bottom });
      context.putImageData(picture, x + left - crop.left, y + top - crop.top);
    }
  }
}

/** @returns What is valid until the next call. */
function develop(level: PixelLevel, crop: Crop): ImageData {
  const { stored, picture } = bandOf(crop.right - crop.left, crop.bottom - crop.top);
  if (copied?.pixels.deref() !== level.pixels || !sameCrop(copied.crop, crop)) {
    copyRows(level, crop, stored);
    copied = { pixels: new WeakRef(level.pixels), crop };
  }
  const { byteOffset, byteLength } = stored;
  machine.lookUp(byteOffset, byteOffset + byteLength, picture.data.byteOffset);
  return picture;
}

const sameCrop = (one: Crop, other: Crop): boolean =>
  one.left === other.left &&
  one.top === other.top &&
  one.right === other.right &&
  one.bottom === other.bottom;

function copyRows({ pixels, columns }: PixelLevel, crop: Crop, stored: Uint16Array): void {
  const width = crop.right - crop.left;
  for (let row = crop.top; row < crop.bottom; row++) {
    const from = row * columns + crop.left;
    // Negative values become what their 16 bits are without a sign.
    stored.set(pixels.subarray(from, from + width), (row - crop.top) * width);
  }
}

function bandOf(width: number, height: number): NonNullable<typeof band> {
  if (band?.picture.width === width && band.picture.height === height) return band;
  const count = width * height;
  // They are looked up two at a time: an odd one has room for one behind it, both as a value and in the picture.
  const greysAt = TABLE_BYTES + 4 * Math.ceil(count / 2);
  machine.grow(greysAt + 4 * (count + 1));
  band = {
    stored: new Uint16Array(machine.buffer, TABLE_BYTES, count),
    picture: new ImageData(new Uint8ClampedArray(machine.buffer, greysAt, 4 * count), width, height),
  };
  copied = null;
  return band;
}
