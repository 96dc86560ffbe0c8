/**
 * How long until the first film of a case is on the plate, for a case of 50 films and 5,000 marks, against a case with
 * that one film alone: `npx tsx tests/bench/reopen.ts`. The ratio says whether the first film waits for the others.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { chromium, type Page } from 'playwright';
import { preview } from 'vite';
import { findBrowser } from '../browser-path.ts';
import { archiveOf, courseCase, courseFilms } from '../journeys/course-case.ts';
import { manyFilms, withMarks } from '../journeys/many-films.ts';

const ROUNDS = 7;
const OUT = resolve('node_modules/.cache/bench-reopen');

const [model] = courseFilms();
const fifty = manyFilms(model!, 50);
const alone = courseCase([model!], { id: 'alone', label: 'One film' });
const many = withMarks(fifty, 5000, { id: 'many', label: 'Fifty films' });

execFileSync('npx', ['vite', 'build', '--outDir', OUT, '--logLevel', 'error'], { stdio: 'inherit' });
const server = await preview({
  configFile: false,
  root: OUT,
  build: { outDir: OUT },
  preview: { host: '127.0.0.1', port: 0 },
  logLevel: 'error',
});
const { executablePath, args, env } = await findBrowser();
const browser = await chromium.launch({
  executablePath,
  args: [...args],
  env: { ...process.env, ...env } as never,
});
const page = await (await browser.newContext({ viewport: { width: 1280, height: 800 } })).newPage();
await page.goto(server.resolvedUrls?.local[0] ?? '');
await page.getByText('Saved on this computer only · 4 films').waitFor();
await page.getByRole('link', { name: 'Cases' }).click();
const folder = mkdtempSync(join(tmpdir(), 'raybend-reopen-'));
writeFileSync(join(folder, 'both.zip'), await archiveOf([alone, many], [model!, ...fifty]));
await page.getByLabel('Case files and archives').setInputFiles(join(folder, 'both.zip'));
await page.getByText('both.zip: 2 cases taken in.').waitFor({ timeout: 120_000 });

/** From the press on the case's name to the second frame with the film on the plate, in a page just loaded. */
async function reopened(label: string): Promise<number> {
  await page.reload();
  await page.getByRole('link', { name: 'Cases' }).click();
  await page.getByRole('button', { name: 'New case' }).click();
  await page.getByText('Saved on this computer only · 0 films').waitFor();
  await page.getByRole('link', { name: 'Cases' }).click();
  await page.getByRole('button', { name: label, exact: true }).waitFor();
  return pressAndWait(page, label);
}

const pressAndWait = (on: Page, label: string): Promise<number> =>
  on.evaluate(async (name) => {
    // Written out each time: the runner wraps named functions in a helper that the page has not.
    const button = [...document.querySelectorAll<HTMLElement>('.case-table__name')].find(
      (candidate) => candidate.textContent === name,
    );
    const start = performance.now();
    button?.click();
    // The caption of a film stands below the plate once the film is decoded and handed to the plate.
    while (document.querySelector('figcaption.caption') === null)
      await new Promise((next) => requestAnimationFrame(next));
    await new Promise((next) => requestAnimationFrame(next));
    await new Promise((next) => requestAnimationFrame(next));
    return performance.now() - start;
  }, label);

const times = { alone: [] as number[], many: [] as number[] };
for (let round = 0; round < ROUNDS; round += 1) {
  times.alone.push(await reopened('One film'));
  times.many.push(await reopened('Fifty films'));
}
const median = (of: readonly number[]) =>
  of.toSorted((one, other) => one - other)[Math.floor(of.length / 2)]!;
const [baseline, measured] = [median(times.alone), median(times.many)];
console.info(
  `First film on the plate, median of ${ROUNDS}: one film alone (baseline) ${Math.round(baseline)} ms; 50 films and 5,000 marks ${Math.round(measured)} ms, from ${Math.round(Math.min(...times.many))} to ${Math.round(Math.max(...times.many))}; ratio ${(measured / baseline).toFixed(2)}`,
);
rmSync(folder, { recursive: true });
await browser.close();
await server.close();
