import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import { attemptOf, writeAttempts } from '../../src/classroom/attempts.ts';
import { drawnSet } from '../../src/classroom/drawn-sets.ts';
import { writeFilmSet } from '../../src/classroom/film-set.ts';
import { type Study, withReading, writeStudy } from '../../src/classroom/study.ts';
import { Learner, SHAFT } from '../classroom/learner.ts';
import { visitEach } from './browser.ts';

const current = visitEach();

/** Opened where films are opened, as anybody would who was sent one. */
const open = async (page: Page, name: string, text: string) => {
  await page.getByRole('link', { name: 'Bench' }).click();
  await page
    .getByLabel('Film files', { exact: true })
    .setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
};

const bringBack = (page: Page, name: string) =>
  page.getByRole('log', { name: 'Messages' }).getByRole('button', { name }).click();

const study = (id: string, title: string): Study => ({
  id,
  title,
  films: drawnSet('first-steps', 2, 5).films,
  raters: [
    { label: 'A', axes: null },
    { label: 'B', axes: null },
  ],
  rounds: 1,
  seed: 11,
  readings: [],
});

describe('what is open in the classroom is not lost', () => {
  it('when another study is opened over its readings', async () => {
    const { page } = current;
    const first = study('first', 'The first');
    const [film] = first.films;
    const reading = { filmId: film!.id, rater: 'A', round: 1, value: 31, standardUncertainty: 4 };
    await open(page, 'first.json', writeStudy(withReading(first, reading)));
    await page.getByRole('heading', { name: 'The first' }).waitFor();
    await page.getByText('1 of 2 measured').waitFor();
    await open(page, 'second.json', writeStudy(study('second', 'The second')));
    await page.getByRole('heading', { name: 'The second' }).waitFor();
    await page.getByText('second.json took the place of the open study with one reading.').waitFor();
    await bringBack(page, 'Bring it back');
    await page.getByRole('heading', { name: 'The first' }).waitFor();
    await page.getByText('1 of 2 measured').waitFor();
  });

  it('when another set is opened over its films', async () => {
    const { page } = current;
    await open(page, 'one.json', writeFilmSet({ ...drawnSet('everyday', 2, 9), title: 'One' }));
    await page.getByRole('button', { name: 'Measure film 2' }).waitFor();
    await open(page, 'other.json', writeFilmSet({ ...drawnSet('hard', 1, 3), title: 'Other' }));
    await page.getByText('other.json took the place of the open set of 2 films.').waitFor();
    expect(await page.getByRole('button', { name: 'Measure film 2' }).count()).toBe(0);
    await bringBack(page, 'Bring it back');
    await page.getByRole('button', { name: 'Measure film 2' }).waitFor();
  });

  it('when attempts are forgotten by mistake', async () => {
    const { page } = current;
    const learner = new Learner(SHAFT).perfectly().tapDorsal();
    const attempt = attemptOf(learner.exercise, learner.reveal(), '2026-11-25T10:00:00.000Z', 'a lesson');
    await open(page, 'attempts.json', writeAttempts([attempt]));
    await page.getByText(/^1 so far\./).waitFor();
    await page.getByRole('button', { name: 'Forget them' }).click();
    await page.getByText('None yet.').waitFor();
    await bringBack(page, 'Bring them back');
    await page.getByText(/^1 so far\./).waitFor();
    await page.reload();
    await page.getByRole('link', { name: 'Classroom' }).click();
    await page
      .getByRole('navigation', { name: 'Classroom' })
      .getByRole('link', { name: 'Exercises' })
      .click();
    await page.getByText(/^1 so far\./).waitFor();
  });
});
