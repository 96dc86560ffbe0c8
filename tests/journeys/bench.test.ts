import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { brokenEnd, onRim, placeAxes, RIM_TURNS, ray, type Spot, screenOf } from './sample-film.ts';

let current: Visit;

beforeEach(async () => {
  current = await visit();
  await current.page.getByRole('heading', { name: 'Right hand, small finger, neck' }).waitFor();
  await current.page.getByText('Saved on this computer only · 4 films').waitFor();
});

afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});

afterAll(closeBrowser);

/** The angle and the half-width of its interval, as the worksheet shows them. */
async function angulation(page: Page): Promise<{ value: number; plusMinus: number }> {
  const line = page.locator('details[data-quantity="angulation"] summary');
  await line.waitFor();
  const [, value, plusMinus] = /([\d.]+)°\s*±\s*([\d.]+)/.exec((await line.textContent()) ?? '') ?? [];
  return { value: Number(value), plusMinus: Number(plusMinus) };
}

const apexShown = (page: Page) =>
  page.locator('details[data-quantity="angulation"]').getByText('apex dorsal, lateral view');

const within = (found: { value: number; plusMinus: number }) => {
  expect(Math.abs(found.value - ray.projectedAngleDegrees)).toBeLessThanOrEqual(found.plusMinus);
  // A wide enough interval would make the line above empty.
  expect(found.plusMinus).toBeLessThan(15);
};

describe('the bench, by pointer', () => {
  it('reads the angle of the invented film within its interval, and compares it', async () => {
    const { page } = current;
    await placeAxes(page);

    within(await angulation(page));
    await apexShown(page).waitFor();
    await page
      .getByText(/limit of 50–60°/)
      .first()
      .waitFor();

    const before = await angulation(page);
    await page.keyboard.press('Control+z');
    await apexShown(page).waitFor({ state: 'detached' });
    await page.keyboard.press('Control+y');
    await apexShown(page).waitFor();
    expect(await angulation(page)).toEqual(before);

    await page.getByText('Saved on this computer only').waitFor();
    await page.reload();
    await apexShown(page).waitFor();
    expect(await angulation(page)).toEqual(before);
  });
});

describe('the bench, by keyboard alone', () => {
  it('reaches the same reading', async () => {
    const { page } = current;
    /** Moves the cross from the middle of the plate, where it starts, or from the last point. */
    let cross: { x: number; y: number } | null = null;
    const placeAt = async (spot: Spot) => {
      const to = await screenOf(page, spot);
      if (cross === null) {
        const plate = (await page.locator('.plate__host').boundingBox())!;
        cross = { x: plate.x + plate.width / 2, y: plate.y + plate.height / 2 };
        await page.keyboard.press('ArrowRight');
        await page.keyboard.press('ArrowLeft');
      }
      await press(page, 'ArrowRight', 'ArrowLeft', to.x - cross.x);
      await press(page, 'ArrowDown', 'ArrowUp', to.y - cross.y);
      await page.keyboard.press('Enter');
      cross = { x: cross.x + Math.round(to.x - cross.x), y: cross.y + Math.round(to.y - cross.y) };
    };
    const begin = async (name: string) => {
      cross = null;
      await page.getByRole('button', { name }).focus();
      await page.keyboard.press('Enter');
    };
    await page.getByRole('button', { name: 'How the proximal axis is drawn' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('End');
    await page.keyboard.press('Enter');
    await page
      .getByRole('button', { name: 'How the proximal axis is drawn', exact: false })
      .getByText('free line')
      .waitFor();
    await begin('Place proximal axis');
    await placeAt(ray.proximalAxis.from);
    await placeAt(ray.proximalAxis.to);
    await begin('Place distal axis');
    for (const turn of RIM_TURNS) await placeAt(onRim(turn));
    await placeAt(brokenEnd);
    within(await angulation(page));
  });
});

describe('the bench, under a finger', () => {
  it('has targets of 44 pixels on the strip, in the form and beside the film', async () => {
    await current.close();
    current = await visit({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });
    const { page } = current;
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    const targets = await page.locator('button, summary, .choice__option').evaluateAll((all) =>
      all
        .map((one) => ({ box: one.getBoundingClientRect(), name: one.ariaLabel ?? one.textContent ?? '' }))
        .filter(({ box }) => box.width > 1 && box.height > 1)
        .map(({ name, box }) => ({ name, width: box.width, height: box.height })),
    );
    expect(targets.filter(({ name }) => /^Film \d beside the one shown$/.test(name))).toHaveLength(3);
    // WCAG 2.2, 2.5.5: at least 44 by 44.
    expect(targets.filter(({ width, height }) => width < 43.5 || height < 43.5)).toEqual([]);
  });

  it('brings the plate into sight to place on it, where the form has been scrolled past it', async () => {
    await current.close();
    current = await visit({ hasTouch: true, isMobile: true, viewport: { width: 390, height: 844 } });
    const { page } = current;
    const place = page.getByRole('button', { name: 'Place proximal axis' });
    await page.locator('.plate__host canvas').first().waitFor();
    await place.evaluate((button) => button.scrollIntoView({ block: 'center' }));
    const edges = () =>
      page.locator('.plate__host').evaluate((plate) => plate.getBoundingClientRect().toJSON() as DOMRect);
    expect((await edges()).top).toBeLessThan(0);
    await place.click();
    await expect.poll(async () => (await edges()).top).toBeGreaterThanOrEqual(0);
    expect((await edges()).bottom).toBeLessThanOrEqual(844);
  });
});

async function press(page: Page, forwards: string, back: string, by: number): Promise<void> {
  const key = by >= 0 ? forwards : back;
  const steps = Math.abs(Math.round(by));
  for (let i = 0; i < Math.floor(steps / 10); i += 1) await page.keyboard.press(`Shift+${key}`);
  for (let i = 0; i < steps % 10; i += 1) await page.keyboard.press(key);
}
