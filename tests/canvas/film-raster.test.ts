import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { levelFor, visibleCrop, wholePixelShift } from '../../src/canvas/film-raster.ts';
import type { Projection } from '../../src/drawing/projection.ts';

describe('the level drawn from', () => {
  test.each([
    { scale: 3, level: 0 },
    { scale: 1, level: 0 },
    { scale: 0.51, level: 0 },
    // Exactly one half: each pixel of the first level is one device pixel.
    { scale: 0.5, level: 1 },
    { scale: 0.3, level: 1 },
    { scale: 0.25, level: 2 },
    { scale: 0.225, level: 2 },
    // Coarser than the pyramid goes: its last level.
    { scale: 0.01, level: 3 },
  ])('at $scale device pixels per column is $level', ({ scale, level }) => {
    expect(levelFor(4, scale, scale)).toBe(level);
  });

  test('keeps the direction sharp that is drawn larger', () => {
    expect(levelFor(4, 0.25, 1)).toBe(0);
    expect(levelFor(4, 1, 0.25)).toBe(0);
  });

  test('never has less than one pixel per device pixel, nor half of what it could', () => {
    fc.assert(
      fc.property(fc.double({ min: 2 ** -9, max: 8, noNaN: true }), (scale) => {
        const pixelsPerDevicePixel = 1 / (scale * 2 ** levelFor(12, scale, scale));
        if (scale <= 1) {
          expect(pixelsPerDevicePixel).toBeGreaterThan(1 - 1e-6);
          expect(pixelsPerDevicePixel).toBeLessThan(2);
        } else {
          expect(levelFor(12, scale, scale)).toBe(0);
        }
      }),
    );
  });
});

describe('the visible part', () => {
  const level = { columns: 1000, rows: 800, pixels: new Uint16Array(0) };
  const at = (scale: number, e: number, f: number): Projection => ({ a: scale, b: 0, c: 0, d: scale, e, f });

  test('is what the canvas covers, in whole pixels', () => {
    // 200 × 100 device pixels at 2 per column, from (50.5, 20.25) on: columns to 150.5, rows to 70.25.
    expect(visibleCrop(level, 1, at(2, -101, -40.5), 200, 100, 0)).toEqual({
      left: 50,
      top: 20,
      right: 151,
      bottom: 71,
    });
  });

  test('is counted in pixels of its level', () => {
    // 800 × 400 at half a device pixel per column: 1600 × 800 film pixels, 400 × 200 of the second level.
    expect(visibleCrop(level, 4, at(0.5, 0, 0), 800, 400, 0)).toEqual({
      left: 0,
      top: 0,
      right: 400,
      bottom: 200,
    });
  });

  test('has a margin, and ends where the film ends', () => {
    expect(visibleCrop(level, 1, at(1, 0, -700), 200, 200, 48)).toEqual({
      left: 0,
      top: 652,
      right: 248,
      bottom: 800,
    });
  });

  test('of a turned view holds every corner of the canvas', () => {
    // A quarter turn clockwise: x = −row + 300, y = column − 100. The corners are columns 100…200, rows 100…300.
    const quarter: Projection = { a: 0, b: 1, c: -1, d: 0, e: 300, f: -100 };
    expect(visibleCrop(level, 1, quarter, 200, 100, 0)).toEqual({
      left: 100,
      top: 100,
      right: 200,
      bottom: 300,
    });
  });

  test('of a film out of sight is empty', () => {
    const { left, right } = visibleCrop(level, 1, at(1, -2000, 0), 200, 200, 1);
    expect(right).toBeLessThanOrEqual(left);
  });
});

describe('the shift of a film that lies pixel on pixel', () => {
  test('is found where nothing turns, scales, mirrors or shifts by a part of a pixel', () => {
    expect(wholePixelShift({ a: 1, b: 0, c: 0, d: 1, e: -900, f: 12 })).toEqual({ x: -900, y: 12 });
    expect(wholePixelShift({ a: 1 + 1e-12, b: 0, c: 1e-13, d: 1, e: -899.9999999999, f: 0 })).toEqual({
      x: -900,
      y: 0,
    });
  });

  test.each([
    { a: 1.01, b: 0, c: 0, d: 1, e: 0, f: 0 },
    { a: -1, b: 0, c: 0, d: 1, e: 0, f: 0 },
    { a: 0, b: 1, c: -1, d: 0, e: 0, f: 0 },
    { a: 1, b: 0, c: 0, d: 1, e: 0.25, f: 0 },
    { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0.5 },
  ])('is none for %j', (projection) => {
    expect(wholePixelShift(projection)).toBeNull();
  });
});
