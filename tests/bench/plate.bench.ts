/**
 * Frames of the plate with a film of 12 megapixels, against what cornerstone's own renderer takes for a change of
 * brightness of the film alone; milliseconds by the clock, every canvas read back.
 */
import { builtPage } from './harness/built-app.ts';
import { tell } from './harness/lines.ts';
import type { TimedPlate } from './pages/plate.ts';

declare global {
  interface Window {
    readonly timedPlate: TimedPlate;
  }
}

const { page, url, close } = await builtPage('plate');
await page.setViewportSize({ width: 1200, height: 900 });
await page.goto(url);
await page.waitForFunction(() => 'timedPlate' in window);

const middleOf = (times: readonly number[]) =>
  times.toSorted((one, other) => one - other)[Math.floor(times.length / 2)]!;

const ZOOMS = [
  { zoom: 'fit', words: 'the whole film', goal: 0.13 },
  { zoom: 'one-to-one', words: 'one pixel to one', goal: 0.1 },
  { zoom: 'between-pixels', words: 'one pixel to one, moved by a part of a pixel', goal: 0.1 },
] as const;
let yardstick = 0;
for (const { zoom, words, goal } of ZOOMS) {
  const { ours, theirs } = await page.evaluate((which) => window.timedPlate.brightness(which), zoom);
  const baseline = Math.min(...theirs);
  if (zoom === 'fit') yardstick = baseline;
  tell({
    name: `brightness of 12 megapixels, ${words}`,
    value: Math.min(...ours),
    baseline,
    against: 'cornerstone-core, the film alone',
    goal,
  });
}

const against = 'cornerstone-core, brightness of the whole film alone';
tell({
  name: '12 megapixels moved with 50 marks, a frame',
  value: middleOf(await page.evaluate(() => window.timedPlate.moved())),
  baseline: yardstick,
  against,
});

const MOVES = 60;
const at = await page.evaluate(() => window.timedPlate.standMarks());
await page.mouse.move(at.x, at.y);
await page.mouse.down();
for (let step = 1; step <= MOVES; step += 1) await page.mouse.move(at.x + step, at.y + step / 2);
await page.mouse.up();
const drags = await page.evaluate(() => window.timedPlate.drags);
// Moves may share a frame, but with few of them the pointer held something else than a point.
if (drags.length < MOVES / 4) throw new Error(`Only ${drags.length} of ${MOVES} moves moved a point.`);
tell({
  name: 'a point dragged over 12 megapixels with 50 marks, a frame',
  value: middleOf(drags),
  baseline: yardstick,
  against,
});
await close();
