import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { decode } from 'fast-png';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { sharedFilms } from '../shared-films.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';
import { type Spot, screenOf } from './sample-film.ts';

/**
 * Real radiographs that are no part of this repository (see their MANIFEST.md). The computed radiograph of an
 * ankle carries an invented name, so that it can be searched for in what leaves.
 */
const folder = sharedFilms();
const DICOM = ['dev_ele', 'dev_ile', 'dev_j57sv6', 'dev_j70'] as const;
const HANDS = ['IMG0002312', 'IMG0003310', '01_16_X-ray_of_Hand'] as const;

const pathOf = (...parts: string[]) => sharedFilms(...parts)!;

let bench: Visit;

beforeEach(async () => {
  bench = await visit();
  await bench.page.getByText('Saved on this computer only · 4 films').waitFor();
  await bench.page.getByRole('button', { name: 'New case' }).click();
  await bench.page.getByText('Saved on this computer only · 0 films').waitFor();
});

afterEach(async () => {
  expect(bench.trouble).toEqual([]);
  await bench.close();
});

afterAll(closeBrowser);

async function open(page: Page, path: string): Promise<void> {
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: basename(path), mimeType: '', buffer: readFileSync(path) });
  await page.getByText('Saved on this computer only · 1 film').waitFor();
}

describe.skipIf(folder === null && process.env.CI !== 'true')('real films', () => {
  it.each(DICOM)('%s opens with its spacing', async (name) => {
    await open(bench.page, pathOf('dicom', `${name}.dcm`));
    await bench.page.getByText('0.150 mm per pixel').waitFor();
    await bench.page
      .getByText(/at the detector/)
      .first()
      .waitFor();
  });

  it.each(HANDS)('%s opens without a scale and says so', async (name) => {
    await open(bench.page, pathOf('hands', `${name}.jpg`));
    await bench.page.getByText('No scale').first().waitFor();
  });

  it('measures an angle known by construction on a real DICOM film, and nothing of its header leaves', async () => {
    const { page } = bench;
    await page.getByRole('radio', { name: 'Right' }).click({ force: true });
    await page.getByRole('radio', { name: 'small finger, shaft' }).click();
    await open(page, pathOf('dicom', 'dev_ele.dcm'));
    await page.getByRole('radio', { name: 'Lateral' }).click({ force: true });
    // 200 × 256 square pixels. Straight up, then 100 right and 100 up: 45° apart.
    const film = { columns: 200, rows: 256 };
    const click = async (spot: Spot) => {
      const { x, y } = await screenOf(page, spot, film);
      await page.mouse.click(x, y);
    };
    const free = async (axis: string, ends: readonly [Spot, Spot]) => {
      await page.getByRole('button', { name: `How the ${axis} is drawn` }).click();
      await page.getByRole('option', { name: 'free line' }).click();
      await page.getByRole('button', { name: `Place ${axis}` }).click();
      for (const end of ends) await click(end);
    };
    await free('proximal axis', [
      { column: 60, row: 230 },
      { column: 60, row: 140 },
    ]);
    await free('distal axis', [
      { column: 60, row: 130 },
      { column: 160, row: 30 },
    ]);
    const line = page.locator('details[data-quantity="angulation"] summary');
    await line.waitFor();
    const [, value, plusMinus] = /([\d.]+)°\s*±\s*([\d.]+)/.exec((await line.textContent()) ?? '') ?? [];
    expect(Math.abs(Number(value) - 45)).toBeLessThanOrEqual(Number(plusMinus));
    expect(Math.abs(Number(value) - 45)).toBeLessThanOrEqual(1.5);

    await page.getByRole('button', { name: 'Snapshot' }).click();
    const dialog = page.getByRole('dialog', { name: 'What leaves this computer' });
    for (const format of ['PNG', 'SVG'] as const) {
      await dialog.getByRole('radio', { name: format }).click({ force: true });
      // A film of unknown origin leaves only after somebody has looked at it.
      await dialog.getByText('I looked at the whole picture: it names nobody.').click();
      const [saved] = await Promise.all([
        page.waitForEvent('download'),
        dialog.getByRole('button', { name: `Save ${format}` }).click(),
      ]);
      const bytes = readFileSync((await saved.path())!);
      expect(saved.suggestedFilename()).toBe(`raybend snapshot.${format.toLowerCase()}`);
      for (const secret of secretsOf(readFileSync(pathOf('dicom', 'dev_ele.dcm')))) {
        expect(bytes.includes(secret), `${secret} in ${format}`).toBe(false);
      }
      if (format === 'PNG') {
        const picture = decode(bytes);
        expect(picture.text).toEqual({});
        // The film keeps at least its own resolution.
        expect(picture.width).toBeGreaterThan(film.columns);
        expect(picture.height).toBeGreaterThanOrEqual(film.rows);
      }
    }
  });
});

/** Name (0010,0010), id (0010,0020) and every UID of the film, as they stand in its header. */
function secretsOf(file: Buffer): readonly string[] {
  const text = file.toString('latin1');
  const uids = text.match(/1\.2\.840\.(?!10008)[\d.]{10,}/g) ?? [];
  const names = ['\x10\x00\x10\x00PN', '\x10\x00\x20\x00LO'].flatMap((key) => {
    const at = text.indexOf(key);
    if (at < 0) return [];
    const length = file.readUInt16LE(at + 6);
    return [text.slice(at + 8, at + 8 + length).trim()];
  });
  return [...new Set([...uids, ...names, 'dev_ele'])].filter((secret) => secret.length > 3);
}
