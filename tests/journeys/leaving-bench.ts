import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Locator, Page } from 'playwright';
import { afterAll, beforeAll, expect } from 'vitest';
import { writeCaseFile } from '../../src/case/case-file.ts';
import { freshState } from '../../src/case/history.ts';
import { IDENTIFYING_TEXTS } from '../record/identities.ts';
import { expectNoIdentityInside } from '../record/look-inside.ts';
import { sampleCase, sourceBytes } from '../record/sample.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';

/** The invented case on two films whose headers, and whose file names here, are full of invented identities. */
export const FILMS = (['film-1', 'film-2'] as const).map((id) => {
  const bytes = new Uint8Array(sourceBytes(id));
  return { id, bytes, sha256: createHash('sha256').update(bytes).digest('hex') };
});

export function caseFile(): Buffer {
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

export const filmFile = ({ id, bytes }: (typeof FILMS)[number]) => ({
  name: `Quillfeather ${id}.dcm`,
  mimeType: 'application/dicom',
  buffer: Buffer.from(bytes),
});

export const open = (page: Page, ...files: readonly { name: string; mimeType: string; buffer: Buffer }[]) =>
  page
    .locator('input[type=file]')
    .first()
    .setInputFiles([...files]);

/** The words that the sheet says once something has left. */
export const done = (sheet: Locator) => sheet.locator('.leaving__done');

export const choose = (sheet: Locator, group: string, option: string) =>
  sheet.getByRole('radiogroup', { name: group }).getByText(option, { exact: true }).click();

/** Presses the button that lets it leave, once it is ready, and gives the bytes of the file, which names nobody however deep. */
export async function saved(
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
export function expectNoLongIdentity(content: Uint8Array | string): void {
  const text = (
    typeof content === 'string' ? content : new TextDecoder('latin1').decode(content)
  ).toLowerCase();
  const long = IDENTIFYING_TEXTS.filter(({ length }) => length > 6);
  expect(long.length).toBeGreaterThan(20);
  expect(long.filter((one) => text.includes(one.toLowerCase()))).toEqual([]);
}

/** The chunks of a PNG by their names, and all bytes outside of its pixels (PNG, 5.3). */
export function chunksOf(png: Uint8Array): {
  readonly names: readonly string[];
  readonly around: Uint8Array;
} {
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

/** One visit for all tests of a file, on the invented case, and its sheet of what leaves. */
export function leavingBench() {
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

  /** A file that leaves without the sheet. */
  const pressed = async (button: Locator) => {
    const [download] = await Promise.all([bench.page.waitForEvent('download'), button.click()]);
    return { name: download.suggestedFilename(), bytes: new Uint8Array(readFileSync(await download.path())) };
  };

  return {
    get page() {
      return bench.page;
    },
    theSheet,
    closeSheet,
    openSheet,
    pressed,
  };
}
