import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { insetPlace, insetProjection } from '../../src/canvas/inset-place.ts';
import { type Projection, pixelsPerColumn, toScreen } from '../../src/drawing/projection.ts';
import { filmPoint, screenPoint } from '../../src/geometry/units.ts';

const plate = { width: 800, height: 600 };

describe('the inset', () => {
  test.each([
    { x: 100, y: 500, corner: 'top-right' },
    { x: 700, y: 500, corner: 'top-left' },
    { x: 100, y: 100, corner: 'bottom-right' },
    { x: 700, y: 100, corner: 'bottom-left' },
  ])('stands in the $corner corner for ($x, $y)', ({ x, y, corner }) => {
    expect(insetPlace(null, screenPoint(x, y), plate).corner).toBe(corner);
  });

  test('stays in its corner until the point comes near', () => {
    // (390, 310) is nearer to the top right than to the bottom right, and far from both.
    expect(insetPlace('top-right', screenPoint(390, 290), plate).corner).toBe('top-right');
    expect(insetPlace('top-right', screenPoint(660, 120), plate).corner).toBe('bottom-left');
  });

  test('never covers the point, lies on the plate, and leaves most of a small one free', () => {
    const side = fc.integer({ min: 200, max: 2000 });
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    const corner = fc.constantFrom(null, 'top-left', 'top-right', 'bottom-left', 'bottom-right');
    fc.assert(
      fc.property(side, side, share, share, corner, (width, height, across, down, previous) => {
        const point = screenPoint(width * across, height * down);
        const { centre, radius } = insetPlace(previous, point, { width, height });
        expect(Math.hypot(centre.x - point.x, centre.y - point.y)).toBeGreaterThan(radius);
        expect(radius).toBeLessThanOrEqual(0.225 * Math.min(width, height));
        expect(Math.min(centre.x, centre.y)).toBeGreaterThan(radius);
        expect(width - centre.x).toBeGreaterThan(radius);
        expect(height - centre.y).toBeGreaterThan(radius);
      }),
    );
  });
});

describe('its magnification', () => {
  const at = (scale: number): Projection => ({ a: scale, b: 0, c: 0, d: scale, e: 7, f: -9 });

  test.each([
    { plateScale: 1, insetScale: 3 },
    // Three times a small film would still be a small film: one pixel per column at least.
    { plateScale: 0.2, insetScale: 1 },
    { plateScale: 4, insetScale: 8 },
    // Never smaller than the plate itself.
    { plateScale: 20, insetScale: 20 },
  ])('at $plateScale on the plate is $insetScale', ({ plateScale, insetScale }) => {
    const projection = insetProjection(at(plateScale), filmPoint(123, 45), 85);
    expect(pixelsPerColumn(projection)).toBeCloseTo(insetScale, 12);
    const middle = toScreen(projection, filmPoint(123, 45));
    expect(middle.x).toBeCloseTo(85, 9);
    expect(middle.y).toBeCloseTo(85, 9);
  });
});
