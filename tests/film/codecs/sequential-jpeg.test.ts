import { describe, expect, it } from 'vitest';
import { BrokenStream } from '../../../src/film/codecs/huffman.ts';
import { inverseDct, ZIGZAG } from '../../../src/film/codecs/inverse-dct.ts';
import { decodeSequentialJpeg } from '../../../src/film/codecs/sequential-jpeg.ts';
import { COLUMNS, greyAt, greyJpeg, ROWS } from '../picture/jpegs.ts';

const segment = (marker: number, ...data: number[]) => [0xff, marker, 0, data.length + 2, ...data];

/**
 * A picture of two 8 × 8 blocks in flat grey, coded by hand with the shortest tables there can be: the only DC
 * category is 3 (code 0) and the only AC symbol is end of block (code 0). Quantiser 8, so that a DC coefficient
 * of v lifts the block by v (T.81 A.3.3: 8 · v / 8).
 */
function twoBlocks(
  precision: number,
  restartInterval: number,
  coded: readonly number[],
  { quantiser = 8, category = 3, wide = false } = {},
): Uint8Array {
  const lengths = [1, ...new Array(15).fill(0)];
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(
      0xdb,
      wide ? 0x10 : 0,
      ...new Array(64).fill(wide ? [quantiser >> 8, quantiser & 255] : quantiser).flat(),
    ),
    ...segment(0xc4, 0x00, ...lengths, category),
    ...segment(0xc4, 0x10, ...lengths, 0),
    ...segment(0xdd, 0, restartInterval),
    ...segment(0xc1, precision, 0, 8, 0, 16, 1, 1, 0x11, 0),
    ...segment(0xda, 1, 1, 0, 0, 63, 0),
    ...coded,
    ...[0xff, 0xd9],
  ]);
}

const blocks = (jpeg: Uint8Array) => {
  const { values } = decodeSequentialJpeg(jpeg);
  return [values[0], values[15]];
};

describe('sequential DCT decoding (T.81)', () => {
  // 0 101 0: DC category 3, +5, end of block.
  it('adds each DC difference to the block before', () => {
    // 0 101 0 0 101 0, filled with ones: 128 + 5, then + 5 again.
    expect(blocks(twoBlocks(8, 0, [0b01010010, 0b10111111]))).toEqual([133, 138]);
  });

  it('begins again after a restart marker', () => {
    expect(blocks(twoBlocks(8, 1, [0b01010111, 0xff, 0xd0, 0b01010111]))).toEqual([133, 133]);
  });

  it('shifts 12 bits by 2048', () => {
    expect(blocks(twoBlocks(12, 0, [0b01010010, 0b10111111]))).toEqual([2053, 2058]);
  });

  it('reads quantisers of 16 bits (T.81 B.2.4.1, Pq 1)', () => {
    // Quantiser 800, +5: 5 · 800 / 8 = 500 above 2048, then 1000.
    const coded = [0b01010010, 0b10111111];
    expect(blocks(twoBlocks(12, 0, coded, { quantiser: 800, wide: true }))).toEqual([2548, 3048]);
  });

  it('extends a negative difference: 010 of category 3 is −5', () => {
    // T.81 table F.1: category 3 holds −7…−4 as 000…011 and 4…7 as 100…111.
    expect(blocks(twoBlocks(12, 1, [0b00100111, 0xff, 0xd0, 0b01010111]))).toEqual([2043, 2053]);
  });

  it('takes the zero stuffed after FF for no data', () => {
    // Category 11, eleven ones, +2047, twice: 0 11111111111 0 0 11111111111 0 is 7F F3 FF BF with ones to fill.
    // Quantiser 1: 2047 / 8 = 255.875 and 4094 / 8 = 511.75, rounded, above 2048.
    const coded = [0x7f, 0xf3, 0xff, 0x00, 0xbf];
    expect(blocks(twoBlocks(12, 0, coded, { quantiser: 1, category: 11 }))).toEqual([2304, 2560]);
  });

  it('agrees with libjpeg-turbo on a picture of 8 bits', () => {
    // Pillow decodes this file to the very greys that were written.
    const { values, columns, rows } = decodeSequentialJpeg(greyJpeg());
    expect([columns, rows]).toEqual([COLUMNS, ROWS]);
    values.forEach((value, i) => {
      expect(Math.abs(value - greyAt(i % COLUMNS, Math.floor(i / COLUMNS)))).toBeLessThanOrEqual(1);
    });
  });

  it.each([
    ['stops early', twoBlocks(8, 0, [0b01010010]).subarray(0, -2), /stops in the middle/],
    ['runs into a marker', twoBlocks(8, 0, [0b01010010]), /a marker stands in the middle/],
    ['lacks a restart marker', twoBlocks(8, 1, [0b01010111, 0b01010111]), /restart marker is missing/],
    ['holds an unknown code', twoBlocks(8, 0, [0b11111110, 0b11111110, 0b11111110]), /in no table/],
    ['ends before its scan', twoBlocks(8, 0, []).subarray(0, 80), /stops before its picture/],
  ])('refuses a stream that %s', (_, jpeg, message) => {
    expect(() => decodeSequentialJpeg(jpeg)).toThrow(BrokenStream);
    expect(() => decodeSequentialJpeg(jpeg)).toThrow(message);
  });
});

describe('inverse DCT', () => {
  it('is the inverse of the forward transform as T.81 A.3.3 writes it', () => {
    const samples = Float64Array.from({ length: 64 }, (_, i) => ((i * 37) % 256) - 128);
    const scale = (u: number) => (u === 0 ? Math.SQRT1_2 : 1);
    const forward = Float64Array.from({ length: 64 }, (_, k) => {
      const [v, u] = [k >> 3, k & 7];
      let sum = 0;
      for (let y = 0; y < 8; y++) {
        for (let x = 0; x < 8; x++) {
          const across = Math.cos(((2 * x + 1) * u * Math.PI) / 16);
          const down = Math.cos(((2 * y + 1) * v * Math.PI) / 16);
          sum += samples[8 * y + x]! * across * down;
        }
      }
      return 0.25 * scale(u) * scale(v) * sum;
    });
    const back = new Float64Array(64);
    inverseDct(forward, back);
    back.forEach((value, i) => {
      expect(value).toBeCloseTo(samples[i]!, 9);
    });
  });

  it('has each place once in the zig-zag order, which walks the diagonals', () => {
    expect(new Set(ZIGZAG).size).toBe(64);
    // T.81 figure 5: neighbours lie on the same diagonal, or on the next.
    const diagonal = Array.from(ZIGZAG, (place) => (place >> 3) + (place & 7));
    expect(diagonal).toEqual([...diagonal].sort((a, b) => a - b));
  });
});
