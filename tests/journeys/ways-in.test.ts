import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { visitEach } from './browser.ts';

const current = visitEach({ permissions: ['clipboard-read', 'clipboard-write'] });

/** What the system hands over when files are let go over the page. */
const dragged = (files: readonly { readonly name: string; readonly bytes: Buffer }[]) =>
  current.page.evaluateHandle(
    (given) => {
      const transfer = new DataTransfer();
      for (const { name, base64 } of given) {
        const bytes = Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
        transfer.items.add(new File([bytes], name));
      }
      return transfer;
    },
    files.map(({ name, bytes }) => ({ name, base64: bytes.toString('base64') })),
  );

describe('films come in', () => {
  it('by being dropped on the plate, with a word of the one that is none', async () => {
    const { page } = current;
    const dataTransfer = await dragged([
      { name: 'letter.dcm', bytes: Buffer.from('Dear colleague') },
      { name: 'ring.dcm', bytes: readFileSync('sample-images/ring-shaft-pa.dcm') },
    ]);
    await page.dispatchEvent('.plate__host', 'drop', { dataTransfer });
    await page.getByText('Saved on this computer only · 5 films').waitFor();
    await page.getByRole('log', { name: 'Messages' }).getByText('“letter.dcm” is not a film').waitFor();
  });

  it('by being dropped on a day of the other hand', async () => {
    const { page } = current;
    const lane = page.locator('.strip__lane').nth(1);
    const axis = page.locator('.strip__axis text');
    const ten = (await axis.filter({ hasText: /^10$/ }).boundingBox())!;
    const dataTransfer = await dragged([
      { name: 'ring.dcm', bytes: readFileSync('sample-images/ring-shaft-pa.dcm') },
    ]);
    await lane.dispatchEvent('drop', { dataTransfer, clientX: ten.x + ten.width / 2 });
    await page.getByText('Saved on this computer only · 5 films').waitFor();
    await page.getByRole('button', { name: /^5\s*\. Film: PA, other hand, day 10/ }).waitFor();
    // Films that have to stand aside of their day on the axis say it: of three of day 0 the second and the third.
    expect(await page.locator('.strip__day').allTextContents()).toEqual(['day 0', 'day 0']);
  });

  it('by being pasted as a picture from the clipboard', async () => {
    const { page } = current;
    await page.evaluate(async () => {
      const canvas = new OffscreenCanvas(300, 200);
      const brush = canvas.getContext('2d')!;
      brush.fillStyle = '#555';
      brush.fillRect(0, 0, 300, 200);
      brush.fillStyle = '#eee';
      brush.fillRect(120, 20, 60, 160);
      const picture = await canvas.convertToBlob({ type: 'image/png' });
      await navigator.clipboard.write([new ClipboardItem({ 'image/png': picture })]);
    });
    await page.keyboard.press('Control+v');
    await page.getByText('Saved on this computer only · 5 films').waitFor();
    await page.getByText('Opened from a PNG file.').waitFor();
  });
});

describe('films never join a case that took the place of theirs', () => {
  const saidNone = 'Saved on this computer only · 0 films';

  it('not when another case is begun while a dropped film is read', async () => {
    const { page } = current;
    await page.getByRole('link', { name: 'Cases' }).click();
    await page.getByRole('button', { name: 'New case' }).waitFor();
    const dataTransfer = await dragged([
      { name: 'ring.dcm', bytes: readFileSync('sample-images/ring-shaft-pa.dcm') },
    ]);
    // In one task, so that no machine is quick enough to have read the film before.
    await page.evaluate((transfer) => {
      window.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, cancelable: true }));
      const buttons = [...document.querySelectorAll('button')];
      buttons.find(({ textContent }) => textContent === 'New case')!.click();
    }, dataTransfer);
    await page.getByText('Another case was opened while the film was being read').waitFor();
    await page.getByText(saidNone).waitFor();
  });

  it('not when the sample is still being fetched', async () => {
    const { page } = current;
    let fetched = () => {};
    const held = new Promise<void>((resolve) => {
      fetched = resolve;
    });
    let asked = false;
    await page.route(/small-neck-oblique.*\.dcm/, async (route) => {
      asked = true;
      await held;
      await route.continue();
    });
    await page.getByRole('link', { name: 'Cases' }).click();
    await page.getByLabel('Begin or take in').getByRole('button', { name: 'Sample case' }).click();
    await expect.poll(() => asked).toBe(true);
    await page.getByRole('link', { name: 'Cases' }).click();
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByText(saidNone).waitFor();
    const answered = page.waitForResponse(/small-neck-oblique/);
    fetched();
    await answered;
    // The sample would have gone on with the next of its films.
    await page.waitForTimeout(1500);
    expect(await page.getByText(saidNone).count()).toBe(1);
  });
});
