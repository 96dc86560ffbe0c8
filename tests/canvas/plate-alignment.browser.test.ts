import * as fc from 'fast-check';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import type { Film } from '../../src/film/film.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { madeFilm, ratioOnly } from './made-film.ts';
import { filmCanvas, markCanvases, middleOf } from './pixels.ts';
import { drawn, mark, sceneOf, standPlate } from './plate-stand.ts';
import { mouseDrag, resetScreen, setScreen, wheel } from './real-input.ts';

/**
 * The film and the marks are drawn on different canvases by different libraries. Here both are read back: a
 * film that is black but for one bright spot, and a mark placed on the middle of that spot, whose ring must
 * then lie around it on screen. The checks know nothing of the transforms.
 */

const WIDTH = 640;
const HEIGHT = 480;
/** Their spacing states no millimetres, so that no scale bar is drawn: the ring is all there is in white. */
const SQUARE = ratioOnly(1);

/** A bright square of 8 × 8 pixels round (508, 404); 8 divides its edges, so that every level keeps it. */
const MIDDLE = filmPoint(508, 404);
const squareFilm = (spacing: Spacing): Film =>
  madeFilm(
    1000,
    800,
    (column, row) =>
      Math.abs(column + 0.5 - MIDDLE.column) < 4 && Math.abs(row + 0.5 - MIDDLE.row) < 4 ? 4095 : 0,
    spacing,
  );

/** One bright pixel; its centre is at + 0.5 (units.ts). */
const PIXEL = filmPoint(333.5, 291.5);
const pixelFilm = (spacing: Spacing): Film =>
  madeFilm(
    1000,
    800,
    (column, row) => (column + 0.5 === PIXEL.column && row + 0.5 === PIXEL.row ? 4095 : 0),
    spacing,
  );

let stand: ReturnType<typeof standPlate> | null = null;

function show(film: Film, at = MIDDLE): ReturnType<typeof standPlate> {
  stand?.remove();
  stand = standPlate(WIDTH, HEIGHT);
  stand.plate.setFilm(film, 'spot');
  stand.plate.setMarks(sceneOf(mark('fracture-level', { construction: 'point', at })));
  return stand;
}

/** CSS pixels of the plate: the middle of the bright spot, of the ring drawn for the mark, of its button. */
function seen({ host }: ReturnType<typeof standPlate>) {
  const film = filmCanvas(host);
  const { resting } = markCanvases(host);
  const spot = middleOf(film, ({ red }) => (red > 8 ? red : 0));
  const ring = middleOf(resting, ({ red, alpha }) => (red > 200 && alpha > 100 ? alpha : 0));
  const box = host.querySelectorAll('button')[1]!.getBoundingClientRect();
  const plate = host.getBoundingClientRect();
  if (spot === null || ring === null) throw new Error('The spot or the ring is not in sight.');
  const inCss = ({ x, y }: { x: number; y: number }, canvas: HTMLCanvasElement) => ({
    x: (x * plate.width) / canvas.width,
    y: (y * plate.height) / canvas.height,
  });
  return {
    spot: inCss(spot, film),
    ring: inCss(ring, resting),
    button: { x: box.x + box.width / 2 - plate.x, y: box.y + box.height / 2 - plate.y },
  };
}

/**
 * CSS pixels. Chromium's own software drawing reads between the pixels of a picture in steps of 1/16 of a
 * pixel, and rounds down; drawing one white pixel into an empty canvas shows it. 1/16 of a pixel of the film
 * is 0.01 mm at most.
 */
const within = (magnification: number): number => 0.5 + magnification / 16;

const distance = (one: { x: number; y: number }, other: { x: number; y: number }) =>
  Math.hypot(one.x - other.x, one.y - other.y);

beforeAll(async () => {
  await page.viewport(WIDTH, HEIGHT);
});
afterEach(() => {
  stand?.remove();
  stand = null;
});
afterAll(resetScreen);

