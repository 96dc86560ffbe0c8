import type { Page } from 'playwright';
import { describe, expect, inject, it } from 'vitest';
import { violations } from './axe.ts';
import { visitEach } from './browser.ts';
import { brokenEnd, dorsalSpot, onRim, RIM_TURNS, ray, type Spot, screenOf } from './sample-film.ts';

/** A new user is at the first reading of the sample after so many presses and taps. */
const MOST_ACTIONS = 12;

const current = visitEach({ hints: true });

/** Does things as a pointer does, and counts them. */
function counting(page: Page) {
  let actions = 0;
  return {
    count: () => actions,
    async press(name: string) {
      actions += 1;
      await page.getByRole('button', { name, exact: true }).click();
    },
    async tap(spot: Spot) {
      actions += 1;
      const { x, y } = await screenOf(page, spot);
      await page.mouse.click(x, y);
    },
  };
}

const reading = (page: Page) => page.locator('details[data-quantity="angulation"] summary', { hasText: '±' });
const hint = (page: Page) => page.getByRole('complementary', { name: 'Hint' });

/** Across the axis at a share of the way from one end to the other, by film pixels to one side. */
function beside(share: number, pixels: number): Spot {
  const { from, to } = ray.proximalAxis;
  const [columns, rows] = [to.column - from.column, to.row - from.row];
  const length = Math.hypot(columns, rows);
  return {
    column: from.column + share * columns - (pixels * rows) / length,
    row: from.row + share * rows + (pixels * columns) / length,
  };
}

describe('a first start', () => {
  it('gives the first reading of the sample within 12 actions, by placing what is offered', async () => {
    const { page } = current;
    const by = counting(page);
    await by.press('Place proximal axis');
    for (const share of [0.2, 0.8]) for (const pixels of [-12, 12]) await by.tap(beside(share, pixels));
    await by.press('Place distal axis');
    for (const turn of RIM_TURNS) await by.tap(onRim(turn));
    await by.tap(brokenEnd);
    await by.press('Place dorsal side');
    await by.tap(dorsalSpot);
    await reading(page).waitFor();
    expect(by.count()).toBeLessThanOrEqual(MOST_ACTIONS);
  });

  it('gives it within 12 actions by tracing', async () => {
    const { page } = current;
    const by = counting(page);
    await by.press('Trace both axes');
    const { from, to } = ray.proximalAxis;
    await by.tap(from);
    await by.tap(to);
    await by.tap(brokenEnd);
    const [columns, rows] = [ray.headCentre.column - brokenEnd.column, ray.headCentre.row - brokenEnd.row];
    const onwards = 1 + ray.headRadiusPixels / Math.hypot(columns, rows);
    await by.tap({ column: brokenEnd.column + onwards * columns, row: brokenEnd.row + onwards * rows });
    await by.press('Accept the traced axes');
    await reading(page).waitFor();
    expect(by.count()).toBeLessThanOrEqual(MOST_ACTIONS);
  });

  it('shows one hint at a time, which stops nothing, can be closed, and stays closed', async () => {
    const { page } = current;
    await hint(page).getByText('1 of 4.').waitFor();
    expect(await violations(page)).toEqual([]);
    // It has not taken the keyboard.
    expect(await page.evaluate(() => document.activeElement === document.body)).toBe(true);
    await page.getByRole('button', { name: 'Place proximal axis' }).click();
    await hint(page).getByText('2 of 4.').waitFor();
    await page.getByRole('button', { name: 'Close this hint' }).click();
    await hint(page).waitFor({ state: 'detached' });
    await page.keyboard.press('Escape');
    await hint(page).getByText('1 of 4.').waitFor();
    await page.getByRole('button', { name: 'No more hints' }).click();
    await hint(page).waitFor({ state: 'detached' });
    await page.reload();
    await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
    expect(await hint(page).count()).toBe(0);
  });
});

describe('a browser that asks whether films may be kept', () => {
  it('opens the sample and lets it be measured while nobody answers', async () => {
    const { page } = current;
    await page.context().addInitScript(() => {
      StorageManager.prototype.persist = () => new Promise(() => undefined);
    });
    const other = await page.context().newPage();
    await page.close();
    await other.goto(inject('appUrl'));
    await other.getByRole('button', { name: 'Sample case' }).click();
    await other.getByText('Saved on this computer only · 4 films').waitFor();
    await other.getByRole('button', { name: 'Place proximal axis' }).click();
    await other.locator('.plate__prompt').waitFor();
  });
});

describe('the page of keys', () => {
  it('opens by "?" and by its button, and "?" can be switched off', async () => {
    const { page } = current;
    const sheet = page.getByRole('dialog', { name: 'Keys' });
    await page.getByRole('button', { name: 'Keys', exact: true }).click();
    await sheet.getByText('the whole film').waitFor();
    expect(await violations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });

    await page.keyboard.press('?');
    await sheet.waitFor();
    await sheet.getByRole('button', { name: '“?” opens this page' }).click();
    await sheet.getByRole('button', { name: 'Close' }).click();
    await page.keyboard.press('?');
    expect(await sheet.count()).toBe(0);
  });

  it('has the definitions beside it, which can be searched', async () => {
    const { page } = current;
    await page.getByRole('button', { name: 'Definitions', exact: true }).click();
    await page.getByRole('searchbox', { name: 'Search' }).fill('head circle');
    await page.getByRole('button', { name: 'Axis by the head circle' }).click();
    await page.getByRole('heading', { name: 'Axis by the head circle' }).waitFor();
  });
});
