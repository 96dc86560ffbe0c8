import { expect, test } from 'vitest';
import { writeWords } from '../../src/canvas/grey-pixels.ts';

const BLACK = [0, 0, 0, 255];

/** Red, green, blue, alpha in memory, as ImageData has them (HTML Standard, “Pixel manipulation”). */
const rgbaIn = (table: Int32Array) => (storedBits: number) => [
  ...new Uint8Array(table.buffer, 4 * storedBits, 4),
];

test('a grey becomes an opaque pixel of three equal parts, found by the 16 bits of its stored value', () => {
  const table = new Int32Array(0x10000);
  writeWords(table, null, { firstStored: -2, values: Uint8ClampedArray.of(0, 1, 200, 255) });
  // −2 and −1 in two's complement, then 0 and 1.
  expect([0xfffe, 0xffff, 0, 1].map(rgbaIn(table))).toEqual([
    BLACK,
    [1, 1, 1, 255],
    [200, 200, 200, 255],
    [255, 255, 255, 255],
  ]);
});

test('of the greys before nothing is left: a value that the table does not span is black, never transparent', () => {
  const table = new Int32Array(0x10000);
  const before = { firstStored: -1, values: Uint8ClampedArray.of(90, 91, 92, 93) };
  writeWords(table, null, before);
  writeWords(table, before, { firstStored: 1, values: Uint8ClampedArray.of(7) });
  expect([0xffff, 0, 1, 2].map(rgbaIn(table))).toEqual([BLACK, BLACK, [7, 7, 7, 255], BLACK]);
});
