import { describe, expect, it } from 'vitest';
import { BrokenStream } from '../../../src/film/codecs/huffman.ts';
import { decodeLosslessJpeg } from '../../../src/film/codecs/lossless-jpeg.ts';
import { expectDcmtk, itWithDcmtk, throughDcmtk } from '../dcmtk.ts';
import { dicomFile, type FilmOptions, filmElements } from '../dicom-file.ts';
import { openFilm, storedValues } from '../open.ts';

const segment = (marker: number, ...data: number[]) => [0xff, marker, 0, data.length + 2, ...data];

/**
 * Grey, 3 × 2, coded by hand with two codes: 0 for category 0 and 10 for category 2, which holds −3, −2, 2 and 3 as
 * 00, 01, 10 and 11 (T.81 table F.1).
 */
function sixValues(coded: readonly number[], { predictor = 1, pointTransform = 0, restart = 0 } = {}) {
  return Uint8Array.from([
    ...[0xff, 0xd8],
    ...segment(0xc3, 8, 0, 2, 0, 3, 1, 1, 0x11, 0),
    ...segment(0xc4, 0x00, 1, 1, ...new Array(14).fill(0), 0, 2),
    ...segment(0xdd, 0, restart),
    ...segment(0xda, 1, 1, 0, predictor, 0, pointTransform),
    ...coded,
    ...[0xff, 0xd9],
  ]);
}
const values = (jpeg: Uint8Array) => [...decodeLosslessJpeg(jpeg).values];

describe('lossless JPEG (T.81 annex H)', () => {
  // +2, 0, −3 and −2, 0, +3: 1010 0 1000 | 1001 0 1011, filled with ones.
  const rows = [0b10100100, 0b01001010, 0b11111111, 0x00];

  it('predicts the first row from the left and begins at half the range, the next below the first value', () => {
    // H.1.2.1: 2^(8−0−1) = 128.
    expect(values(sixValues(rows))).toEqual([130, 130, 127, 128, 128, 131]);
  });

  it.each([
    [2, [130, 130, 127, 128, 130, 130]],
    [3, [130, 130, 127, 128, 130, 133]],
    [4, [130, 130, 127, 128, 128, 128]],
    [5, [130, 130, 127, 128, 128, 129]],
    [6, [130, 130, 127, 128, 129, 129]],
    [7, [130, 130, 127, 128, 129, 131]],
  ])('predictor %i, worked by hand from table H.1', (predictor, expected) => {
    expect(values(sixValues(rows, { predictor }))).toEqual(expected);
  });

  it('moves values up by the point transform, which also lowers the beginning', () => {
    // 2^(8−2−1) = 32; every value four times.
    expect(values(sixValues(rows, { pointTransform: 2 }))).toEqual([136, 136, 124, 128, 128, 140]);
  });

  it('begins again after a restart marker', () => {
    const coded = [0b10100100, 0b01111111, 0xff, 0xd0, 0b10010101, 0b11111111, 0x00];
    expect(values(sixValues(coded, { restart: 3 }))).toEqual([130, 130, 127, 126, 126, 129]);
  });

  it.each([
    ['stops early', sixValues(rows.slice(0, 1)).subarray(0, -2), /stops in the middle/],
    ['runs into a marker', sixValues(rows.slice(0, 1)), /a marker stands in the middle/],
    ['holds an unknown code', sixValues([0b11000000, 0]), /in no table/],
    ['names no predictor', sixValues(rows, { predictor: 0 }), /no predictor/],
    ['begins anew within a row', sixValues(rows, { restart: 2 }), /within a row/],
    ['lacks a restart marker', sixValues(rows, { restart: 3 }), /restart marker is missing/],
    ['ends before its scan', sixValues([]).subarray(0, 30), /stops before its picture/],
  ])('refuses a stream that %s', (_, jpeg, message) => {
    expect(() => decodeLosslessJpeg(jpeg)).toThrow(BrokenStream);
    expect(() => decodeLosslessJpeg(jpeg)).toThrow(message);
  });
});

const ROWS = 37;
const COLUMNS = 53;
const film = (bits: number, options: FilmOptions = {}): FilmOptions => ({
  rows: ROWS,
  columns: COLUMNS,
  bitsAllocated: bits > 8 ? 16 : 8,
  bitsStored: bits,
  highBit: bits - 1,
  // Slopes, grain, and jumps from end to end of the range.
  samples: Array.from({ length: (options.samplesPerPixel ?? 1) * ROWS * COLUMNS }, (_, i) =>
    i % 97 === 0 ? 2 ** bits - 1 : Math.floor((2 ** bits - 1) * (0.5 + 0.4 * Math.sin(i / 91))) ^ (i % 3),
  ),
  ...options,
});
const throughLossless = (options: FilmOptions, ...more: string[]) =>
  openFilm(throughDcmtk('dcmcjpeg', ['+el', ...more], dicomFile(filmElements(options))));

describe('lossless JPEG as dcmtk writes it', () => {
  itWithDcmtk.each(
    [1, 2, 3, 4, 5, 6, 7].flatMap((predictor) => [8, 12, 16].map((bits) => [predictor, bits] as const)),
  )('dcmtk, predictor %i, %i bits: every value', async (predictor, bits) => {
    expectDcmtk();
    const options = film(bits);
    const read = await throughLossless(options, '+sv', String(predictor));
    expect(storedValues(read)).toEqual(options.samples);
  });

  itWithDcmtk('dcmtk, point transform 3: every value but its last three bits', async () => {
    expectDcmtk();
    const options = film(12);
    const read = await throughLossless(options, '+sv', '1', '+pt', '3');
    expect(storedValues(read)).toEqual(options.samples!.map((value) => (value >> 3) << 3));
  });

  itWithDcmtk.each([8, 16])('dcmtk, colour of %i bits: the greys of the uncompressed film', async (bits) => {
    expectDcmtk();
    const options = film(bits, {
      photometric: 'RGB',
      samplesPerPixel: 3,
      extra: [{ tag: '0028,0006', vr: 'US', value: [0] }],
    });
    const native = await openFilm(dicomFile(filmElements(options)));
    const read = await throughLossless(options);
    expect(storedValues(read)).toEqual(storedValues(native));
  });
});
