import { readFileSync } from 'node:fs';
import type { Download, Page } from 'playwright';
import { beforeEach } from 'vitest';
import { type EachVisit, visitEach } from './browser.ts';

export const importing = (page: Page, name: string, buffer: Buffer) =>
  page
    .getByLabel('Case files and archives')
    .setInputFiles({ name, mimeType: 'application/octet-stream', buffer });

export const said = (page: Page, text: string | RegExp) =>
  page.getByRole('log', { name: 'Messages' }).getByText(text).waitFor();

export const toCases = async (page: Page) => {
  await page.getByRole('link', { name: 'Cases' }).click();
  await page.getByRole('heading', { name: 'Cases' }).waitFor();
};

export const labels = async (page: Page) => page.locator('.case-table__name').allTextContents();

export async function bytesOf(download: Download): Promise<Uint8Array> {
  return new Uint8Array(readFileSync(await download.path()));
}

/** For each test of a file a fresh visit to the list of cases, which holds the sample case. */
export function casesEach(): EachVisit {
  const current = visitEach();
  beforeEach(async () => {
    await current.page.getByRole('link', { name: 'Cases' }).click();
    await current.page.getByRole('row', { name: /Sample case/ }).waitFor();
  });
  return current;
}
