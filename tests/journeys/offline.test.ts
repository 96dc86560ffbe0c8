import { afterAll, describe, expect, it } from 'vitest';
import { closeBrowser, visit } from './browser.ts';

afterAll(closeBrowser);

describe('without a server', () => {
  it('starts again after the first visit, with its film and its case', async () => {
    const { page, close } = await visit({ serviceWorkers: 'allow' });
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
      if (navigator.serviceWorker.controller === null)
        await new Promise((taken) => navigator.serviceWorker.addEventListener('controllerchange', taken));
    });

    await page.context().setOffline(true);
    await page.reload();
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
    // A place that is fetched only when it is entered is there as well.
    await page.getByRole('link', { name: 'Limits' }).click();
    await page.getByRole('heading', { name: 'Limits and where they come from' }).waitFor();
    expect(await page.evaluate(() => navigator.onLine)).toBe(false);
    await close();
  });
});
