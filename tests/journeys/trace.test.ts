import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { type Spot, screenOf } from './sample-film.ts';

/** Truth of the film that is traced: made with it, never measured by the app. */
const truth = JSON.parse(readFileSync('sample-images/ring-shaft-pa.truth.json', 'utf8')) as {
  readonly columns: number;
  readonly rows: number;
  readonly rays: readonly {
    readonly ray: string;
    readonly base: Spot;
    readonly headCentre: Spot;
    readonly headRadiusPixels: number;
    readonly projectedAngleDegrees: number;
    readonly distalAxis: { readonly from: Spot; readonly to: Spot };
  }[];
  readonly fractures: readonly { readonly proximalBrokenEnd: Spot; readonly distalBrokenEnd: Spot }[];
};
const ring = truth.rays.find(({ ray }) => ray === 'ring')!;
const [fracture] = truth.fractures;

/** The tip of the head lies a radius beyond its centre, along the distal axis. */
function tipOfHead(): Spot {
  const { from, to } = ring.distalAxis;
  const length = Math.hypot(to.column - from.column, to.row - from.row);
  const share = ring.headRadiusPixels / length;
  return {
    column: ring.headCentre.column + share * (to.column - from.column),
    row: ring.headCentre.row + share * (to.row - from.row),
  };
}

const TAPS: readonly Spot[] = [
  ring.base,
  fracture!.proximalBrokenEnd,
  fracture!.distalBrokenEnd,
  tipOfHead(),
];

let current: Visit;
let requests: string[];

beforeEach(async () => {
  current = await visit();
  requests = [];
  current.page.on('request', (request) => requests.push(request.url()));
  await current.page.getByText('Saved on this computer only · 4 films').waitFor();
});

afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});

afterAll(closeBrowser);

async function clickFilm(page: Page, spot: Spot): Promise<void> {
  const { x, y } = await screenOf(page, spot, truth);
  await page.mouse.click(x, y);
}

/** A new case of a broken ring finger's shaft, with the sample film of one opened from its file. */
async function openRingShaft(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'New case' }).click();
  await page.getByRole('heading', { name: 'Which bone is broken?' }).waitFor();
  await page.getByText('Right', { exact: true }).click();
  await page.getByRole('radio', { name: 'ring finger, shaft' }).click();
  await page.getByLabel('Film files').setInputFiles('sample-images/ring-shaft-pa.dcm');
  await page.getByText('PA, right hand').waitFor();
}

const traceButton = (page: Page) => page.getByRole('button', { name: 'Trace both axes' });
const traceLine = (page: Page) => page.getByRole('group', { name: 'Trace both axes' });

async function traceByTaps(page: Page): Promise<void> {
  await traceButton(page).click();
  for (const tap of TAPS) await clickFilm(page, tap);
  await page.getByRole('button', { name: 'Accept the traced axes' }).waitFor();
  // What was found is shown large; the next taps are reckoned on the whole film.
  await page.getByRole('button', { name: 'Whole film', exact: true }).click();
}

interface SavedMark {
  readonly kind: string;
  readonly role: string;
  readonly provenance: string;
  readonly shape: { readonly construction: string };
  readonly tracing?: { readonly directionUncertaintyDegrees: number; readonly basis: string };
}

/** The marks of the case as its file has them. */
async function marks(page: Page): Promise<Readonly<Record<string, SavedMark>>> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Marks only' }).click();
  const path = await (await coming).path();
  const file = JSON.parse(await readFile(path, 'utf8')) as {
    readonly case: { readonly records: Readonly<Record<string, SavedMark>> };
  };
  const found = Object.values(file.case.records).filter(({ kind }) => kind === 'mark');
  return Object.fromEntries(found.map((mark) => [mark.role, mark]));
}

async function freeProximal(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'How the proximal axis is drawn' }).click();
  await page.getByRole('option', { name: 'free line' }).click();
  await page.getByRole('button', { name: 'Place proximal axis' }).click();
  await clickFilm(page, TAPS[0]!);
  await clickFilm(page, TAPS[1]!);
}

