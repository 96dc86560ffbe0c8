import dcmjsCodecs from 'dcmjs-codecs';
import { decode } from 'fast-png';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { largeFilmFile } from '../film/large-film-file.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';

const { NativeCodecs, Transcoder } = dcmjsCodecs;

const COLUMNS = 1700;
const ROWS = 2500;
const FIRST = 'A first, coarse picture:';

/** A light slanted shaft with dark cortices' edges on a ground that grows lighter, in JPEG 2000 without loss. */
let film: Buffer;

beforeAll(async () => {
  await NativeCodecs.initializeAsync();
  const values = Uint16Array.from({ length: COLUMNS * ROWS }, (_, i) => {
    const [column, row] = [i % COLUMNS, Math.floor(i / COLUMNS)];
    const across = Math.abs(column - 500 - row * 0.25);
    return (across < 160 ? 2600 - 4 * across : 300 + (row >> 2)) + ((i * 7919) % 37);
  });
  const file = largeFilmFile(COLUMNS, ROWS, values);
  const transcoder = new Transcoder(file.slice().buffer as ArrayBuffer);
  transcoder.transcode('1.2.840.10008.1.2.4.90');
  film = Buffer.from(transcoder.getDicomPart10());
});

declare global {
  interface Window {
    /** Films that a worker has answered with and the page has not been given yet. */
    heldFilms: (() => void)[];
    /** Kept for the time after a reload. */
    holdFilms: boolean;
  }
}

/** Runs in the page before the app: what a worker says of a whole film waits until it is let go. */
function holdWholeFilms(): void {
  window.heldFilms = [];
  window.holdFilms = sessionStorage.getItem('hold-films') === 'yes';
  const Plain = window.Worker;
  window.Worker = class extends Plain {
    override addEventListener(type: string, listener: EventListenerOrEventListenerObject): void {
      super.addEventListener(type, (event) => {
        const hear = () =>
          typeof listener === 'function' ? listener.call(this, event) : listener.handleEvent(event);
        const isFilm = Boolean((event as MessageEvent).data?.value?.value?.levels);
        if (isFilm && window.holdFilms) window.heldFilms.push(hear);
        else hear();
      });
    }
  };
}

let current: Visit;

beforeEach(async () => {
  current = await visit({ before: holdWholeFilms });
  const { page } = current;
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.getByRole('button', { name: 'New case' }).click();
  await films(0);
  await page.evaluate(() => {
    sessionStorage.setItem('hold-films', 'yes');
    window.holdFilms = true;
  });
});

afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});

afterAll(closeBrowser);

const films = (count: number) =>
  current.page
    .getByText(`Saved on this computer only · ${count} ${count === 1 ? 'film' : 'films'}`)
    .waitFor();

const open = () =>
  current.page
    .getByLabel('Film files', { exact: true })
    .setInputFiles({ name: 'large.dcm', buffer: film, mimeType: 'application/octet-stream' });

/** Lets one whole film through as soon as a worker has answered with it. */
async function letGo(page: Page): Promise<void> {
  await page.waitForFunction(() => window.heldFilms.length > 0);
  await page.evaluate(() => window.heldFilms.shift()?.());
}

const isFirstShown = (page: Page) => page.getByText(FIRST).isVisible();

/** Grey of every eighth pixel of the plate's lower half, which no sign covers. */
async function greysOf(page: Page): Promise<readonly number[]> {
  const { data, width, height, channels } = decode(await page.locator('.plate').screenshot());
  const greys: number[] = [];
  for (let y = Math.floor(height / 2); y < height - 40; y += 8)
    for (let x = 4; x < width; x += 8) greys.push(data[(y * width + x) * channels]!);
  return greys;
}

describe('a large film in JPEG 2000', () => {
  it('is on the plate as a coarse picture, in its place, before it is whole; nothing can be placed on it', async () => {
    const { page } = current;
    await open();
    await page.getByText(FIRST).waitFor();
    // The whole is still being decoded, or held.
    await films(0);
    expect(await page.locator('.plate canvas').count()).toBe(1);
    expect(await page.locator('.plate button').count()).toBe(0);
    const coarse = await greysOf(page);
    await letGo(page);
    await films(1);
    await page.getByText(FIRST).waitFor({ state: 'hidden' });
    await expect.poll(() => page.locator('.plate button').count()).toBeGreaterThan(0);
    let whole: readonly number[] = [];
    const difference = async () => {
      whole = await greysOf(page);
      return whole.reduce((sum, grey, i) => sum + Math.abs(grey - coarse[i]!), 0) / whole.length;
    };
    // The same shaft at the same place: moved by a hundredth of the plate it would differ by more.
    await expect.poll(difference).toBeLessThan(2);
    expect(Math.max(...whole) - Math.min(...whole), 'there is something to see').toBeGreaterThan(100);
  });

  it('comes so again when its case is opened again', async () => {
    const { page } = current;
    await open();
    await letGo(page);
    await films(1);
    await page.reload();
    await page.getByText(FIRST).waitFor();
    await films(1);
    await letGo(page);
    await page.getByText(FIRST).waitFor({ state: 'hidden' });
    await page.getByText('0.100 mm per pixel').waitFor();
  });

  it('leaves no picture in a case that has taken the place of the one it was opened in', async () => {
    const { page } = current;
    await open();
    await page.getByText(FIRST).waitFor();
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByText(FIRST).waitFor({ state: 'hidden' });
    await letGo(page);
    await page.getByText('Another case was opened while the film was being read').waitFor();
    expect(await isFirstShown(page)).toBe(false);
    await films(0);
  });
});
