import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { archiveOf, courseCase, courseFilms } from './course-case.ts';
import { casesEach, importing, labels, said, toCases } from './in-cases.ts';

const films = courseFilms().slice(0, 2);
const current = casesEach();

describe('the list of cases', () => {
  it('finds, opens, renames, undoes a rename and removes with one question', async () => {
    const { page } = current;
    await importing(
      page,
      'one.zip',
      await archiveOf([courseCase(films, { id: 'one', label: 'Anna’s fist' })], films),
    );
    await said(page, 'one.zip: 1 case taken in.');
    await toCases(page);
    await page.getByLabel('Search by label').fill('fist');
    await page.getByText('1 of 2 cases.').waitFor();
    expect(await labels(page)).toEqual(['Anna’s fist']);
    await page.getByLabel('Search by label').fill('nobody');
    await page.getByText('No label of 2 cases has “nobody” in it.').waitFor();
    await page.getByLabel('Search by label').fill('');

    // A case that is not on screen.
    await page.getByRole('button', { name: 'Rename Sample case' }).click();
    await page.getByLabel('Label of the case').fill('For teaching');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'For teaching', exact: true }).click();
    await page.getByRole('button', { name: 'Undo label the case' }).click();
    await toCases(page);
    await page.getByRole('button', { name: 'Sample case', exact: true }).first().waitFor();

    await page.getByRole('button', { name: 'Remove Anna’s fist' }).click();
    await page.getByRole('button', { name: 'Keep Anna’s fist' }).click();
    await page.getByRole('button', { name: 'Remove Anna’s fist' }).click();
    await page.getByRole('button', { name: 'Remove for good: Anna’s fist' }).click();
    await page.getByText('1 case on this computer.').waitFor();
    await page.reload();
    await toCases(page);
    await expect.poll(() => labels(page)).toEqual(['Sample case']);
  });

  it('opens another one when the case on screen is removed, and an empty one after the last', async () => {
    const { page } = current;
    await page.getByRole('button', { name: 'Remove Sample case' }).click();
    await page.getByRole('button', { name: 'Remove for good: Sample case' }).click();
    await page.getByText('Saved on this computer only · 0 films').waitFor();
    expect(await labels(page)).toEqual(['Case without a label']);
  });

  it('has no barrier that axe knows of, in the list and while it asks', async () => {
    const { page } = current;
    for (const state of ['list', 'rename', 'remove'] as const) {
      if (state === 'rename') await page.getByRole('button', { name: 'Rename Sample case' }).click();
      if (state === 'remove') {
        await page.keyboard.press('Escape');
        await page.getByRole('button', { name: 'Remove Sample case' }).click();
      }
      expect(await violations(page), state).toEqual([]);
    }
  });

  it('says how much room is taken and what the browser has promised', async () => {
    const { page } = current;
    const note = page.getByRole('region', { name: 'Where cases are kept' });
    expect(await note.textContent()).toMatch(/They take [\d.]+\sMB, as the browser estimates it\./);
    // Chromium without a window does not promise; what it answers is what must be shown.
    const promised = await page.evaluate(() => navigator.storage.persisted());
    await note.getByText(promised ? /has promised/ : /has not promised/).waitFor();
  });
});

describe('a full disk', () => {
  it('is said in a sentence, and the film is there until the page is closed', async () => {
    const { page } = current;
    const session = await page.context().newCDPSession(page);
    await session.send('Storage.overrideQuotaForOrigin', {
      origin: new URL(page.url()).origin,
      quotaSize: 1,
    });
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByLabel('Film files').setInputFiles({
      name: 'hand.png',
      mimeType: 'image/png',
      buffer: readFileSync('sample-images/small-neck-lateral.png'),
    });
    await said(page, /There is no room left on this computer/);
    await page.locator('figcaption.caption').waitFor();
  });
});

describe('two tabs', () => {
  it('say so, and are put together by one button', async () => {
    const { page } = current;
    const other = await page.context().newPage();
    await other.goto(page.url());
    await other.getByText('Saved on this computer only · 4 films').waitFor();
    await toCases(other);
    const rename = async (on: Page, from: string, to: string) => {
      await on.getByRole('button', { name: `Rename ${from}` }).click();
      await on.getByLabel('Label of the case').fill(to);
      await on.keyboard.press('Enter');
      await on.getByRole('button', { name: to, exact: true }).waitFor();
    };
    await rename(other, 'Sample case', 'From the other tab');
    await said(page, 'This case was changed in another tab.');
    // The list shows what is kept; this tab still has the case as it was.
    await page.getByRole('button', { name: 'Rename From the other tab' }).click();
    await page.getByLabel('Label of the case').fill('From this tab');
    await page.keyboard.press('Enter');
    await said(page, /so the last change here was not kept yet\. Put the two together/);
    await page.getByText('Not saved: changed in another tab').waitFor();
    await page.getByRole('button', { name: 'Put both together' }).last().click();
    await said(page, /Both tabs had changed the same thing/);
    await toCases(page);
    await page.getByRole('button', { name: 'From the other tab', exact: true }).waitFor();
    await page.getByRole('button', { name: 'From this tab (other version)', exact: true }).waitFor();
  });
});

describe('what the browser cleared', () => {
  it('is noticed and explained', async () => {
    const { page } = current;
    await page.evaluate(
      () =>
        new Promise<void>((resolve) => {
          const opening = indexedDB.open('raybend');
          opening.onsuccess = () => {
            const gone = opening.result.transaction(['cases', 'summaries', 'transactions'], 'readwrite');
            for (const name of ['cases', 'summaries', 'transactions']) gone.objectStore(name).clear();
            gone.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
    );
    await page.reload();
    await said(page, /A case that was kept on this computer is gone: the browser or somebody cleared/);
  });
});
