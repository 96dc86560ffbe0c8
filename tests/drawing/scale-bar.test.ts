import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { paintScaleBar, roundLength } from '../../src/drawing/scale-bar.ts';
import { READING } from '../../src/drawing/strokes.ts';

// The 1-2-5 series of preferred round lengths: common practice for scale bars, no source.
test.each([
  // 140 pixels at 10 per mm: 14 mm would fit; 10 is the longest round length below.
  { pixelsPerMm: 10, lengthMm: 10, pixels: 100 },
  // 28 mm would fit.
  { pixelsPerMm: 5, lengthMm: 20, pixels: 100 },
  // 50.9 mm would fit.
  { pixelsPerMm: 2.75, lengthMm: 50, pixels: 137.5 },
  // 1.4 mm would fit.
  { pixelsPerMm: 100, lengthMm: 1, pixels: 100 },
  // 0.7 mm would fit.
  { pixelsPerMm: 200, lengthMm: 0.5, pixels: 100 },
])('at $pixelsPerMm pixels per millimetre the bar is $lengthMm mm', ({ pixelsPerMm, lengthMm, pixels }) => {
  const bar = roundLength(pixelsPerMm, 140);
  expect(bar.lengthMm).toBeCloseTo(lengthMm, 12);
  expect(bar.pixels).toBeCloseTo(pixels, 9);
});

test('the bar is never longer than asked for, and never shorter than two fifths of it', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1e-3, max: 1e3, noNaN: true }),
      fc.double({ min: 20, max: 400, noNaN: true }),
      (pixelsPerMm, longest) => {
        const { pixels } = roundLength(pixelsPerMm, longest);
        expect(pixels).toBeLessThanOrEqual(longest * (1 + 1e-12));
        // The widest step of 1-2-5 is from 2 to 5.
        expect(pixels).toBeGreaterThanOrEqual(longest * 0.4 * (1 - 1e-12));
      },
    ),
  );
});

test('the bar is as long as it is asked to be beside other films', () => {
  const commands = paintScaleBar(10, { width: 800, height: 600 }, READING, 5);
  const text = commands.find((command) => command.kind === 'text');
  const [bar] = commands.filter((command) => command.kind === 'line');
  expect(text?.runs.map((run) => run.text)).toEqual(['5\u2009mm']);
  // 5 mm at 10 pixels each.
  expect(bar!.points[1]!.x - bar!.points[0]!.x).toBeCloseTo(50, 10);
});

test('the bar says its length and stands in the bottom left corner', () => {
  const commands = paintScaleBar(10, { width: 800, height: 600 }, READING);
  const text = commands.find((command) => command.kind === 'text');
  const [bar] = commands.filter((command) => command.kind === 'line');
  expect(text?.runs.map((run) => run.text)).toEqual(['10\u2009mm']);
  expect(bar!.points[1]!.x - bar!.points[0]!.x).toBeCloseTo(100, 10);
  expect(bar!.points[0]!.x).toBeLessThan(100);
  expect(bar!.points[0]!.y).toBeGreaterThan(500);
});
