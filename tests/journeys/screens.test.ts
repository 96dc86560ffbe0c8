import { afterAll, describe, expect, it } from 'vitest';
import { expectLooksAs } from '../screens/looks-as.ts';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { placeAxes } from './sample-film.ts';

afterAll(closeBrowser);

async function ready({ page }: Visit): Promise<void> {
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.evaluate(() => document.fonts.ready.then(() => undefined));
}

const SIZES = [
  { name: 'laptop', viewport: { width: 1280, height: 800 } },
  { name: 'desk', viewport: { width: 1920, height: 1080 } },
  { name: 'tablet', viewport: { width: 820, height: 1180 }, hasTouch: true },
  { name: 'dense', viewport: { width: 1280, height: 800 }, deviceScaleFactor: 2 },
] as const;

describe('screens of the bench', () => {
  for (const { name, ...options } of SIZES) {
    it(`${name}: nothing cut off, no axe violation, looks as approved`, async () => {
      const bench = await visit(options);
      const { page } = bench;
      await ready(bench);
      await placeAxes(page);
      await page.mouse.move(2, 2);
      await page.locator('.worksheet').evaluate((sheet) => sheet.scrollTo(0, 0));

      expect(await violations(page)).toEqual([]);
      const { scrollWidth, clientWidth } = await page.evaluate(() => {
        const { scrollWidth, clientWidth } = document.documentElement;
        return { scrollWidth, clientWidth };
      });
      expect(scrollWidth, 'no sideways scrolling').toBeLessThanOrEqual(clientWidth);
      await expectLooksAs(
        await page.screenshot(),
        name === 'laptop' ? 'docs/bench.png' : `tests/screens/${name}.png`,
      );
      expect(bench.trouble).toEqual([]);
      await bench.close();
    });
  }

  it('reading room: no axe violation', async () => {
    const bench = await visit({ colorScheme: 'dark' });
    await ready(bench);
    expect(await violations(bench.page)).toEqual([]);
    await bench.close();
  });

  it('limits: no axe violation', async () => {
    const bench = await visit();
    await ready(bench);
    await bench.page.getByRole('link', { name: 'Limits' }).click();
    await bench.page.getByRole('heading', { name: 'Limits and where they come from' }).waitFor();
    expect(await violations(bench.page)).toEqual([]);
    await bench.close();
  });
});
