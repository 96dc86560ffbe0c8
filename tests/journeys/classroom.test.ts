import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Exercise, exerciseOf } from '../../src/classroom/exercise.ts';
import { readFilmSet } from '../../src/classroom/film-set.ts';
import { LESSONS } from '../../src/classroom/lessons/lessons.ts';
import { orderFor, readStudy } from '../../src/classroom/study.ts';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { boneOf, clickOnFilm, onRim, placeFree, type Spot, truthOfFilm } from './invented-truth.ts';

let current: Visit;
const folder = mkdtempSync(join(tmpdir(), 'classroom-'));

async function enter(): Promise<Page> {
  const { page } = current;
  await page.getByRole('link', { name: 'Classroom' }).click();
  await page.getByRole('heading', { name: 'Lessons' }).waitFor();
  return page;
}

const openPage = async (page: Page, name: string) => {
  await page.getByRole('navigation', { name: 'Classroom' }).getByRole('link', { name }).click();
};

/** What a download holds, as text. */
async function downloaded(page: Page, act: () => Promise<void>): Promise<{ name: string; text: string }> {
  const waiting = page.waitForEvent('download');
  await act();
  const download = await waiting;
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

async function noViolations(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
}

const plateShown = async (page: Page) => {
  await page.getByRole('button', { name: 'Place proximal axis' }).waitFor();
  await page.locator('.plate__host canvas').first().waitFor();
};

/** Both axes as free lines on the true ones, shifted by film pixels at the near end of the proximal axis. */
async function measure(page: Page, exercise: Exercise, shift: Spot = { column: 0, row: 0 }): Promise<void> {
  const truth = truthOfFilm(exercise);
  const { proximalAxis, distalAxis } = boneOf(truth, exercise.ray);
  const from = { column: proximalAxis.from.column + shift.column, row: proximalAxis.from.row + shift.row };
  await plateShown(page);
  await placeFree(page, truth, 'proximal', [from, proximalAxis.to]);
  await placeFree(page, truth, 'distal', [distalAxis.from, distalAxis.to]);
  await page.locator('[data-quantity="angulation"]').waitFor();
}

/** The three numbers of the reveal: read, true, error. */
async function revealed(page: Page): Promise<{ read: number; true: number; error: number }> {
  await page.getByRole('heading', { name: 'The truth' }).waitFor();
  const numbers = await page.locator('.reveal__numbers dd').allTextContents();
  const [read = Number.NaN, truth = Number.NaN, error = Number.NaN] = numbers.map((text) =>
    Number.parseFloat(text.replace('−', '-').replace('+', '')),
  );
  return { read, true: truth, error };
}

beforeEach(async () => {
  current = await visit({ acceptDownloads: true });
  await current.page.getByText('Saved on this computer only · 4 films').waitFor();
});

afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});

afterAll(closeBrowser);

