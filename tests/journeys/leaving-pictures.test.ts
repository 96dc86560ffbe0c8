import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { inFolder, itNeeds, outputOf } from '../outside-tools.ts';
import { expectNoIdentity } from '../record/identities.ts';
import { choose, chunksOf, expectNoLongIdentity, leavingBench, saved } from './leaving-bench.ts';

const bench = leavingBench();
const { openSheet } = bench;

describe('a picture that leaves', () => {
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

  itNeeds('xmllint')('and is well-formed by xmllint', () =>
    inFolder((folder) => {
      const path = join(folder, 'snapshot.svg');
      writeFileSync(path, svg);
      expect(outputOf('xmllint', ['--noout', '--huge', path])).toBe('');
    }),
  );
});
