import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { visitEach } from './browser.ts';
import { type DrawnNail, FIST_SIZE, fistPicture } from './fist-picture.ts';
import { screenOf } from './sample-film.ts';

const current = visitEach();

/** The nail of the small finger leans by atan(40/80) = 26.565° to the right of the middle finger's. */
const HERE = {
  reference: { fold: [150, 140], tip: [150, 60] },
  finger: { fold: [300, 150], tip: [340, 70] },
} as const satisfies Record<string, DrawnNail>;
/** On the other hand, the mirror image, by atan(20/80) = 14.036° to the left. */
const THERE = {
  reference: { fold: [250, 140], tip: [250, 60] },
  finger: { fold: [100, 150], tip: [80, 70] },
} as const satisfies Record<string, DrawnNail>;

async function clickAt(page: Page, [column, row]: readonly [number, number]): Promise<void> {
  const { x, y } = await screenOf(page, { column, row }, FIST_SIZE);
  await page.mouse.click(x, y);
}

async function markNail(page: Page, name: string, { fold, tip }: DrawnNail): Promise<void> {
  await page.getByRole('button', { name: new RegExp(`^Place(?: again:)? ${name}`) }).click();
  await clickAt(page, fold);
  await clickAt(page, tip);
}

/** Opens a picture and says that it shows the fist. */
async function openFist(page: Page, number: number, nails: readonly DrawnNail[]): Promise<void> {
  await page
    .getByLabel('Film files')
    .setInputFiles({ name: `fist ${number}.png`, mimeType: 'image/png', buffer: fistPicture(nails) });
  const figure = page.locator('.figure');
  await figure.getByText(`Film ${number}.`).waitFor();
  await page.getByRole('radiogroup', { name: 'What the picture shows' }).getByText('Photograph').click();
  await figure.getByText('Photograph of the fist').waitFor();
}

async function shown(page: Page, quantity: string): Promise<string> {
  const number = page.locator(`details[data-quantity="${quantity}"] .reading__number`);
  await number.waitFor();
  return ((await number.textContent()) ?? '').replaceAll('\u2009', ' ');
}

describe('a photograph of the fist', () => {
  it('gives the direction of a nail against the other hand, as support for the examination', async () => {
    const { page } = current;
    await openFist(page, 5, Object.values(HERE));
    await markNail(page, 'nail of the finger', HERE.finger);
    await markNail(page, 'nail of the reference finger', HERE.reference);
    // Without a scale the longer nail, 89.44 pixels, stands for 10 mm, and 0.5 mm are 4.472 pixels. u of the two
    // directions: √2 · 4.472 / 80 and √2 · 4.472 / 89.44 rad, together 6.077°, and 1.96 u = 11.9°.
    await expect.poll(() => shown(page, 'nail-direction')).toBe('27° ± 12');
    await page.getByText(/has no other hand to stand against: add a photograph of the other fist/).waitFor();
    expect(await violations(page)).toEqual([]);

    await openFist(page, 6, Object.values(THERE));
    await page.getByRole('radiogroup', { name: 'Hand on this film' }).getByText('Other').click();
    await markNail(page, 'nail of the finger', THERE.finger);
    await markNail(page, 'nail of the reference finger', THERE.reference);
    await expect.poll(() => shown(page, 'nail-direction')).toBe('−14° ± 11');

    // 26.565° − 14.036° = 12.529°. On the other hand the longer nail is 82.46 pixels and u 5.818°; together
    // √(6.077² + 5.818²) = 8.413°, and 1.96 u = 16.5°.
    await page.getByRole('button', { name: /^5\s*\. Photograph of the fist/ }).click();
    await expect.poll(() => shown(page, 'nail-direction-difference')).toBe('13° ± 16');
    const rotation = page.getByRole('region', { name: 'Rotation, on making a fist' });
    const support = ((await rotation.textContent()) ?? '').replaceAll('\u2009', ' ');
    expect(support).toContain('the nail points 13° ± 16');
    expect(support).toContain('it does not settle rotation');
    // The question stays open, and no limit is compared.
    expect(await rotation.locator('.check[data-open]').count()).toBe(1);
    await page.getByText('A photograph of the fist is compared with no limit').waitFor();
    expect(await violations(page)).toEqual([]);

    await page.getByText('Saved on this computer only · 6 films').waitFor();
    await page.reload();
    await page.getByRole('button', { name: /^5\s*\. Photograph of the fist/ }).click();
    await expect.poll(() => shown(page, 'nail-direction-difference')).toBe('13° ± 16');
  });

  it('refuses nails of which one was placed from the tip to the fold', async () => {
    const { page } = current;
    await openFist(page, 5, Object.values(HERE));
    await markNail(page, 'nail of the finger', { fold: HERE.finger.tip, tip: HERE.finger.fold });
    await markNail(page, 'nail of the reference finger', HERE.reference);
    await page.getByText(/point 153° apart, and no two fingers of a fist do: place both again/).waitFor();
    expect(await page.locator('details[data-quantity="nail-direction"]').count()).toBe(0);
  });
});
