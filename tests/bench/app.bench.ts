/** The built app in a browser: until it can be used, opening films of 12 megapixels, and what that holds of memory. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { builtApp } from './harness/built-app.ts';
import { COLUMNS, largeFilm, ROWS } from './harness/large-film.ts';
import { tell } from './harness/lines.ts';

const folder = mkdtempSync(join(tmpdir(), 'raybend-bench-'));
/** Ten large films, compressed without loss as archives send them. */
const films = Array.from({ length: 10 }, (_, index) => {
  const file = join(folder, `${index}.dcm`);
  writeFileSync(join(folder, 'native.dcm'), largeFilm(index));
  execFileSync('dcmcjpeg', ['+e1', join(folder, 'native.dcm'), file]);
  return file;
});

const { browser, page, url, close } = await builtApp();
const protocol = await browser.newBrowserCDPSession();
const inPage = await page.context().newCDPSession(page);

/** Megabytes of its own that the page's process holds, its workers among them, after what can go has gone. */
async function heldMegabytes(): Promise<number> {
  for (let i = 0; i < 3; i += 1) await inPage.send('HeapProfiler.collectGarbage');
  const { processInfo } = await protocol.send('SystemInfo.getProcessInfo');
  const held = processInfo
    .filter(({ type }) => type === 'renderer')
    .map(({ id }) => /RssAnon:\s+(\d+)/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))?.[1] ?? '0');
  return Math.max(...held.map(Number)) / 1000;
}

const usable = async () => {
  const begun = performance.now();
  await page.goto(url);
  await page.getByText('Saved on this computer only').waitFor();
  return performance.now() - begun;
};
const first = await usable();
const loads = [await usable(), await usable(), await usable()];
tell({
  name: 'until the page can be used, from its own store, by the clock',
  value: Math.min(...loads),
  baseline: first,
  against: 'the first time',
});

await page.evaluate(() => {
  const tasks: number[] = [];
  new PerformanceObserver((list) => tasks.push(...list.getEntries().map(({ duration }) => duration))).observe(
    {
      type: 'longtask',
    },
  );
  Object.assign(window, { longTasks: tasks });
});
await page.getByRole('link', { name: 'Cases' }).click();
await page.getByRole('button', { name: 'New case' }).click();
await page.getByText('· 0 films').waitFor();
const choose = (files: readonly string[]) =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles([...files]);
const before = await heldMegabytes();
const begun = performance.now();
await choose(films.slice(0, 1));
await page.getByText('· 1 film').waitFor({ timeout: 120_000 });
const one = performance.now() - begun;
// The worker that decodes ends once it has been idle for four seconds.
await page.waitForTimeout(6000);
const after = await heldMegabytes();
tell({
  name: 'memory of the page with one film of 12 megapixels more (MB)',
  value: after - before,
  baseline: (2 * COLUMNS * ROWS) / 1e6,
  against: 'the pixels of the film',
  goal: 3,
});

const coarse = join(folder, 'coarse.dcm');
execFileSync('gdcmconv', ['--j2k', join(folder, 'native.dcm'), coarse]);
await page.getByRole('button', { name: 'New case' }).click();
await page.getByText('· 0 films').waitFor();
const seen = page.evaluate(async () => {
  const begin = performance.now();
  while (document.querySelector('.plate__first canvas') === null)
    await new Promise((next) => requestAnimationFrame(next));
  const firstAt = performance.now() - begin;
  while (document.querySelector('.plate__host canvas') === null)
    await new Promise((next) => requestAnimationFrame(next));
  return { firstAt, wholeAt: performance.now() - begin };
});
await choose([coarse]);
const { firstAt, wholeAt } = await seen;
tell({
  name: 'first picture of 12 megapixels in JPEG 2000 on the plate, by the clock',
  value: firstAt,
  baseline: wholeAt,
  against: 'the whole film on the plate',
});
await page.getByRole('button', { name: 'New case' }).click();
await page.getByText('· 0 films').waitFor();

await page.evaluate(() => {
  (window as unknown as { longTasks: number[] }).longTasks.length = 0;
});
const tenBegun = performance.now();
await choose(films);
await page.getByText(/found in 10 files/).waitFor({ timeout: 300_000 });
await page.getByRole('button', { name: 'Choose all' }).click();
await page.getByRole('button', { name: /^Add \d+ films/ }).click();
await page.getByText('· 10 films').waitFor({ timeout: 300_000 });
tell({
  name: 'ten films of 12 megapixels opened together, by the clock',
  value: performance.now() - tenBegun,
  baseline: one,
  against: 'one of them alone',
});
const longTasks = await page.evaluate(() => (window as unknown as { longTasks: number[] }).longTasks);
tell({
  name: 'longest task of the page while ten films open',
  value: Math.max(0, ...longTasks),
  baseline: 50,
  against: '50 ms, beyond which a page is felt to wait',
  goal: 1,
});
await close();
rmSync(folder, { recursive: true });
