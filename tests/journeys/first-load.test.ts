import { gzipSync } from 'node:zlib';
import type { Page } from 'playwright';
import { afterAll, describe, expect, inject, it } from 'vitest';
import { pageWeight, totalBytes } from '../bench/harness/page-weight.ts';
import { closeBrowser, theBrowser } from './browser.ts';

afterAll(closeBrowser);

const fetched = async (file: string): Promise<Uint8Array> =>
  new Uint8Array(await (await fetch(new URL(file, inject('appUrl')))).arrayBuffer());

/** Compressed bytes of what a page fetches, by kind of file. */
function weighing(page: Page): { byKind(): Promise<Readonly<Record<string, number>>> } {
  const paths: string[] = [];
  page.context().on('request', (request) => {
    if (request.url().startsWith(inject('appUrl'))) paths.push(request.url());
  });
  return {
    async byKind() {
      const sums: Record<string, number> = {};
      for (const path of new Set(paths)) {
        const kind = /\.(\w+)$/.exec(path)?.[1] ?? 'html';
        const bytes = await fetched(path);
        // Fonts are compressed already.
        sums[kind] = (sums[kind] ?? 0) + (kind === 'woff2' ? bytes.length : gzipSync(bytes).length);
      }
      return sums;
    },
  };
}

describe('the first load', () => {
  it('takes 250 kB at most until the form can be used', async () => {
    const weights = await pageWeight(fetched);
    // A page that names next to nothing would pass for the wrong reason.
    expect(weights.length).toBeGreaterThan(3);
    expect(totalBytes(weights)).toBeLessThanOrEqual(250_000);
  });

  it('takes 400 kB of code at most until the sample film is on the plate', async () => {
    const context = await (await theBrowser()).newContext({ serviceWorkers: 'block' });
    const page = await context.newPage();
    const weight = weighing(page);
    await page.goto(inject('appUrl'));
    await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
    await page.locator('.plate__host canvas').first().waitFor();
    const { html = 0, js = 0, css = 0, woff2 = 0 } = await weight.byKind();
    expect(js).toBeGreaterThan(200_000);
    expect(html + js + css).toBeLessThanOrEqual(400_000);
    // Latin letters only, in four faces.
    expect(woff2).toBeLessThanOrEqual(90_000);
    await context.close();
  });
});
