import { describe, expect, it } from 'vitest';
import { violations } from './axe.ts';
import { choose, done, leavingBench } from './leaving-bench.ts';

const bench = leavingBench();
const { closeSheet, openSheet, theSheet } = bench;

describe('the sheet', () => {
  it.each([
    ['Snapshot', 'Snapshot'],
    ['Record', 'Record'],
    ['Patient sheet', 'Patient sheet'],
    ['Note', 'Note'],
    ['Tables', 'Tables'],
    ['DICOM', 'DICOM'],
  ])('opens from “%s” with the focus on its own page', async (button, page) => {
    const sheet = await openSheet(button);
    const radio = sheet.getByRole('radio', { name: page, exact: true });
    expect(await radio.isChecked()).toBe(true);
    expect(await radio.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  it('is gone through with the keyboard alone, and gives the focus back', async () => {
    await closeSheet();
    const { page } = bench;
    const { keyboard } = page;
    const button = page.locator('.worksheet').getByRole('button', { name: 'Note', exact: true });
    await button.focus();
    await keyboard.press('Enter');
    const sheet = theSheet();
    await sheet.getByRole('region', { name: 'Text that leaves' }).waitFor();
    await keyboard.press('ArrowRight');
    await sheet.getByText('Every reading with its unit').waitFor();
    await keyboard.press('ArrowLeft');
    await sheet.getByRole('region', { name: 'Text that leaves' }).waitFor();
    // The text scrolls, so it is on the way; the button that lets it leave comes after it.
    await keyboard.press('Tab');
    await keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Copy');
    await keyboard.press('Enter');
    await done(sheet).getByText('Copied.').waitFor();
    await keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  // Each page by itself: axe looks at every cell of a table, and a busy machine takes its time.
  it.each(['Snapshot', 'Record', 'Patient sheet', 'Note', 'Tables', 'DICOM'])(
    'has no axe violation on the page %s',
    async (kind) => {
      const { page } = bench;
      const sheet = await openSheet(kind);
      // Of the three tables alike, the shortest.
      if (kind === 'DICOM') await choose(sheet, 'Object', 'Presentation');
      await sheet.locator('.leaving__preview section').first().waitFor();
      // All around the sheet is hidden from every reader while it is open.
      expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    },
  );
});
