import { encode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { writeCaseFile } from '../../src/case/case-file.ts';
import { caseId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { dicomFile, filmElements, SYNTAX } from '../film/dicom-file.ts';
import { expectNoIdentity } from '../record/identities.ts';
import { expectNoIdentityInside } from '../record/look-inside.ts';
import { sampleCase, sourceBytes } from '../record/sample.ts';
import {
  caseFile,
  choose,
  chunksOf,
  expectNoLongIdentity,
  leavingBench,
  open,
  saved,
} from './leaving-bench.ts';

const bench = leavingBench();
const { closeSheet, openSheet, pressed } = bench;

describe('what cannot leave', () => {
  it.each([
    ['Record', /./],
    ['Patient sheet', 'The patient sheet has no angle of the injured hand. Place both axes'],
    ['Note', 'There is no reading to write down yet.'],
    [
      'DICOM',
      'Film 1 is not a DICOM file, so it has no identity to refer to. Use the PDF, the note or the table',
    ],
  ] as const)('%s of a picture without axes says what to do, or is made', async (button, says) => {
    const { page } = bench;
    const pictures = page.getByText('· 1 film', { exact: false });
    if (!(await pictures.isVisible())) {
      await closeSheet();
      await page.getByRole('button', { name: 'New case' }).click();
      await page.getByText('· 0 films').waitFor();
      const grey = new Uint8Array(300 * 200).map((_, index) => index % 200);
      const png = encode({ width: 300, height: 200, data: grey, channels: 1 });
      await open(page, { name: 'photo.png', mimeType: 'image/png', buffer: Buffer.from(png) });
      await pictures.waitFor();
    }
    const sheet = await openSheet(button);
    if (button === 'DICOM') await choose(sheet, 'Object', 'Presentation');
    if (button === 'Record') await sheet.getByRole('group', { name: 'Page 1' }).waitFor();
    else {
      await sheet.getByRole('alert').getByText(says).waitFor();
      expect(await sheet.getByRole('button', { name: 'Save', exact: true }).isDisabled()).toBe(true);
    }
  });

  const begin = async (films: number, ...files: Parameters<typeof open>[1][]) => {
    const { page } = bench;
    await closeSheet();
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByText('· 0 films').waitFor();
    await open(page, ...files);
    await page.getByText(`· ${films} film`, { exact: false }).waitFor();
  };
  const pngFile = (name: string, width: number, height: number) => ({
    name,
    mimeType: 'image/png',
    buffer: Buffer.from(
      encode({
        width,
        height,
        data: new Uint8Array(width * height).map((_, index) => index % 200),
        channels: 1,
        text: { Author: 'Quillfeather^Zebulon', Comment: 'Lives next to the bakery' },
      }),
    ),
  });

  it('a picture whose file says a name in a text chunk leaves without it', async () => {
    await begin(1, pngFile('Quillfeather photo.png', 300, 200));
    await openSheet('Snapshot');
    const { names, around } = chunksOf((await saved(bench.page, 'Save PNG')).bytes);
    expect(names.filter((name) => !['IHDR', 'IDAT', 'IEND'].includes(name))).toEqual([]);
    expectNoIdentity(around);
    await openSheet('Record');
    expectNoLongIdentity((await saved(bench.page, 'Save PDF')).bytes);
  });

  it('a film whose file says in words how its scale was found leaves without these words', async () => {
    const bytes = sourceBytes('film-1', [
      { tag: '0028,0030', vr: 'DS', value: '0.19\\0.19' },
      { tag: '0028,0A02', vr: 'CS', value: 'GEOMETRY' },
      { tag: '0028,0A04', vr: 'LO', value: 'Scaled for Quillfeather' },
    ]);
    await begin(1, { name: 'scaled.dcm', mimeType: 'application/dicom', buffer: Buffer.from(bytes) });
    const marks = await pressed(bench.page.locator('.worksheet').getByRole('button', { name: 'Marks only' }));
    expect(new TextDecoder().decode(marks.bytes)).toContain('GEOMETRY');
    expectNoIdentityInside(marks.name, marks.bytes);
  });

  it('a film wider than a browser draws cannot be a PNG, says so, and can be an SVG', async () => {
    await begin(1, pngFile('long.png', 17_000, 20));
    const sheet = await openSheet('Snapshot');
    await sheet.getByRole('alert').getByText('more than this browser draws. Save it as SVG').waitFor();
    await choose(sheet, 'File', 'SVG');
    const { bytes } = await saved(bench.page, 'Save SVG');
    expect(new TextDecoder().decode(bytes)).toContain('width="17');
  });

  it('a DICOM film without UIDs says which it lacks, and what can be used', async () => {
    const bytes = dicomFile(
      filmElements({ rows: 200, columns: 300, without: ['0008,0018'] }),
      SYNTAX.explicit,
    );
    await begin(1, { name: 'bare.dcm', mimeType: 'application/dicom', buffer: Buffer.from(bytes) });
    const sheet = await openSheet('DICOM');
    await choose(sheet, 'Object', 'Presentation');
    await sheet
      .getByRole('alert')
      .getByText(/Film 1 lacks SOPInstanceUID.*or use the PDF, the note or the table/)
      .waitFor();
  });

  it('films that are not on this computer leave in words, and in no picture', async () => {
    const document = sampleCase();
    const missing = Object.values(document.records).map((record) =>
      record.kind === 'film'
        ? { ...record, sha256: record.id === 'film-1' ? 'a1'.repeat(32) : 'b2'.repeat(32) }
        : record,
    );
    const state = freshState({
      ...document,
      id: caseId('case-without-films'),
      records: Object.fromEntries(missing.map((record) => [record.id, record])),
    });
    const file = Buffer.from(writeCaseFile({ state, films: [], unknownFields: {} }));
    await closeSheet();
    await open(bench.page, { name: 'marks.json', mimeType: 'application/json', buffer: file });
    await bench.page.getByText('· 2 films').waitFor();
    await bench.page.locator('details[data-quantity="angulation"]').waitFor();
    let sheet = await openSheet('Snapshot');
    await sheet
      .getByRole('alert')
      .getByText(/Film 1 has no pixels here.*the patient sheet, the note and the tables can leave now/)
      .waitFor();
    sheet = await openSheet('Record');
    await sheet.getByRole('alert').waitFor();
    await sheet.getByRole('button', { name: 'Film on the plate' }).click();
    await sheet.getByRole('group', { name: 'Page 1' }).getByText('Right hand, small finger, neck').waitFor();
    sheet = await openSheet('Note');
    await sheet.getByRole('region', { name: 'Text that leaves' }).waitFor();
  });

  it('names the characters that the fonts of a page do not have', async () => {
    const { page } = bench;
    await closeSheet();
    await open(page, { name: 'case.json', mimeType: 'application/json', buffer: caseFile() });
    await page.getByText('· 2 films').waitFor();
    const sheet = await openSheet('Patient sheet');
    await sheet.getByLabel('From your clinic').fill('手');
    await sheet.getByRole('alert').getByText('“手” (U+624B)').waitFor();
  });
});
