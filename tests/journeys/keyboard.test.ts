import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { decode } from 'fast-png';
import type { Locator, Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { sharedFilms } from '../shared-films.ts';
import { visitEach } from './browser.ts';
import { ray, type Spot, screenOf, truth } from './sample-film.ts';

const current = visitEach();

/** More stops than the page has. */
const MOST_STOPS = 150;

/** Walks there with the Tab key alone, as somebody without a pointer has to. */
async function tabTo(target: Locator): Promise<void> {
  await target.waitFor({ state: 'attached' });
  for (let stop = 0; stop < MOST_STOPS; stop += 1) {
    if (await target.evaluate((element) => element === document.activeElement)) return;
    await target.page().keyboard.press('Tab');
  }
  expect.fail(`${target} is not reached by the Tab key.`);
}

async function pressOn(target: Locator, key = 'Enter'): Promise<void> {
  await tabTo(target);
  await target.page().keyboard.press(key);
}

/** Brings the cross, which starts in the middle of the plate, to each spot and presses Enter. */
async function placeAt(page: Page, film: Size, spots: readonly Spot[]): Promise<void> {
  const plate = (await page.locator('.plate__host').boundingBox())!;
  let cross = { x: plate.x + plate.width / 2, y: plate.y + plate.height / 2 };
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowLeft');
  for (const spot of spots) {
    const to = await screenOf(page, spot, film);
    const by = { x: Math.round(to.x - cross.x), y: Math.round(to.y - cross.y) };
    await arrows(page, 'ArrowRight', 'ArrowLeft', by.x);
    await arrows(page, 'ArrowDown', 'ArrowUp', by.y);
    await page.keyboard.press('Enter');
    cross = { x: cross.x + by.x, y: cross.y + by.y };
  }
}

async function arrows(page: Page, forwards: string, back: string, by: number): Promise<void> {
  const key = by >= 0 ? forwards : back;
  for (let i = 0; i < Math.floor(Math.abs(by) / 10); i += 1) await page.keyboard.press(`Shift+${key}`);
  for (let i = 0; i < Math.abs(by) % 10; i += 1) await page.keyboard.press(key);
}

interface Size {
  readonly columns: number;
  readonly rows: number;
}

/** A film, where its axes are known to lie, and the angle between them. */
interface Job {
  readonly path: string;
  readonly size: Size;
  readonly proximal: readonly [Spot, Spot];
  readonly distal: readonly [Spot, Spot];
  readonly dorsal: Spot;
  readonly degrees: number;
}

/** Its distal axis runs from the broken end to the centre of the head; both are known from making the film. */
const invented: Job = {
  path: 'sample-images/small-neck-lateral.dcm',
  size: truth,
  proximal: [ray.proximalAxis.from, ray.proximalAxis.to],
  distal: [truth.fractures[0]!.distalBrokenEnd, ray.headCentre],
  dorsal: {
    column: ray.headCentre.column + 120 * ray.dorsal.columns,
    row: ray.headCentre.row + 120 * ray.dorsal.rows,
  },
  degrees: ray.projectedAngleDegrees,
};

/** Square pixels; straight up, then 100 right and 100 up: 45° apart. The ankle on it is of no matter. */
const real = (path: string): Job => ({
  path,
  size: { columns: 200, rows: 256 },
  proximal: [
    { column: 60, row: 230 },
    { column: 60, row: 140 },
  ],
  distal: [
    { column: 60, row: 130 },
    { column: 160, row: 30 },
  ],
  dorsal: { column: 20, row: 130 },
  degrees: 45,
});

async function wholeJob({ path, size, proximal, distal, dorsal, degrees }: Job): Promise<void> {
  const { page } = current;
  const button = (name: string | RegExp) => page.getByRole('button', { name });
  await pressOn(button('New case'));
  await page.getByText('Saved on this computer only · 0 films').waitFor();

  // The side, and the bone on the drawing of the hand: one stop each, and arrow keys within.
  await tabTo(page.getByRole('radiogroup', { name: 'Side' }).getByRole('radio').first());
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowLeft');
  const onDrawing = page.getByRole('radio', { name: 'small finger, neck' });
  await pressOn(onDrawing, 'Space');
  await page.getByRole('heading', { name: /hand, small finger, neck/ }).waitFor();

  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), pressOn(button('Open films'))]);
  await chooser.setFiles({ name: basename(path), mimeType: '', buffer: readFileSync(path) });
  await page.getByText('Saved on this computer only · 1 film').waitFor();
  const view = page.getByRole('radiogroup', { name: 'View' });
  if (!(await view.getByRole('radio', { name: 'Lateral' }).isChecked())) {
    await tabTo(view.getByRole('radio').first());
    await page.keyboard.press('ArrowLeft');
  }
  await expect.poll(() => view.getByRole('radio', { name: 'Lateral' }).isChecked()).toBe(true);

  for (const [axis, points] of [
    ['proximal', proximal],
    ['distal', distal],
  ] as const) {
    await pressOn(button(`How the ${axis} axis is drawn`));
    await page.getByRole('option', { name: 'free line' }).waitFor();
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await pressOn(button(`Place ${axis} axis`));
    await placeAt(page, size, points);
  }
  await pressOn(button('Place dorsal side'));
  await placeAt(page, size, [dorsal]);

  const line = page.locator('details[data-quantity="angulation"] summary');
  await line.getByText('apex dorsal').or(line.getByText('apex volar')).waitFor();
  const [, value, plusMinus] = /([\d.]+)°\s*±\s*([\d.]+)/.exec((await line.textContent()) ?? '') ?? [];
  // A pixel of the screen is the most that the cross can be off.
  expect(Math.abs(Number(value) - degrees)).toBeLessThanOrEqual(Math.min(4, Number(plusMinus)));
  await page.getByText(/limit of 50–60°/).waitFor();
  await pressOn(line, 'Enter');
  await page.getByText('Where the ± comes from').first().waitFor();

  // A point is moved by its own button, and back by Escape.
  const end = button('proximal axis, end 1');
  await tabTo(end);
  const at = (await end.boundingBox())!;
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowDown');
  // The plate is drawn with the next frame.
  await expect.poll(async () => (await end.boundingBox())!.y - at.y).toBeCloseTo(10, 1);
  expect((await end.boundingBox())!.x - at.x).toBeCloseTo(1, 1);
  await page.keyboard.press('Escape');
  await expect.poll(async () => (await end.boundingBox())!.y).toBeCloseTo(at.y, 1);

  await pressOn(button('Snapshot'));
  const sheet = page.getByRole('dialog', { name: 'What leaves this computer' });
  const looked = sheet.getByRole('checkbox', { name: /I looked at the whole picture/ });
  await sheet.getByText(/pixels$/).waitFor();
  if ((await looked.count()) > 0) await pressOn(looked, 'Space');
  const [saved] = await Promise.all([
    page.waitForEvent('download'),
    pressOn(sheet.getByRole('button', { name: 'Save PNG' })),
  ]);
  expect(decode(readFileSync((await saved.path())!)).height).toBeGreaterThanOrEqual(size.rows);
  await page.keyboard.press('Escape');
  await sheet.waitFor({ state: 'detached' });
}

describe('the whole job with the keyboard alone', () => {
  it('on an invented film: its angle is read within its interval, compared and kept as a picture', () =>
    wholeJob(invented));

  const film = sharedFilms('dicom', 'dev_ele.dcm');
  it.skipIf(film === null && process.env.CI !== 'true')(
    'on a real DICOM film, which is no part of this repository',
    () => wholeJob(real(film!)),
  );
});
