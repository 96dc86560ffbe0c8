import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exerciseOf } from '../../src/classroom/exercise.ts';
import { readFilmSet } from '../../src/classroom/film-set.ts';
import { visit, visitEach } from './browser.ts';
import { downloaded, enter, measure, noViolations, openPage, plateShown, revealed } from './in-classroom.ts';
import { boneOf, truthOfFilm } from './invented-truth.ts';

const current = visitEach({ acceptDownloads: true });
const folder = mkdtempSync(join(tmpdir(), 'classroom-'));

describe('a teacher', () => {
  it('makes films, hands them out as a small file, and anybody opens it and measures', async () => {
    const page = await enter(current.page);
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
    const page = await enter(current.page);
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
