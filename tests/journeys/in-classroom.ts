import { readFileSync } from 'node:fs';
import type { Page } from 'playwright';
import { expect } from 'vitest';
import type { Exercise } from '../../src/classroom/exercise.ts';
import { violations } from './axe.ts';
import { boneOf, placeFree, type Spot, truthOfFilm } from './invented-truth.ts';

/** From the bench into the classroom. */
export async function enter(page: Page): Promise<Page> {
  await page.getByRole('link', { name: 'Classroom' }).click();
  await page.getByRole('heading', { name: 'Lessons' }).waitFor();
  return page;
}

export const openPage = async (page: Page, name: string) => {
  await page.getByRole('navigation', { name: 'Classroom' }).getByRole('link', { name }).click();
};

/** What a download holds, as text. */
export async function downloaded(
  page: Page,
  act: () => Promise<void>,
): Promise<{ name: string; text: string }> {
  const waiting = page.waitForEvent('download');
  await act();
  const download = await waiting;
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

export async function noViolations(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
}

export const plateShown = async (page: Page) => {
  await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
  await page.locator('.plate__host canvas').first().waitFor();
};

/** Both axes as free lines on the true ones, shifted by film pixels at the near end of the proximal axis. */
export async function measure(
  page: Page,
  exercise: Exercise,
  shift: Spot = { column: 0, row: 0 },
): Promise<void> {
  const truth = truthOfFilm(exercise);
  const { proximalAxis, distalAxis } = boneOf(truth, exercise.ray);
  const from = { column: proximalAxis.from.column + shift.column, row: proximalAxis.from.row + shift.row };
  await plateShown(page);
  await placeFree(page, truth, 'proximal', [from, proximalAxis.to]);
  await placeFree(page, truth, 'distal', [distalAxis.from, distalAxis.to]);
  await page.locator('[data-quantity="angulation"]').waitFor();
}

/** The three numbers of the reveal: read, true, error. */
export async function revealed(page: Page): Promise<{ read: number; true: number; error: number }> {
  await page.getByRole('heading', { name: 'The truth' }).waitFor();
  const numbers = await page.locator('.reveal__numbers dd').allTextContents();
  const [read = Number.NaN, truth = Number.NaN, error = Number.NaN] = numbers.map((text) =>
    Number.parseFloat(text.replace('−', '-').replace('+', '')),
  );
  return { read, true: truth, error };
}
