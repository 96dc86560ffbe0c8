import { describe, expect, it } from 'vitest';
import { LESSONS } from '../../src/classroom/lessons/lessons.ts';
import { visitEach } from './browser.ts';
import { downloaded, enter, measure, noViolations, openPage, plateShown, revealed } from './in-classroom.ts';
import { boneOf, clickOnFilm, onRim, placeFree, truthOfFilm } from './invented-truth.ts';

const current = visitEach({ acceptDownloads: true });

describe('a learner', () => {
  it('reads a lesson, measures its film, and sees the truth, the error and where it came from', async () => {
    const page = await enter(current.page);
    const lesson = LESSONS.find(({ id }) => id === 'constructions')!;
    if (lesson.task.kind !== 'measure') throw new Error('the lesson measures nothing');
    const { exercise } = lesson.task;
    const truth = truthOfFilm(exercise);
    const bone = boneOf(truth, exercise.ray);
    await page.getByRole('link', { name: lesson.title }).click();
    await page.getByRole('button', { name: 'Measure it' }).click();
    await plateShown(page);

    // Nothing is revealed before it is measured.
    await page.getByRole('button', { name: 'Show the truth' }).click();
    await page.getByText('The truth stays hidden until you have measured.').waitFor();

    const { proximalAxis } = bone;
    // The near end 1.75 mm off, across the bone as displayed: it runs nearly upright on this lateral.
    const from = { column: proximalAxis.from.column + 14, row: proximalAxis.from.row };
    await placeFree(page, truth, 'proximal', [from, proximalAxis.to]);
    await page.getByRole('button', { name: 'Place distal axis' }).click();
    for (const turn of [250, 340, 70]) await clickOnFilm(page, truth, onRim(bone, turn));
    await clickOnFilm(page, truth, truth.fractures[0]!.distalBrokenEnd);
    await page.getByRole('button', { name: 'Show the truth' }).click();

    const shown = await revealed(page);
    expect(Math.abs(shown.true - bone.projectedAngleDegrees)).toBeLessThan(1);
    // The offset over the length of the axis: what that one end must have added, give or take a pixel of the screen.
    const lengthPixels = Math.hypot(
      proximalAxis.to.column - proximalAxis.from.column,
      proximalAxis.to.row - proximalAxis.from.row,
    );
    const turned = (Math.atan(14 / lengthPixels) * 180) / Math.PI;
    expect(Math.abs(Math.abs(shown.error) - turned)).toBeLessThan(3);
    await page
      .locator('[data-cause="axis-tilted"]')
      .getByText(/The proximal axis is turned/)
      .waitFor();
    await page.getByText(/^The tracer, given four taps at the true places, reads/).waitFor();
    await noViolations(page);

    // It is filed under the learner's attempts, in this browser, and can be taken along.
    await page.getByRole('button', { name: 'Done' }).click();
    await openPage(page, 'Exercises');
    await page.getByText(/^1 so far\. The truth lay within your interval in [01] of them/).waitFor();
    const csv = await downloaded(page, () => page.getByRole('button', { name: 'Save as CSV' }).click());
    const [heading, line = ''] = csv.text.split('\r\n');
    expect(heading).toMatch(/truth_deg,error_deg,verdict,causes$/);
    expect(line).toContain(`,${exercise.ray},angulation,`);
    expect(Number(line.split(',').at(-4))).toBeCloseTo(bone.projectedAngleDegrees, 0);
    await page.reload();
    await enter(current.page);
    await openPage(page, 'Exercises');
    await page.getByText(/^1 so far\./).waitFor();
  });

  it('undoes within the exercise; the case on the bench stays as it was', async () => {
    const page = await enter(current.page);
    const lesson = LESSONS.find(({ id }) => id === 'views')!;
    if (lesson.task.kind !== 'measure') throw new Error('the lesson measures nothing');
    await page.getByRole('link', { name: lesson.title }).click();
    await page.getByRole('button', { name: 'Measure it' }).click();
    await measure(page, lesson.task.exercise);
    await page.keyboard.press('Control+z');
    await page.getByText('1 of 2 placed').waitFor();
    await page.getByRole('link', { name: 'Bench' }).click();
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    await page.getByText('0 of 2 placed').waitFor();
  });
});

describe('every page of the classroom', () => {
  it.each([
    [1280, 800],
    [1920, 1080],
    [820, 1180],
  ])('fits %i × %i, without a violation', async (width, height) => {
    const { page } = current;
    await page.setViewportSize({ width, height });
    await enter(current.page);
    for (const name of ['Lessons', 'Exercises', 'Make films', 'Demonstration', 'Agreement']) {
      await openPage(page, name);
      await page.getByRole('heading', { level: 2 }).first().waitFor();
      expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
      await noViolations(page);
    }
    await openPage(page, 'Lessons');
    await page.getByRole('link', { name: LESSONS[4]!.title }).click();
    await page.locator('.preview[data-drawn]').waitFor();
    await noViolations(page);
  });

  it('is fetched when the classroom is entered and not before', async () => {
    const fetched = () =>
      current.page.evaluate(
        () =>
          performance.getEntriesByType('resource').filter(({ name }) => /ClassroomPlace/.test(name)).length,
      );
    expect(await fetched()).toBe(0);
    await enter(current.page);
    expect(await fetched()).toBeGreaterThan(0);
  });
});
