import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { archiveOf, courseCase, courseFilms } from './course-case.ts';

const films = courseFilms();
let current: Visit;

async function begin(options: Parameters<typeof visit>[0] = {}): Promise<Page> {
  current = await visit(options);
  const { page } = current;
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.getByRole('link', { name: 'Cases' }).click();
  await page.getByLabel('Case files and archives').setInputFiles({
    name: 'course.zip',
    mimeType: 'application/zip',
    buffer: await archiveOf([courseCase(films)], films),
  });
  await page.getByText('course.zip: 1 case taken in.').waitFor();
  await page.getByRole('button', { name: 'Close this message' }).first().click();
  await page.getByRole('link', { name: 'Course' }).click();
  await page.getByRole('heading', { name: 'Course' }).waitFor();
  return page;
}

beforeEach(() => begin());
afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});
afterAll(closeBrowser);

/** The table's rows as texts, cell by cell. */
const rowsOf = (page: Page) =>
  page
    .locator('.course-table tbody tr')
    .evaluateAll((rows) =>
      rows.map((row) => [...row.querySelectorAll('th, td')].map((cell) => cell.textContent ?? '')),
    );

const degreesIn = (text: string) => Number(/−?[\d.]+(?=°)/.exec(text)?.[0]?.replace('−', '-'));