describe('tracing both axes', () => {
  it('proposes them from four taps, changes nothing when refused, and is one action when accepted', async () => {
    const { page } = current;
    await openRingShaft(page);
    await freeProximal(page);
    const before = await marks(page);
    expect(Object.keys(before)).toEqual(['proximal-axis']);
    expect(requests.filter((url) => /trace/.test(url))).toEqual([]);

    await traceButton(page).click();
    await page.locator('.plate__prompt', { hasText: 'Tap the middle of the base' }).waitFor();
    expect(await violations(page)).toEqual([]);
    for (const tap of TAPS) await clickFilm(page, tap);
    const accept = page.getByRole('button', { name: 'Accept the traced axes' });
    await accept.waitFor();
    expect(requests.filter((url) => /trace/.test(url)).length).toBeGreaterThan(0);
    // The truth lies inside the interval that is shown.
    const said = (await traceLine(page).getByRole('status').textContent()) ?? '';
    const [, least, most] = /(\d+)–(\d+)°/.exec(said) ?? [];
    expect(ring.projectedAngleDegrees).toBeGreaterThanOrEqual(Number(least) - 0.5);
    expect(ring.projectedAngleDegrees).toBeLessThanOrEqual(Number(most) + 0.5);
    expect(await violations(page)).toEqual([]);
    // A proposal is no part of the case.
    expect(await marks(page)).toEqual(before);
    await page.getByRole('button', { name: 'Refuse the traced axes' }).click();
    await accept.waitFor({ state: 'detached' });
    await expect.poll(() => traceButton(page).evaluate((it) => it === document.activeElement)).toBe(true);
    expect(await marks(page)).toEqual(before);

    await page.getByRole('button', { name: 'Whole film', exact: true }).click();
    await traceByTaps(page);
    await accept.click();
    await page.getByRole('button', { name: 'Undo accept the traced axes' }).waitFor();
    const traced = await marks(page);
    expect([traced['proximal-axis']?.provenance, traced['distal-axis']?.provenance]).toEqual([
      'traced',
      'traced',
    ]);
    expect(traced['proximal-axis']?.tracing?.directionUncertaintyDegrees).toBeGreaterThan(0);
    // A finger's width beside the bone, towards the thumb: the sample is a right hand seen from behind.
    await page.getByRole('button', { name: 'Place radial side' }).click();
    await clickFilm(page, { column: ring.headCentre.column - 150, row: ring.headCentre.row });
    const number = page.locator('details[data-quantity="angulation"] .reading__number');
    await number.waitFor();
    const [, angle, half] = /([\d.]+)°\s*±\s*([\d.]+)/.exec((await number.textContent()) ?? '') ?? [];
    expect(Math.abs(Number(angle) - ring.projectedAngleDegrees)).toBeLessThanOrEqual(Number(half));
    expect(Number(half)).toBeLessThan(6);

    await page.reload();
    await page.getByText('Saved on this computer only · 1 film').waitFor();
    await page.getByText(', traced').first().waitFor();
    const again = await marks(page);
    expect(again['proximal-axis']).toEqual(traced['proximal-axis']);
    expect(again['distal-axis']).toEqual(traced['distal-axis']);
  });

  it('is taken back by one undo, to the marks as they were', async () => {
    const { page } = current;
    await openRingShaft(page);
    await freeProximal(page);
    const before = await marks(page);
    await traceByTaps(page);
    await page.getByRole('button', { name: 'Accept the traced axes' }).click();
    await page.getByRole('button', { name: 'Undo accept the traced axes' }).click();
    expect(await marks(page)).toEqual(before);
    await page.getByRole('button', { name: 'Redo accept the traced axes' }).click();
    expect((await marks(page))['distal-axis']?.provenance).toBe('traced');
  });

  it('takes a corrected point and a pair of taps, by keyboard too, and says so in the mark', async () => {
    const { page } = current;
    await openRingShaft(page);
    await traceByTaps(page);
    const accept = page.getByRole('button', { name: 'Accept the traced axes' });

    const hold = page.getByRole('button', { name: /^proximal fragment, one cortex, point 2/ });
    await hold.focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'proximal fragment, one cortex, point 2, corrected' }).waitFor();
    await accept.waitFor();
    expect(await violations(page)).toEqual([]);

    // By hand: 4 mm, the half of a shaft, to either side of the middle of the distal fragment.
    await page.getByRole('button', { name: 'Tap both edges' }).click();
    await page.locator('.plate__prompt', { hasText: 'Tap the outer edge of this bone' }).waitFor();
    await page.keyboard.press('Escape');
    await accept.waitFor();
    await page.getByRole('button', { name: 'Tap both edges' }).click();
    const { from, to } = ring.distalAxis;
    const middle = { column: (from.column + to.column) / 2, row: (from.row + to.row) / 2 };
    await clickFilm(page, { ...middle, column: middle.column - 21 });
    await clickFilm(page, { ...middle, column: middle.column + 21 });
    await accept.waitFor();
    await accept.click();
    const made = await marks(page);
    expect(made['proximal-axis']?.provenance).toBe('traced-and-corrected');
    expect(made['proximal-axis']).not.toHaveProperty('tracing');
    expect(made['distal-axis']?.provenance).toBe('traced');
  });

  it('says how to take back a point that was dragged so far that nothing is found any more', async () => {
    const { page } = current;
    await openRingShaft(page);
    await traceByTaps(page);
    const hold = page.getByRole('button', { name: /^proximal fragment, one cortex, point 2/ });
    const { x, y, width, height } = (await hold.boundingBox())!;
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.mouse.down();
    await page.mouse.move(x - 90, y + height / 2, { steps: 5 });
    await page.mouse.up();
    await page.getByText('“Last point back” takes your last change away.').waitFor();
    await page.getByRole('button', { name: 'Last point back' }).click();
    await page.getByRole('button', { name: 'Accept the traced axes' }).waitFor();
  });

  it('is stopped by Escape and by Stop, says why it failed, and is not offered where it knows nothing', async () => {
    const { page } = current;
    await openRingShaft(page);
    // By keyboard alone: the press takes the keys to the film, and Enter taps where the cross is.
    await traceButton(page).focus();
    await page.keyboard.press('Enter');
    const focused = () => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? '');
    await expect.poll(focused).toMatch(/^Tap the middle of the base/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    await page
      .locator('.plate__prompt', { hasText: 'broken end of the fragment nearer the wrist' })
      .waitFor();
    await page.getByRole('button', { name: 'Last point back' }).click();
    await page.locator('.plate__prompt', { hasText: 'Tap the middle of the base' }).waitFor();
    await page.keyboard.press('Escape');
    await traceButton(page).waitFor();

    await traceButton(page).click();
    for (const tap of [TAPS[0]!, TAPS[0]!, TAPS[2]!, TAPS[3]!]) await clickFilm(page, tap);
    await traceLine(page)
      .getByText(/The two taps of the proximal fragment lie .* mm apart/)
      .waitFor();
    expect(await violations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Stop' }).click();
    await traceButton(page).waitFor();
    expect(await marks(page)).toEqual({});

    await page.getByRole('radiogroup', { name: 'Hand on this film' }).getByText('Other').click();
    await page.getByText('Tracing knows broken bones only').waitFor();
    expect(await traceButton(page).isDisabled()).toBe(true);
  });
});
