/**
 * How long until the first film of a case is on the plate, for a case of 50 films and 5,000 marks, against a case with
 * that one film alone. The ratio says whether the first film waits for the others.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { archiveOf, courseCase, courseFilms } from '../journeys/course-case.ts';
import { manyFilms, withMarks } from '../journeys/many-films.ts';
import { builtApp } from './harness/built-app.ts';
import { tell } from './harness/lines.ts';

const ROUNDS = 7;

const [model] = courseFilms();
const fifty = manyFilms(model!, 50);
const alone = courseCase([model!], { id: 'alone', label: 'One film' });
const many = withMarks(fifty, 5000, { id: 'many', label: 'Fifty films' });

const { page, url, close } = await builtApp();
await page.goto(url);
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
tell({
  name: 'first film of a case of 50 films and 5,000 marks on the plate, by the clock',
  value: Math.min(...times.many),
  baseline: Math.min(...times.alone),
  against: 'a case with that film alone',
});
rmSync(folder, { recursive: true });
await close();
