import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exerciseOf } from '../../src/classroom/exercise.ts';
import { orderFor, readStudy } from '../../src/classroom/study.ts';
import { visitEach } from './browser.ts';
import { downloaded, enter, measure, noViolations, openPage } from './in-classroom.ts';

const current = visitEach({ acceptDownloads: true });
const folder = mkdtempSync(join(tmpdir(), 'classroom-'));

interface Limits {
  readonly low: number;
  readonly high: number;
}
/** What `raybend agree` prints, as far as it is compared. */
interface Printed {
  readonly intraclassCorrelation: Readonly<
    Record<
      string,
      { readonly value: number; readonly limits: { readonly low: number | null; readonly high: number } }
    >
  >;
  readonly withinSubject: { readonly withinSubjectSd: number; readonly repeatability: number };
  readonly limitsOfAgreement: Readonly<
    Record<'meanDifference' | 'lower' | 'upper', { readonly value: number; readonly interval: Limits }>
  >;
  readonly proportionalDifference: { readonly sentence: string };
}

describe('a study', () => {
  it('has two raters measure blinded, each in an order of their own, and works out what the command line does', async () => {
    const page = await enter(current.page);
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
    // JSON has no infinity: the command line writes null for a limit that is nowhere.
    const correlation = (value: number | null) =>
      value === null ? '−∞' : value.toFixed(3).replace('-', '−');
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