describe('one injury over time', () => {
  it('has every reading in the table, changes only beyond what can be told, and warns of the loss', async () => {
    const { page } = current;
    const rows = await rowsOf(page);
    expect(rows.map(([film]) => film)).toEqual([
      'day 0before reduction',
      'day 0after reduction',
      'day 7follow-up',
      'day 28follow-up',
    ]);
    // The truth belongs to the invented films. The axes lie on it, so that differences of readings are those of the
    // truth, to the rounding of both to whole degrees; the normal that is taken off all of them cancels.
    const [before, after, week, month] = films.map(({ trueDegrees }) => trueDegrees) as [
      number,
      number,
      number,
      number,
    ];
    expect(Math.abs(degreesIn(rows[1]![2]!) - Math.abs(after - before))).toBeLessThanOrEqual(1.5);
    expect(rows[1]![2]).toContain('a change, straighter');
    expect(Math.abs(degreesIn(rows[2]![3]!) - (week - after))).toBeLessThanOrEqual(1.5);
    expect(rows[2]![3]).toContain('a change, farther out of line');
    expect(Math.abs(month - week)).toBeLessThan(3);
    expect(rows[3]![2]).toContain('too small to call a change');
    await page.getByText('Correction lost since the reduction').waitFor();
  });

  it('shows two films on the proximal axis, side by side and on one another, by keyboard', async () => {
    const { page } = current;
    await page
      .getByRole('img', { name: 'The lateral film of day 0, after reduction, its proximal axis upright' })
      .waitFor();
    await page.getByRole('img', { name: 'The lateral film of day 28, its proximal axis upright' }).waitFor();
    // Upright: both ends of each drawn proximal axis stand above one another.
    for (const path of await page.locator('[data-axis="proximal"] .aligned__axis').all()) {
      const [x1, , x2] = ((await path.getAttribute('d')) ?? '').match(/-?[\d.]+/g)!.map(Number);
      expect(Math.abs(x1! - x2!)).toBeLessThan(0.2);
    }
    const layout = page.getByRole('radio', { name: 'Side by side' });
    await layout.focus();
    await page.keyboard.press('ArrowRight');
    const caption = page.locator('.compare__blink figcaption');
    expect(await caption.textContent()).toBe('lateral film of day 0, after reduction');
    await page.getByRole('button', { name: 'Show the other' }).focus();
    await page.keyboard.press('Enter');
    expect(await caption.textContent()).toBe('lateral film of day 28');
    // This visit asks for less motion, so nothing may change by itself.
    await page.getByText('the films change only when you say so').waitFor();
    expect(await page.getByRole('button', { name: 'Blink by itself' }).count()).toBe(0);
    const second = page.locator('.compare__stack > div').nth(1);
    const place = () => second.locator('[data-axis="proximal"] .aligned__axis').getAttribute('d');
    const unslid = await place();
    await page
      .getByRole('button', { name: 'Slide up: the second film, towards the fingertip' })
      .press('Enter');
    expect(await place()).not.toBe(unslid);
  });

  it('blinks by itself only where motion is not unwanted, and can be stopped', async () => {
    await current.close();
    const page = await begin({ reducedMotion: 'no-preference' });
    await page.getByText('On one another').click();
    const caption = page.locator('.compare__blink figcaption');
    const first = await caption.textContent();
    const blink = page.getByRole('button', { name: 'Blink by itself' });
    await blink.click();
    await page.waitForFunction(
      (text) => document.querySelector('.compare__blink figcaption')?.textContent !== text,
      first,
    );
    await blink.click();
    const stopped = await caption.textContent();
    await page.waitForTimeout(2000);
    expect(await caption.textContent()).toBe(stopped);
  });

  it('keeps moments, dates and milestones in the case, undone and redone by name over a reload', async () => {
    const { page } = current;
    await page.getByLabel('Day of the injury').fill('2026-03-01');
    await page.getByText('day 7, 8 Mar').waitFor();
    const to = page.getByRole('textbox', { name: 'Splint off, first motion: to day' });
    await to.fill('30');
    await to.press('Tab');
    await page.getByText('changed for this case; before: American Board').waitFor();
    await page.getByText('This case has its own list.').waitFor();
    await page.getByRole('button', { name: 'Moment of the lateral film of day 28' }).click();
    await page.getByRole('option', { name: 'after reduction' }).click();
    await page.getByText('Correction lost since the reduction').waitFor({ state: 'detached' });
    await page.getByText(/Saved on this computer only/).waitFor();
    await page.reload();
    await page.getByRole('link', { name: 'Course' }).click();
    await page.getByRole('button', { name: 'Undo say when the film was taken' }).click();
    await page.getByText('Correction lost since the reduction').waitFor();
    await page.getByRole('button', { name: 'Redo say when the film was taken' }).click();
    await page.getByText('Correction lost since the reduction').waitFor({ state: 'detached' });
    for (const name of [
      'Undo say when the film was taken',
      'Undo change a milestone',
      'Undo set the day of the injury',
    ])
      await page.getByRole('button', { name }).click();
    await page.getByText('This case has its own list.').waitFor({ state: 'detached' });
    expect(await page.getByText('day 7, 8 Mar').count()).toBe(0);
  });

  it.each([
    ['paper', 1280, 800],
    ['reading room', 820, 1180],
    ['projector', 1920, 1080],
  ] as const)(
    'has no barrier that axe knows of, nothing cut off: %s, %i × %i',
    async (look, width, height) => {
      const { page } = current;
      await page.setViewportSize({ width, height });
      await page.locator('.header').getByRole('button', { name: 'Look' }).click();
      await page.getByRole('option', { name: look }).click();
      expect(await violations(page)).toEqual([]);
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      expect(await page.evaluate(() => document.querySelector('.course')!.scrollWidth)).toBeLessThanOrEqual(
        width,
      );
    },
  );
});

describe('under a coarse pointer', () => {
  it('every control of the course is 44 px high or more', async () => {
    await current.close();
    const page = await begin({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });
    const small = await page.locator('.course').evaluate((course) =>
      [...course.querySelectorAll('button, .text-input, .number__input, .choice__option')]
        .filter((control) => control.getClientRects().length > 0)
        .map((control) => ({
          name: control.textContent || control.getAttribute('aria-label'),
          box: control.getBoundingClientRect(),
        }))
        .filter(({ box }) => box.height > 2 && box.height < 43.5)
        .map(({ name, box }) => `${name}: ${box.height}`),
    );
    expect(small).toEqual([]);
  });
});
