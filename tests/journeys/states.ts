import type { Page } from 'playwright';
import { placeAxes } from './sample-film.ts';

/** A state of the app that a person meets, reached from the sample case as it opens. */
export interface State {
  readonly name: string;
  readonly reach: (page: Page) => Promise<void>;
}

const place = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Places' }).getByRole('link', { name }).click();
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();

const classroom = (name: string, page: string): State => ({
  name: `classroom: ${name}`,
  reach: async (shown) => {
    await place(shown, 'Classroom');
    await shown.getByRole('navigation', { name: 'Classroom' }).getByRole('link', { name: page }).click();
    await shown.waitForTimeout(300);
  },
});

/** Every place, and what opens over them. */
export const STATES: readonly State[] = [
  { name: 'bench, nothing placed', reach: async () => undefined },
  { name: 'bench, an empty case', reach: (page) => press(page, 'New case') },
  {
    name: 'bench, placing',
    reach: async (page) => {
      await press(page, 'Place proximal axis');
      await page.locator('.plate__prompt').waitFor();
    },
  },
  {
    name: 'bench, measured, every fold open',
    reach: async (page) => {
      await placeAxes(page);
      await page.locator('[data-quantity="angulation"]').waitFor();
      await page.locator('.bench details').evaluateAll((folds) => {
        for (const fold of folds) fold.setAttribute('open', '');
      });
    },
  },
  { name: 'bench, tracing', reach: (page) => press(page, 'Trace both axes') },
  { name: 'bench, definitions', reach: (page) => press(page, 'Definitions') },
  {
    name: 'bench, one definition',
    reach: async (page) => {
      await press(page, 'Definitions');
      await press(page, 'Angulation, measured');
    },
  },
  { name: 'keys', reach: (page) => press(page, 'Keys') },
  {
    name: 'splitting a picture',
    reach: async (page) => {
      await page.getByText('Side and parts of the picture').click();
      await press(page, 'Split');
      await page.getByRole('dialog').getByRole('button', { name: 'Leave it whole' }).waitFor();
    },
  },
  {
    name: 'a record about to leave',
    reach: async (page) => {
      await press(page, 'Record');
      await page.getByRole('dialog').waitFor();
      await page.waitForTimeout(800);
    },
  },
  { name: 'course', reach: (page) => place(page, 'Course') },
  { name: 'cases', reach: (page) => place(page, 'Cases') },
  {
    name: 'limits',
    reach: async (page) => {
      await place(page, 'Limits');
      await page.getByRole('heading', { name: 'Limits and where they come from' }).waitFor();
    },
  },
  classroom('lessons', 'Lessons'),
  classroom('exercises', 'Exercises'),
  classroom('films', 'Make films'),
  classroom('demonstration', 'Demonstration'),
  classroom('agreement', 'Agreement'),
];