describe.each([1, 2])('at %d device pixels per CSS pixel', (ratio) => {
  beforeAll(async () => {
    await setScreen(WIDTH, HEIGHT, ratio);
  });

  test('the film is drawn in the device’s own pixels', () => {
    const { host } = show(squareFilm(SQUARE));
    expect(window.devicePixelRatio).toBe(ratio);
    expect([filmCanvas(host).width, filmCanvas(host).height]).toEqual([WIDTH * ratio, HEIGHT * ratio]);
  });

  test.each([
    { name: 'a bright square', film: squareFilm, at: MIDDLE, least: 0.3 },
    // Drawn smaller than itself, a single pixel may fall between those of the screen.
    { name: 'one bright pixel', film: pixelFilm, at: PIXEL, least: 2 },
  ])('$name and the mark on it fall together in any view', async ({ film, at, least }) => {
    const views = fc.record({
      rowToColumn: fc.constantFrom(1, 0.5, 1.7),
      magnification: fc.double({ min: Math.log(least), max: Math.log(12), noNaN: true }).map(Math.exp),
      turn: fc.double({ min: -360, max: 720, noNaN: true }).map(degrees),
      mirrored: fc.boolean(),
      across: fc.integer({ min: -110, max: 110 }),
      down: fc.integer({ min: -100, max: 100 }),
    });
    await fc.assert(
      fc.asyncProperty(views, async ({ rowToColumn, magnification, turn, mirrored, across, down }) => {
        const shown = show(film(ratioOnly(rowToColumn)), at);
        // The spot comes into the middle of the plate, and the mouse moves it from there.
        shown.plate.setView({ centre: at, magnification, turn, mirrored });
        await mouseDrag([WIDTH / 2, HEIGHT / 2 + 30], [WIDTH / 2 + across, HEIGHT / 2 + 30 + down]);
        await drawn();
        const { spot, ring, button } = seen(shown);
        const where = { x: WIDTH / 2 + across, y: HEIGHT / 2 + down };
        expect(distance(spot, where)).toBeLessThan(within(magnification));
        expect(distance(ring, where)).toBeLessThan(0.4);
        expect(distance(button, where)).toBeLessThan(1e-6);
      }),
      { numRuns: 20, seed: 20261125 },
    );
  });

  test.each([0.5, 1, 1.7])('a pixel %d times as high as wide is drawn so', async (rowToColumn) => {
    const shown = show(squareFilm(ratioOnly(rowToColumn)));
    shown.plate.setView({ centre: MIDDLE, magnification: 10, turn: degrees(0), mirrored: false });
    await drawn();
    const spot = middleOf(filmCanvas(shown.host), ({ red }) => (red > 127 ? 1 : 0));
    // 8 pixels of the film; half-bright where its edge is, so that the blur of magnifying does not count.
    expect(Math.abs(spot!.width / ratio - 80)).toBeLessThan(2);
    expect(Math.abs(spot!.height / ratio - 80 * rowToColumn)).toBeLessThan(2);
  });

  test('shown one pixel to one it lies on whole pixels of the screen, and its mark with it', async () => {
    const shown = show(pixelFilm(SQUARE), PIXEL);
    const centre = filmPoint(PIXEL.column + 20.3, PIXEL.row - 10.4);
    shown.plate.setView({ centre, magnification: 1 / ratio, turn: degrees(0), mirrored: false });
    await drawn();
    const white = middleOf(filmCanvas(shown.host), ({ red }) => red);
    // One pixel of the film is one of the screen, and its neighbours stay black.
    expect([white!.width, white!.height]).toEqual([1, 1]);
    const { spot, ring, button } = seen(shown);
    expect(distance(ring, spot)).toBeLessThan(0.4);
    expect(distance(button, spot)).toBeLessThan(1e-6);
    // By less than half a pixel of the screen each way.
    const asked = { x: WIDTH / 2 - 20.3 / ratio, y: HEIGHT / 2 + 10.4 / ratio };
    expect(distance(spot, asked)).toBeLessThan(0.71 / ratio);
  });

  test('the film moves as far as the mouse', async () => {
    const shown = show(squareFilm(SQUARE));
    shown.plate.setView({
      ...shown.plate.currentView,
      magnification: 1.3,
      turn: degrees(33),
      mirrored: true,
    });
    await drawn();
    const before = seen(shown);
    await mouseDrag([100, 100], [130, 90], [167, 141]);
    await drawn();
    const after = seen(shown);
    expect(after.spot.x - before.spot.x).toBeCloseTo(67, 0);
    expect(after.spot.y - before.spot.y).toBeCloseTo(41, 0);
    expect(distance(after.spot, after.ring)).toBeLessThan(within(2));
  });

  test('the wheel magnifies about the pointer', async () => {
    const shown = show(squareFilm(SQUARE));
    shown.plate.setView({ ...shown.plate.currentView, magnification: 0.8, turn: degrees(-20) });
    await drawn();
    const { spot } = seen(shown);
    const { magnification } = shown.plate.currentView;
    await wheel(spot.x, spot.y, -300);
    await drawn();
    const after = seen(shown);
    expect(shown.plate.currentView.magnification).toBeGreaterThan(1.15 * magnification);
    // The pointer stands on a whole pixel, the spot need not.
    expect(distance(after.spot, spot)).toBeLessThan(1);
    expect(distance(after.spot, after.ring)).toBeLessThan(within(2));
  });

  test('film and mark stay together when the plate changes its size', async () => {
    const shown = show(squareFilm(SQUARE));
    shown.plate.setView({ ...shown.plate.currentView, magnification: 1.5, turn: degrees(15) });
    for (const [width, height] of [
      [411, 307],
      [633, 222],
    ] as const) {
      Object.assign(shown.host.style, { width: `${width}px`, height: `${height}px` });
      await drawn();
      expect(filmCanvas(shown.host).width).toBe(width * ratio);
      const { spot, ring } = seen(shown);
      expect(distance(spot, ring)).toBeLessThan(within(2));
    }
  });

  test('the whole film stays whole when the plate changes its size', async () => {
    const shown = show(squareFilm(SQUARE));
    Object.assign(shown.host.style, { width: '500px', height: '250px' });
    await drawn();
    // 800 rows in 250 pixels; the 1000 columns would fit at 0.5.
    expect(shown.plate.currentView.magnification).toBeCloseTo(250 / 800, 10);
    expect(shown.told.onView.at(-1)).toEqual([shown.plate.currentView, true]);
  });
});

test('moving to a screen with other device pixels keeps film and mark sharp and together', async () => {
  await setScreen(WIDTH, HEIGHT, 1);
  const shown = show(squareFilm(SQUARE));
  shown.plate.setView({ ...shown.plate.currentView, magnification: 1.2, turn: degrees(40) });
  await drawn();
  const before = seen(shown);
  await setScreen(WIDTH, HEIGHT, 2);
  await expect.poll(() => filmCanvas(shown.host).width).toBe(2 * WIDTH);
  await drawn();
  const after = seen(shown);
  expect(distance(after.spot, after.ring)).toBeLessThan(within(2));
  expect(distance(after.spot, before.spot)).toBeLessThan(within(2));
});
