import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { decode, encode } from 'fast-png';
import { unzipSync } from 'fflate';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeCaseFile } from '../../src/case/case-file.ts';
import { caseId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { readBack } from '../../src/record/dicom/read-back.ts';
import { srDataset } from '../../src/record/dicom/sr.ts';
import { succeeded } from '../case/samples.ts';
import { dicomFile, filmElements, SYNTAX } from '../film/dicom-file.ts';
import { inFolder, itNeeds, outputOf, runTool } from '../outside-tools.ts';
import { asFile, expectSoundObject, itWithDicomTools, written } from '../record/dicom/checked.ts';
import { expectNoIdentity, IDENTIFYING_TEXTS } from '../record/identities.ts';
import { expectNoIdentityInside, identitiesInside } from '../record/look-inside.ts';
import { expectPlainPdf, itWithPdfTools } from '../record/pdf/checked-pdf.ts';
import {
  assessed,
  DEVICE_UID,
  sampleCase,
  sampleSources,
  sourceBytes,
  TRACKING_UIDS,
  writingFacts,
} from '../record/sample.ts';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';

/** The invented case on two films whose headers, and whose file names here, are full of invented identities. */
const FILMS = (['film-1', 'film-2'] as const).map((id) => {
  const bytes = new Uint8Array(sourceBytes(id));
  return { id, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
});

function caseFile(): Buffer {
  const document = sampleCase();
  const records = Object.values(document.records).map((record) =>
    record.kind === 'film' ? { ...record, sha256: FILMS.find(({ id }) => id === record.id)!.sha256 } : record,
  );
  const state = freshState({
    ...document,
    records: Object.fromEntries(records.map((record) => [record.id, record])),
  });
  return Buffer.from(writeCaseFile({ state, films: FILMS, unknownFields: {} }));
}

const filmFile = ({ id, bytes }: (typeof FILMS)[number]) => ({
  name: `Quillfeather ${id}.dcm`,
  mimeType: 'application/dicom',
  buffer: Buffer.from(bytes),
});

const open = (page: Page, ...files: readonly { name: string; mimeType: string; buffer: Buffer }[]) =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles([...files]);

/** The words that the sheet says once something has left. */
const done = (sheet: Locator) => sheet.locator('.leaving__done');

const choose = (sheet: Locator, group: string, option: string) =>
  sheet.getByRole('radiogroup', { name: group }).getByText(option, { exact: true }).click();

/** Presses the button that lets it leave, once it is ready, and gives the bytes of the file, which names nobody however deep. */
async function saved(
  page: Page,
  button: string,
  { mayName = false } = {},
): Promise<{ name: string; bytes: Uint8Array }> {
  const sheet = page.getByRole('dialog');
  const looked = sheet.getByText('I looked at the whole picture: it names nobody.');
  await sheet.locator('.leaving__preview section').first().waitFor();
  if (await looked.isVisible()) {
    // Nothing with a picture leaves before somebody has looked at it.
    expect(await sheet.getByRole('button', { name: button, exact: true }).isDisabled()).toBe(true);
    await looked.click();
  }
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    sheet.getByRole('button', { name: button, exact: true }).click(),
  ]);
  await done(sheet).getByText('Saved as').waitFor();
  const name = download.suggestedFilename();
  const bytes = new Uint8Array(readFileSync(await download.path()));
  if (!mayName) expectNoIdentityInside(name, bytes);
  return { name, bytes };
}

/**
 * What is compressed or in base 64 holds any three letters by chance, and the names of attributes hold some (“Otto”
 * is in “Bottom”): there only the longer texts are looked for, and the rest in what stands around it.
 */
function expectNoLongIdentity(content: Uint8Array | string): void {
  const text = (
    typeof content === 'string' ? content : new TextDecoder('latin1').decode(content)
  ).toLowerCase();
  const long = IDENTIFYING_TEXTS.filter(({ length }) => length > 6);
  expect(long.length).toBeGreaterThan(20);
  expect(long.filter((one) => text.includes(one.toLowerCase()))).toEqual([]);
}

