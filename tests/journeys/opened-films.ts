import { readFileSync } from 'node:fs';
import { encode } from 'fast-png';
import type { Page } from 'playwright';
import { beforeEach, expect } from 'vitest';
import { dicomFile, type Element, filmElements } from '../film/dicom-file.ts';
import { violations } from './axe.ts';
import { type EachVisit, visitEach } from './browser.ts';

/** Films made for journeys, and how a journey opens them. */

export const COLUMNS = 600;
export const ROWS = 400;
/** A disc of 240 pixels across in the right half of the plate: 24 mm then make 0.1 mm per pixel. */
export const DISC = { column: 450, row: 200, radius: 120 };

/** Two exposures on one plate, drawn here: a dark band parts them; the right one shows a disc. */
export const plate = Buffer.from(
  encode({
    width: COLUMNS,
    height: ROWS,
    channels: 1,
    depth: 8,
    data: Uint8Array.from({ length: COLUMNS * ROWS }, (_, i) => {
      const [column, row] = [i % COLUMNS, Math.floor(i / COLUMNS)];
      if (Math.abs(column - COLUMNS / 2) < 10) return 0;
      const inDisc = Math.hypot(column + 0.5 - DISC.column, row + 0.5 - DISC.row) < DISC.radius;
      return inDisc ? 220 : column < COLUMNS / 2 ? 60 : 110;
    }),
  }),
);

export const patient = (id: string): Element[] => [
  { tag: '0010,0010', vr: 'PN', value: `INVENTED^${id}` },
  { tag: '0010,0020', vr: 'LO', value: id },
];
export const dicom = (shade: number, extra: readonly Element[] = [], frames = 1): Buffer =>
  Buffer.from(
    dicomFile(
      filmElements({
        rows: 40,
        columns: 30,
        samples: Array.from(
          { length: 1200 * frames },
          (_, i) => (i % 600) + shade + Math.floor(i / 1200) * 40,
        ),
        extra: [
          ...extra,
          ...(frames > 1 ? [{ tag: '0028,0008', vr: 'IS', value: `${frames}` } as const] : []),
        ],
      }),
    ),
  );

export const sample = readFileSync('sample-images/small-neck-lateral.dcm');

export interface Given {
  readonly name: string;
  readonly buffer: Buffer;
}
export const open = (page: Page, ...files: readonly Given[]) =>
  page
    .getByLabel('Film files', { exact: true })
    .setInputFiles(files.map((file) => ({ ...file, mimeType: 'application/octet-stream' })));

export const films = (page: Page, count: number) =>
  page.getByText(`Saved on this computer only · ${count} ${count === 1 ? 'film' : 'films'}`).waitFor();

export async function noViolations(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
}

/** Takes an empty case in place of the one on screen. */
export async function emptyCase(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'New case' }).click();
  await films(page, 0);
}

/** For each test of a file a fresh visit with an empty case; whatever went wrong on the page fails it. */
export function emptyCaseEach(): EachVisit {
  const current = visitEach();
  beforeEach(() => emptyCase(current.page));
  return current;
}
