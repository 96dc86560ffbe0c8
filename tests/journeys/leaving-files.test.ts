import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { expectNoIdentity } from '../record/identities.ts';
import { expectNoIdentityInside, identitiesInside } from '../record/look-inside.ts';
import { expectPlainPdf, itWithPdfTools } from '../record/pdf/checked-pdf.ts';
import { choose, done, expectNoLongIdentity, leavingBench, saved } from './leaving-bench.ts';

const bench = leavingBench();
const { closeSheet, openSheet, pressed } = bench;

const withoutSeparators = (text: string): string => text.replaceAll(/[",\r\n]/g, '');

describe('what leaves as a file', () => {
  it('a case file names nobody without films; with films, which was asked for, the films do', async () => {
    await closeSheet();
    const worksheet = bench.page.locator('.worksheet');
    const marks = await pressed(worksheet.getByRole('button', { name: 'Marks only' }));
    expectNoIdentityInside(marks.name, marks.bytes);
    await worksheet.getByText('with whatever their own files say of a person').waitFor();
    const whole = await pressed(worksheet.getByRole('button', { name: 'With films' }));
    const found = identitiesInside(whole.name, whole.bytes);
    expect(found.some((one) => one.endsWith('Quillfeather'))).toBe(true);
    expect(found.filter((one) => !one.includes('> base 64'))).toEqual([]);
  });

  it('an archive of cases names nobody in any entry; with films, which was chosen, only the films do', async () => {
    const { page } = bench;
    await page.getByRole('link', { name: 'Cases' }).click();
    const exported = () => pressed(page.getByRole('button', { name: 'Export all cases' }));
    await page.getByText('no film, nor anything that names the patient in one').waitFor();
    const marks = await exported();
    expect(Object.keys(unzipSync(marks.bytes)).filter((entry) => entry.startsWith('films/'))).toEqual([]);
    expectNoIdentityInside(marks.name, marks.bytes);
    await page.getByText('It is no safe copy of the films').waitFor();
    await choose(page.locator('.cases'), 'Films in exported files', 'Included');
    await page.getByText('commonly name, birth date and hospital').waitFor();
    const whole = await exported();
    const found = identitiesInside(whole.name, whole.bytes);
    expect(found.some((one) => /> films\/.*Quillfeather$/.test(one))).toBe(true);
    // The films are stored and not deflated, so that the archive holds what they hold.
    expect(found.filter((one) => one.includes(' > ') && !one.includes('> films/'))).toEqual([]);
    await page.getByRole('link', { name: 'Bench' }).click();
  });

  const pdfs: Record<string, Uint8Array> = {};
  it('the record and both patient sheets are shown as pages and saved as PDF', async () => {
    let sheet = await openSheet('Record');
    await sheet.getByRole('group', { name: 'Page 1' }).getByText('Right hand, small finger, neck').waitFor();
    await choose(sheet, 'Beside it', 'Film 2');
    // Film 1 is on the plate; both leave with this page, so both have been looked through.
    await sheet.getByText(/^Film 2: /).waitFor();
    await sheet.getByRole('group', { name: 'Page 1' }).getByText('Film 2, right.').waitFor();
    pdfs.record = (await saved(bench.page, 'Save PDF')).bytes;
    sheet = await openSheet('Patient sheet');
    await sheet.getByLabel('From your clinic').fill('Montag, 9 Uhr.');
    for (const [language, title] of [
      ['English', 'Your broken hand bone'],
      ['Deutsch', 'Ihr gebrochener Knochen in der Hand'],
    ] as const) {
      await choose(sheet, 'Language', language);
      await sheet.getByRole('group', { name: 'Page 1' }).getByText(title).waitFor();
      await sheet.getByRole('group', { name: 'Page 1' }).getByText('Montag, 9 Uhr.').waitFor();
      pdfs[language] = (await saved(bench.page, 'Save PDF')).bytes;
    }
    for (const bytes of Object.values(pdfs)) expectNoLongIdentity(bytes);
  });
  itWithPdfTools('and are sound by qpdf, name nobody, and say what they are for', () => {
    for (const [name, title] of [
      ['record', 'Right hand, small finger, neck'],
      ['English', 'Your broken hand bone'],
      ['Deutsch', 'Ihr gebrochener Knochen in der Hand'],
    ] as const) {
      const { text, pages } = expectPlainPdf(pdfs[name]!);
      expect(pages).toBe(1);
      expect(text).toContain(title);
    }
  });

  it('the note is copied as it is shown', async () => {
    const sheet = await openSheet('Note');
    const shown = await sheet.getByRole('region', { name: 'Text that leaves' }).textContent();
    await sheet.getByRole('button', { name: 'Copy' }).click();
    await done(sheet).getByText('Copied.').waitFor();
    const copied = await bench.page.evaluate(() => navigator.clipboard.readText());
    expect(copied).toBe(shown);
    expect(copied).toContain('Right hand, small finger, neck');
    expectNoIdentity(copied);
  });

  it('the tables are saved as they are shown', async () => {
    const sheet = await openSheet('Tables');
    for (const [table, button, name] of [
      ['Readings', 'Save CSV', 'raybend readings.csv'],
      ['Limits', 'Save CSV', 'raybend limits.csv'],
      ['Both as JSON', 'Save JSON', 'raybend readings.json'],
    ] as const) {
      await choose(sheet, 'Table', table);
      await sheet.getByText(name, { exact: false }).waitFor();
      const file = await saved(bench.page, button);
      expect(file.name).toBe(name);
      const text = new TextDecoder().decode(file.bytes);
      if (table === 'Both as JSON') {
        expect(text).toBe(await sheet.getByRole('region', { name: 'Text that leaves' }).textContent());
      } else {
        const shown = sheet.getByRole('region', { name: 'Table that leaves' });
        // Cell by cell in their order; what CSV puts between and around them is not shown.
        const cells = await shown.getByRole('table').locator('th, td').allTextContents();
        expect(withoutSeparators(text)).toBe(withoutSeparators(cells.join('')));
        expect(await shown.getByRole('row').count()).toBe(text.trimEnd().split('\r\n').length);
      }
      expectNoIdentity(file.bytes);
    }
  });
});