/** The chunks of a PNG by their names, and all bytes outside of its pixels (PNG, 5.3). */
function chunksOf(png: Uint8Array): { readonly names: readonly string[]; readonly around: Uint8Array } {
  const view = new DataView(png.buffer, png.byteOffset);
  const names: string[] = [];
  const around: number[] = [];
  for (let at = 8; at < png.length; at += 12 + view.getUint32(at)) {
    const name = String.fromCharCode(...png.subarray(at + 4, at + 8));
    names.push(name);
    if (name !== 'IDAT') around.push(...png.subarray(at, at + 12 + view.getUint32(at)));
  }
  return { names: [...new Set(names)], around: Uint8Array.from(around) };
}

let bench: Visit;

beforeAll(async () => {
  bench = await visit({ permissions: ['clipboard-read', 'clipboard-write'] });
  await bench.page.getByText('Saved on this computer only · 4 films').waitFor();
  await open(bench.page, { name: 'case.json', mimeType: 'application/json', buffer: caseFile() });
  await bench.page.getByText('Saved on this computer only · 2 films').waitFor();
  await bench.page.locator('details[data-quantity="angulation"]').waitFor();
});

afterAll(async () => {
  // The content security policy of the built app says what it refuses as an error of the page.
  expect(bench.trouble).toEqual([]);
  await bench.close();
  await closeBrowser();
});

const theSheet = () => bench.page.getByRole('dialog', { name: 'What leaves this computer' });

async function closeSheet(): Promise<void> {
  const sheet = theSheet();
  if (!(await sheet.isVisible())) return;
  await sheet.getByRole('button', { name: 'Close' }).click();
  await sheet.waitFor({ state: 'detached' });
}

async function openSheet(button: string): Promise<Locator> {
  const { page } = bench;
  const sheet = theSheet();
  await closeSheet();
  await page.locator('.worksheet').getByRole('button', { name: button, exact: true }).click();
  await sheet.waitFor();
  return sheet;
}