describe('a learner', () => {
  it('reads a lesson, measures its film, and sees the truth, the error and where it came from', async () => {
    const page = await enter();
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
    await enter();
    await openPage(page, 'Exercises');
    await page.getByText(/^1 so far\./).waitFor();
  });

  it('undoes within the exercise; the case on the bench stays as it was', async () => {
    const page = await enter();
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

describe('a teacher', () => {
  it('makes films, hands them out as a small file, and anybody opens it and measures', async () => {
    const page = await enter();
    await openPage(page, 'Make films');
    await page.locator('.preview[data-drawn]').waitFor();

    // By the drawing of the hand and a dial, both by keyboard.
    await page.getByRole('radio', { name: 'small finger, neck' }).focus();
    await page.keyboard.press('ArrowLeft');
    await page.keyboard.press('Enter');
    await page.getByText('ring finger, neck', { exact: true }).waitFor();
    const angle = page.getByRole('slider', { name: 'Apex dorsal' });
    await angle.focus();
    for (let i = 0; i < 5; i += 1) await page.keyboard.press('ArrowRight');
    await expect.poll(() => angle.inputValue()).toBe('50');
    // The truth beside the film follows: the bend within the bone's own plane is what the dial says.
    await expect.poll(() => page.locator('.facts').textContent()).toContain('Bend from back to palm50°');
    await page.getByRole('button', { name: 'Truth shown' }).click();
    await page.locator('.preview__axes').waitFor({ state: 'detached' });
    await page.getByRole('button', { name: 'Add to the set' }).click();
    await page.getByRole('button', { name: 'first steps' }).click();
    await page.getByRole('button', { name: 'Add to the set' }).click();
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Week 3');
    await page
      .getByRole('radio', { name: 'may be looked at' })
      .locator('xpath=ancestor-or-self::label')
      .click();
    await noViolations(page);
    const file = await downloaded(page, () =>
      page.getByRole('button', { name: 'Save the set as a file' }).click(),
    );
    expect(file.name).toBe('Week 3.json');
    expect(file.text.length).toBeLessThan(6000);
    const set = readFilmSet(file.text);
    if (!set.ok) throw new Error('the file is none of ours');
    expect(set.value.films[0]).toMatchObject({
      ray: 'ring',
      spec: { fractures: [{ apexDorsalDegrees: 50 }] },
    });

    // Another browser, and the file is opened where films are opened: on the bench.
    const path = join(folder, file.name);
    writeFileSync(path, file.text);
    const other = await visit();
    try {
      await other.page.getByText('Saved on this computer only · 4 films').waitFor();
      await other.page.locator('input[type=file]').first().setInputFiles(path);
      await other.page.getByRole('button', { name: 'Measure film 1' }).click();
      const exercise = exerciseOf(set.value.films[0]!);
      await measure(other.page, exercise);
      await other.page.getByRole('button', { name: 'Show the truth' }).click();
      const shown = await revealed(other.page);
      const truth = boneOf(truthOfFilm(exercise), 'ring').projectedAngleDegrees;
      expect(Math.abs(shown.true - truth)).toBeLessThan(1);
      expect(Math.abs(shown.error)).toBeLessThan(5);
      // The teacher allowed a look at the truth before measuring; whoever took it has not made an attempt.
      await other.page.getByRole('button', { name: 'Next film' }).click();
      await plateShown(other.page);
      await other.page.getByRole('button', { name: 'Look at the truth' }).click();
      await other.page.getByText(/the truth white and dotted/).waitFor();
      await other.page.getByRole('button', { name: 'Look at the truth' }).click();
      await measure(other.page, exerciseOf(set.value.films[1]!));
      await other.page.getByRole('button', { name: 'Show the truth' }).click();
      await revealed(other.page);
      await other.page.getByRole('button', { name: 'Done' }).click();
      await other.page.getByText(/^1 so far\./).waitFor();
      expect(other.trouble).toEqual([]);
    } finally {
      await other.close();
    }
  });

  it('demonstrates a measurement by a presenter’s remote, with nothing of the case on screen, and keeps it', async () => {
    const page = await enter();
    await openPage(page, 'Demonstration');
    await page.getByRole('button', { name: 'Demonstrate the film being made' }).click();
    const stage = page.getByRole('dialog', { name: 'Demonstration' });
    await stage.waitFor();
    await stage.getByText('1 of 9').waitFor();
    for (let i = 0; i < 5; i += 1) await page.keyboard.press('PageDown');
    await stage.getByText('6 of 9').waitFor();
    await stage.getByText(/^The angle between the two axes/).waitFor();
    await page.keyboard.press('PageUp');
    await stage.getByText('5 of 9').waitFor();

    // Spotlight and blank screen, by key: what they draw is on the canvas over the film.
    const dark = () =>
      stage.locator('.stage__ink').evaluate((canvas) => {
        const { width, height } = canvas as HTMLCanvasElement;
        return (canvas as HTMLCanvasElement).getContext('2d')!.getImageData(width - 5, height - 5, 1, 1)
          .data[3];
      });
    expect(await dark()).toBe(0);
    await page.keyboard.press('s');
    await expect.poll(dark).toBeGreaterThan(150);
    await page.keyboard.press('s');
    await expect.poll(dark).toBe(0);

    // The pointer leaves a stroke that is gone after a while.
    const box = (await stage.locator('.stage__ink').boundingBox())!;
    const ink = () =>
      stage.locator('.stage__ink').evaluate((canvas) => {
        const { width, height } = canvas as HTMLCanvasElement;
        const { data } = (canvas as HTMLCanvasElement).getContext('2d')!.getImageData(0, 0, width, height);
        return data.some((value, index) => index % 4 === 3 && value > 0);
      });
    await page.mouse.move(box.x + 200, box.y + 200);
    await page.mouse.down();
    await page.mouse.move(box.x + 300, box.y + 260, { steps: 5 });
    await expect.poll(ink).toBe(true);
    await page.mouse.up();
    await expect.poll(ink, { timeout: 8000 }).toBe(false);

    // Over everything: neither the header nor the case is to be seen.
    const covered = await page.evaluate(() => document.elementFromPoint(120, 20)?.closest('.stage') !== null);
    expect(covered).toBe(true);
    expect(await stage.textContent()).not.toMatch(/Saved|films|Sample/);
    await noViolations(page);

    await stage.getByRole('button', { name: 'Handout' }).click();
    await page.getByText('A video takes four seconds a step.').waitFor();
    await expect.poll(() => page.locator('.handout__steps img').count()).toBe(9);
    await noViolations(page);
    const pdf = await page.pdf({ format: 'A4' });
    expect(pdf.subarray(0, 5).toString()).toBe('%PDF-');
    const video = page.waitForEvent('download', { timeout: 120_000 });
    await page.getByRole('button', { name: 'Save as a video' }).click();
    const saved = readFileSync(await (await video).path());
    // EBML, the head of every WebM file (RFC 8794, 11.2.1).
    expect([...saved.subarray(0, 4)]).toEqual([0x1a, 0x45, 0xdf, 0xa3]);
    expect(saved.length).toBeGreaterThan(50_000);
  });
});

interface Limits {
  readonly low: number;
  readonly high: number;
}
/** What `raybend agree` prints, as far as it is compared. */
interface Printed {
  readonly intraclassCorrelation: Readonly<
    Record<string, { readonly value: number; readonly limits: Limits }>
  >;
  readonly withinSubject: { readonly withinSubjectSd: number; readonly repeatability: number };
  readonly limitsOfAgreement: Readonly<
    Record<'meanDifference' | 'lower' | 'upper', { readonly value: number; readonly interval: Limits }>
  >;
  readonly proportionalDifference: { readonly sentence: string };
}

describe('a study', () => {
  it('has two raters measure blinded, each in an order of their own, and works out what the command line does', async () => {
    const page = await enter();
    await openPage(page, 'Agreement');
    await page.getByRole('textbox', { name: 'Title', exact: true }).fill('Two of us');
    await page.getByRole('radio', { name: 'first steps' }).locator('xpath=ancestor-or-self::label').click();
    await page.getByRole('textbox', { name: 'How many' }).fill('3');
    await page.getByRole('textbox', { name: 'Rounds' }).fill('1');
    await page.getByRole('button', { name: 'Begin the study' }).click();
    const kept = await downloaded(page, () => page.getByRole('button', { name: 'Save as a file' }).click());
    const study = readStudy(kept.text);
    if (!study.ok) throw new Error('the study could not be read');

    for (const [rater, shift] of [
      ['A', 0],
      ['B', 8],
    ] as const) {
      await page.getByRole('button', { name: `Measure as ${rater}` }).click();
      for (const [index, film] of orderFor(study.value, rater, 1).entries()) {
        await page.getByRole('heading', { name: `Film ${index + 1} of 3` }).waitFor();
        expect(await page.getByRole('button', { name: 'Show the truth' }).count()).toBe(0);
        await measure(page, exerciseOf(film), { column: shift, row: 0 });
        await page.getByRole('button', { name: 'Keep this reading and go on' }).click();
      }
      await page.getByText(`Rater ${rater} has measured everything in this study.`).waitFor();
      if (rater === 'A') await page.getByText('The results stay out of sight').waitFor();
    }
    await page.getByRole('heading', { name: 'Limits of agreement' }).waitFor();
    await page.getByRole('heading', { name: 'Error against the truth' }).waitFor();
    await noViolations(page);

    // The table that leaves gives the same correlation on the command line as on screen.
    const csv = await downloaded(page, () => page.getByRole('button', { name: 'Readings as CSV' }).click());
    const path = join(folder, 'readings.csv');
    writeFileSync(path, csv.text);
    const printed = execFileSync('npx', ['tsx', 'src/cli/raybend.ts', 'agree', path], { encoding: 'utf8' });
    const byCommand = JSON.parse(printed) as Printed;
    const cells = (table: string, row: string | RegExp) =>
      page
        .getByRole('region', { name: table })
        .getByRole('row', { name: row })
        .getByRole('cell')
        .allTextContents();
    const correlation = (value: number) => value.toFixed(3).replace('-', '−');
    for (const form of ['(1,1)', '(2,1)', '(3,1)', '(1,k)', '(2,k)', '(3,k)']) {
      const { value, limits } = byCommand.intraclassCorrelation[form]!;
      const [onScreen, range] = await cells(
        'Intraclass correlation',
        new RegExp(`^\\${form.replace(')', '\\)')} `),
      );
      expect(onScreen).toBe(correlation(value));
      expect(range).toBe(`${correlation(limits.low)} to ${correlation(limits.high)}`);
    }
    const { withinSubjectSd, repeatability } = byCommand.withinSubject;
    const [sd, , repeatable] = await cells('Spread in degrees', /^Across columns/);
    expect(sd).toBe(`${withinSubjectSd.toFixed(2)}°`);
    expect(repeatable).toBe(`${repeatability.toFixed(1)}°`);
    const { meanDifference, lower, upper } = byCommand.limitsOfAgreement;
    const signed = (value: number) => `${value < 0 ? '−' : '+'}${Math.abs(value).toFixed(2)}`;
    for (const [name, { value, interval }] of [
      ['Mean difference', meanDifference],
      ['Lower limit', lower],
      ['Upper limit', upper],
    ] as const) {
      const [onScreen, range] = await cells('Limits of agreement', new RegExp(`^${name}`));
      expect(onScreen).toBe(`${signed(value)}°`);
      expect(range).toBe(`${signed(interval.low)} to ${signed(interval.high)}°`);
    }
    // A table for the command line has no unit.
    const proportion = await page.getByText(/^(Where A reads|Whether B reads)/).textContent();
    expect(proportion?.replaceAll('°', '')).toBe(byCommand.proportionalDifference.sentence);
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
    await enter();
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
    await enter();
    expect(await fetched()).toBeGreaterThan(0);
  });
});
