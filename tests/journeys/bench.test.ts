import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { closeBrowser, type Visit, visit } from './browser.ts';

/** Truth of the invented film the app starts with: made with it, never measured by the app. */
interface Truth {
  readonly columns: number;
  readonly rows: number;
  readonly rays: readonly {
    readonly ray: string;
    readonly headCentre: Spot;
    readonly headRadiusPixels: number;
    readonly projectedAngleDegrees: number;
    readonly proximalAxis: { readonly from: Spot; readonly to: Spot };
    readonly dorsal: { readonly columns: number; readonly rows: number };
  }[];
  readonly fractures: readonly { readonly distalBrokenEnd: Spot }[];
}
interface Spot {
  readonly column: number;
  readonly row: number;
}

const truth = JSON.parse(readFileSync('sample-images/small-neck-lateral.truth.json', 'utf8')) as Truth;
const ray = truth.rays.find((candidate) => candidate.ray === 'small')!;
const brokenEnd = truth.fractures[0]!.distalBrokenEnd;
const onRim = (turnDegrees: number): Spot => {
  const turn = (turnDegrees * Math.PI) / 180;
  return {
    column: ray.headCentre.column + ray.headRadiusPixels * Math.cos(turn),
    row: ray.headCentre.row + ray.headRadiusPixels * Math.sin(turn),
  };
};

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

/** Where a film point is on the page while the whole film is shown: fitted and centred in the plate. */
async function screenOf(page: Page, spot: Spot): Promise<{ x: number; y: number }> {
  const plate = (await page.locator('.plate__host').boundingBox())!;
  const scale = Math.min(plate.width / truth.columns, plate.height / truth.rows);
  return {
    x: plate.x + plate.width / 2 + (spot.column - truth.columns / 2) * scale,
    y: plate.y + plate.height / 2 + (spot.row - truth.rows / 2) * scale,
  };
}

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
    const click = async (spot: Spot) => {
      const { x, y } = await screenOf(page, spot);
      await page.mouse.click(x, y);
    };
    await page.getByRole('button', { name: 'How the proximal axis is drawn' }).click();
    await page.getByRole('option', { name: 'free line' }).click();
    await page.getByRole('button', { name: 'Place proximal axis' }).click();
    await click(ray.proximalAxis.from);
    await click(ray.proximalAxis.to);
    await page.getByRole('button', { name: 'Place distal axis' }).click();
    for (const turn of [250, 340, 70]) await click(onRim(turn));
    await click(brokenEnd);
    await page.getByRole('button', { name: 'Place dorsal side' }).click();
    await click({
      column: ray.headCentre.column + 120 * ray.dorsal.columns,
      row: ray.headCentre.row + 120 * ray.dorsal.rows,
    });

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
    for (const turn of [250, 340, 70]) await placeAt(onRim(turn));
    await placeAt(brokenEnd);
    within(await angulation(page));
  });
});

async function press(page: Page, forwards: string, back: string, by: number): Promise<void> {
  const key = by >= 0 ? forwards : back;
  const steps = Math.abs(Math.round(by));
  for (let i = 0; i < Math.floor(steps / 10); i += 1) await page.keyboard.press(`Shift+${key}`);
  for (let i = 0; i < steps % 10; i += 1) await page.keyboard.press(key);
}