describe('the sheet', () => {
  it.each([
    ['Snapshot', 'Snapshot'],
    ['Record', 'Record'],
    ['Patient sheet', 'Patient sheet'],
    ['Note', 'Note'],
    ['Tables', 'Tables'],
    ['DICOM', 'DICOM'],
  ])('opens from “%s” with the focus on its own page', async (button, page) => {
    const sheet = await openSheet(button);
    const radio = sheet.getByRole('radio', { name: page, exact: true });
    expect(await radio.isChecked()).toBe(true);
    expect(await radio.evaluate((element) => element === document.activeElement)).toBe(true);
  });

  it('is gone through with the keyboard alone, and gives the focus back', async () => {
    await closeSheet();
    const { page } = bench;
    const { keyboard } = page;
    const button = page.locator('.worksheet').getByRole('button', { name: 'Note', exact: true });
    await button.focus();
    await keyboard.press('Enter');
    const sheet = theSheet();
    await sheet.getByRole('region', { name: 'Text that leaves' }).waitFor();
    await keyboard.press('ArrowRight');
    await sheet.getByText('Every reading with its unit').waitFor();
    await keyboard.press('ArrowLeft');
    await sheet.getByRole('region', { name: 'Text that leaves' }).waitFor();
    // The text scrolls, so it is on the way; the button that lets it leave comes after it.
    await keyboard.press('Tab');
    await keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Copy');
    await keyboard.press('Enter');
    await done(sheet).getByText('Copied.').waitFor();
    await keyboard.press('Escape');
    await sheet.waitFor({ state: 'detached' });
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});

describe('what leaves, through the sheet', () => {
  it('a snapshot as PNG holds pixels, their size and nothing else', async () => {
    await openSheet('Snapshot');
    const { name, bytes } = await saved(bench.page, 'Save PNG');
    expect(name).toBe('raybend snapshot day 0.png');
    const { names, around } = chunksOf(bytes);
    expect(names).toEqual(['IHDR', 'pHYs', 'IDAT', 'IEND']);
    expectNoIdentity(around);
    expectNoLongIdentity(bytes);
    const { resolution, width } = decode(bytes);
    // 400 columns of 0.2 mm, each drawn as two pixels: ten to the millimetre, 10,000 to the metre.
    expect(resolution).toMatchObject({ x: 10_000, y: 10_000, unit: 1 });
    expect(width).toBeGreaterThan(800);
  });

  it('a figure of both films, without words, on white', async () => {
    const sheet = await openSheet('Snapshot');
    await sheet.getByText('Film 2.').first().click();
    await sheet.getByRole('button', { name: 'Words beside' }).click();
    await choose(sheet, 'Background', 'White');
    await sheet.locator('.leaving__preview section').first().waitFor();
    const { bytes } = await saved(bench.page, 'Save PNG');
    const { width, height, data, channels } = decode(bytes);
    expect(Array.from(data.subarray(0, 3))).toEqual([255, 255, 255]);
    // Two films of 4 to 5 side by side with white around them are wider than high.
    expect(width).toBeGreaterThan(height);
    // Both are there: on the middle line, left and right of the middle, it is not white.
    const at = (share: number) =>
      data[channels * (Math.round(height / 2) * width + Math.round(share * width))]!;
    const grey = (from: number) =>
      Array.from({ length: 20 }, (_, step) => at(from + step * 0.01)).filter((value) => value < 250).length;
    expect(Math.min(grey(0.15), grey(0.65))).toBeGreaterThan(10);
  });

  it('the part on the plate leaves alone, where the plate shows less than the film', async () => {
    const { page } = bench;
    await page.keyboard.press('Escape');
    const plate = (await page.locator('.plate__host').first().boundingBox())!;
    await page.mouse.move(plate.x + plate.width / 2, plate.y + plate.height / 2);
    for (let step = 0; step < 8; step += 1) await page.mouse.wheel(0, -200);
    const sheet = await openSheet('Snapshot');
    await sheet.getByRole('button', { name: 'Words beside' }).click();
    const whole = decode((await saved(page, 'Save PNG')).bytes);
    await choose(sheet, 'Part', 'As on the plate');
    const part = decode((await saved(page, 'Save PNG')).bytes);
    // Both are as they were stored: millimetres of the picture are its pixels over its pixels to the millimetre.
    const millimetres = ({ width, resolution }: typeof whole) => width / (resolution!.x / 1000);
    // 400 columns of 0.2 mm.
    expect(millimetres(whole)).toBeCloseTo(80, 6);
    expect(millimetres(part)).toBeLessThan(60);
    await sheet.getByRole('button', { name: 'Close' }).click();
    await page.locator('.caption').getByRole('button', { name: 'Whole film' }).first().click();
  });

  it('what is covered is gone from the picture, and has to be looked at anew', async () => {
    const sheet = await openSheet('Snapshot');
    await sheet.getByRole('button', { name: 'Words beside' }).click();
    await sheet.getByRole('button', { name: 'Axes' }).click();
    await sheet.getByRole('button', { name: 'Cover text' }).click();
    const before = await sheet.getByRole('button', { name: /^Remove cover/ }).count();
    await sheet.getByRole('button', { name: 'Add a cover' }).click();
    await expect.poll(() => sheet.getByRole('button', { name: /^Remove cover/ }).count()).toBe(before + 1);
    await sheet.getByRole('button', { name: 'Back to the preview' }).click();
    const { bytes } = await saved(bench.page, 'Save PNG');
    const { width, height, data, channels } = decode(bytes);
    // The cover that the keyboard adds lies in the middle of the film.
    const row = Math.round(height / 2);
    for (let share = 0.4; share < 0.6; share += 0.02)
      expect(data[channels * (row * width + Math.round(share * width))]).toBe(0);
    await sheet.getByRole('button', { name: 'Cover text' }).click();
    await sheet.getByRole('button', { name: `Remove cover ${before + 1}` }).click();
    await sheet.getByRole('button', { name: 'Back to the preview' }).click();
    await sheet.locator('.leaving__preview section').first().waitFor();
    expect(await sheet.getByRole('button', { name: 'Save PNG' }).isDisabled()).toBe(true);
  });

  let svg: Uint8Array = new Uint8Array();
  it('a snapshot as SVG keeps text as text', async () => {
    const sheet = await openSheet('Snapshot');
    await choose(sheet, 'File', 'SVG');
    ({ bytes: svg } = await saved(bench.page, 'Save SVG'));
    const text = new TextDecoder().decode(svg);
    expect(text).toContain('>Cautions<');
    expectNoLongIdentity(svg);
    expectNoIdentity(text.replace(/href="data:[^"]*"/g, ''));
    const pictures = [...text.matchAll(/href="data:image\/png;base64,([^"]*)"/g)];
    expect(pictures.length).toBeGreaterThan(0);
    for (const [, base64 = ''] of pictures) {
      const inner = chunksOf(new Uint8Array(Buffer.from(base64, 'base64')));
      expect(inner.names).toEqual(['IHDR', 'IDAT', 'IEND']);
      expectNoIdentity(inner.around);
    }
  });

  it('and is opened by a browser as a document and as a picture, with nothing missing and text to select', async () => {
    const page = await bench.page.context().newPage();
    const trouble: string[] = [];
    page.on('pageerror', (error) => trouble.push(error.message));
    page.on('console', (message) => trouble.push(message.text()));
    page.on('requestfailed', (request) => trouble.push(request.url().slice(0, 100)));
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url().replace(/^(data:[^,]*).*$/, '$1')));
    const address = 'http://svg.invalid/snapshot.svg';
    await page.route('**/*', (route) =>
      route.request().url() === address
        ? route.fulfill({ contentType: 'image/svg+xml', body: Buffer.from(svg) })
        : route.abort(),
    );
    await page.goto(address);
    const shown = await page.evaluate(() => {
      const root = document.documentElement as unknown as SVGSVGElement;
      const texts = [...document.querySelectorAll('text')];
      const box = root.getBoundingClientRect();
      const outside = texts.filter((text) => {
        const { left, right, top, bottom, width } = text.getBoundingClientRect();
        return (
          width === 0 ||
          left < box.left - 1 ||
          right > box.right + 1 ||
          top < box.top - 1 ||
          bottom > box.bottom + 1
        );
      });
      getSelection()?.selectAllChildren(root);
      return {
        root: root.localName,
        texts: texts.length,
        outside: outside.map((text) => text.textContent),
        selected: getSelection()?.toString() ?? '',
        pictures: [...document.querySelectorAll('image')].map(
          (image) => image.getBoundingClientRect().width > 50,
        ),
        size: [root.width.baseVal.value, root.height.baseVal.value],
      };
    });
    expect(shown).toMatchObject({ root: 'svg', outside: [], pictures: [true] });
    expect(shown.texts).toBeGreaterThan(20);
    // Words that a reader copies out of it.
    for (const words of ['Cautions', 'Knuckles not yet looked at', 'Not a medical device'])
      expect(shown.selected).toContain(words);
    const drawn = await page.evaluate(async () => {
      const image = new Image();
      image.src = location.href;
      await image.decode();
      return [image.naturalWidth, image.naturalHeight];
    });
    expect(drawn).toEqual(shown.size.map(Math.round));
    expect(asked.filter((url) => url !== address && !url.startsWith('data:image/png'))).toEqual([]);
    expect(trouble).toEqual([]);
    await page.close();
  });

  /** A file that leaves without the sheet. */
  const pressed = async (button: Locator) => {
    const [download] = await Promise.all([bench.page.waitForEvent('download'), button.click()]);
    return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
  };

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

  itNeeds('xmllint')('and is well-formed by xmllint', () =>
    inFolder((folder) => {
      const path = join(folder, 'snapshot.svg');
      writeFileSync(path, svg);
      expect(outputOf('xmllint', ['--noout', '--huge', path])).toBe('');
    }),
  );

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
      const shown = await sheet.getByRole('region', { name: 'Text that leaves' }).textContent();
      expect(text.replaceAll('\r\n', '\n')).toBe(shown?.replaceAll('\r\n', '\n'));
      expectNoIdentity(file.bytes);
    }
  });

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

  // Each page by itself: axe looks at every cell of a table, and a busy machine takes its time.
  it.each(['Snapshot', 'Record', 'Patient sheet', 'Note', 'Tables', 'DICOM'])(
    'has no axe violation on the page %s',
    async (kind) => {
      const { page } = bench;
      const sheet = await openSheet(kind);
      // Of the three tables alike, the shortest.
      if (kind === 'DICOM') await choose(sheet, 'Object', 'Presentation');
      await sheet.locator('.leaving__preview section').first().waitFor();
      // All around the sheet is hidden from every reader while it is open.
      expect(await violations(page, { within: 'dialog[open]' })).toEqual([]);
    },
  );

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
        ...succeeded(
          srDataset({
            ...writingFacts(),
            document: sampleCase(),
            assessment: assessed(sampleCase()),
            sources: sampleSources(),
            trackingUids: TRACKING_UIDS,
            deviceObserverUid: DEVICE_UID,
          }),
        ),
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

  describe('and what cannot be made', () => {
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
      const marks = await pressed(
        bench.page.locator('.worksheet').getByRole('button', { name: 'Marks only' }),
      );
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
      await sheet
        .getByRole('group', { name: 'Page 1' })
        .getByText('Right hand, small finger, neck')
        .waitFor();
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
});
