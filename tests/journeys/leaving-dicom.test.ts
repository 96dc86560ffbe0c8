import { beforeAll, describe, expect, it } from 'vitest';
import { readBack } from '../../src/record/dicom/read-back.ts';
import { srDataset } from '../../src/record/dicom/sr.ts';
import { succeeded } from '../case/samples.ts';
import { itNeeds, runTool } from '../outside-tools.ts';
import { asFile, expectSoundObject, itWithDicomTools, written } from '../record/dicom/checked.ts';
import { expectNoIdentity } from '../record/identities.ts';
import { assessed, reportInput, sampleCase } from '../record/sample.ts';
import { choose, expectNoLongIdentity, FILMS, filmFile, leavingBench, open, saved } from './leaving-bench.ts';

const bench = leavingBench();
const { closeSheet, openSheet } = bench;

describe('what leaves as DICOM', () => {
  const objects: Record<string, Uint8Array> = {};
  it('each DICOM object leaves without the patient, and its preview says so', async () => {
    const sheet = await openSheet('DICOM');
    for (const object of ['Report', 'Presentation', 'Picture']) {
      await choose(sheet, 'Object', object);
      const attributes = sheet.getByRole('region', { name: 'Attributes that leave' });
      await attributes.getByRole('rowheader', { name: /^PatientName/ }).waitFor();
      const row = (name: RegExp) =>
        attributes.getByRole('row').filter({ has: bench.page.getByRole('rowheader', { name }) });
      expect(await row(/^PatientName/).textContent()).toMatch(/SUBJECT\^[0-9A-F]{8}replaced$/);
      expect(await row(/^PatientBirthDate/).textContent()).toMatch(/nothingemptied$/);
      expectNoLongIdentity((await attributes.textContent()) ?? '');
      objects[object] = (await saved(bench.page, 'Save DICOM')).bytes;
      expectNoIdentity(objects[object]);
    }
  });
  itWithDicomTools('and each is sound by dciodvfy', () => {
    for (const object of ['Report', 'Presentation', 'Picture']) expectSoundObject(objects[object]!);
  });
  itNeeds('dsrdump', 'dcmpschk')('and is read by dsrdump and dcmpschk', () => {
    asFile(objects.Report!, (path) => expect(runTool('dsrdump', [path]).status).toBe(0));
    asFile(objects.Presentation!, (path) => {
      const { out, err } = runTool('dcmpschk', [path]);
      expect(`${out}${err}`).toContain('Test passed');
    });
  });

  it('objects of one case name the same patient and study, whichever was written first', () => {
    const subjects = ['Report', 'Presentation', 'Picture'].map(
      (object) => /SUBJECT\^[0-9A-F]{8}/.exec(new TextDecoder('latin1').decode(objects[object]))?.[0],
    );
    expect(new Set(subjects).size).toBe(1);
    expect(subjects[0]).toBeDefined();
  });

  it('keeps the patient only where it is asked for, behind a warning and a button that says it', async () => {
    const sheet = await openSheet('DICOM');
    await choose(sheet, 'The patient', 'Kept for matching');
    await sheet.getByText('Name, number, birth date and dates go into the file').waitFor();
    const { bytes } = await saved(bench.page, 'Save with the patient’s name', { mayName: true });
    expect(new TextDecoder('latin1').decode(bytes)).toContain('Quillfeather^Zebulon');
  });

  describe('and back in', () => {
    // A test that failed before leaves the sheet open, and everything behind it would fail with it.
    beforeAll(closeSheet);
    const messages = () => bench.page.getByRole('log', { name: 'Messages' });
    const putAway = async () => {
      const close = messages().getByRole('button', { name: 'Close this message' });
      while ((await close.count()) > 0) await close.first().click();
    };
    const drop = (name: string, bytes: Uint8Array) =>
      open(bench.page, { name, mimeType: 'application/dicom', buffer: Buffer.from(bytes) });

    it('a report for films that are not here says which to open', async () => {
      await putAway();
      await bench.page.getByRole('button', { name: 'New case' }).click();
      await bench.page.getByText('· 0 films').waitFor();
      await drop('report.dcm', objects.Report!);
      await messages()
        .getByText(/“report\.dcm” holds 8 marks for a film that is not in this case/)
        .waitFor();
    });

    it('a report puts its marks back on the films it was made from, as one action', async () => {
      const { page } = bench;
      await open(page, ...FILMS.map(filmFile));
      await page.getByText('Saved on this computer only · 2 films').waitFor();
      const reading = page.locator('details[data-quantity="angulation"]');
      expect(await reading.count()).toBe(0);
      await drop('report.dcm', objects.Report!);
      await messages().getByText('8 marks from “report.dcm” are back.').waitFor();
      const known = assessed(sampleCase()).readings.find(({ quantity }) => quantity === 'angulation')!;
      if (known.state !== 'known') throw new Error('the sample has an angle');
      expect(await reading.locator('summary').textContent()).toContain(
        `${Math.abs(known.value).toFixed(known.expandedUncertainty < 2 ? 1 : 0)}°`,
      );
      await page.getByRole('button', { name: 'Undo restore marks' }).click();
      await reading.waitFor({ state: 'detached' });
      await page.getByRole('button', { name: 'Redo restore marks' }).click();
      await reading.waitFor();
      await drop('report.dcm', objects.Report!);
      await messages().getByText('The marks of “report.dcm” are on their films already').waitFor();
    });

    it('a presentation state puts the marks of its film back', async () => {
      const { page } = bench;
      await page.getByRole('button', { name: 'Undo restore marks' }).click();
      await drop('presentation.dcm', objects.Presentation!);
      const marks = succeeded(readBack(objects.Presentation!)).length;
      await messages().getByText(`${marks} marks from “presentation.dcm” are back.`).waitFor();
    });

    it('a report of another program, and a damaged one, give a sentence and change nothing', async () => {
      const foreign = written({
        ...succeeded(srDataset(reportInput())),
        ContentSequence: [],
        Manufacturer: 'Invented Works',
      });
      await putAway();
      await drop('foreign.dcm', foreign);
      await messages().getByText('was written by another program (Invented Works)').waitFor();
      await drop('cut.dcm', objects.Report!.subarray(0, 700));
      await messages()
        .getByText(/“cut\.dcm” (is a damaged DICOM file|was written by another program|is a DICOM object)/)
        .waitFor();
      await bench.page.getByText('Saved on this computer only · 2 films').waitFor();
    });
  });
});
