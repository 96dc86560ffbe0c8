import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dicomFile, type FilmOptions, filmElements } from '../film/dicom-file.ts';
import { visitEach } from './browser.ts';

const sample = readFileSync('sample-images/small-neck-lateral.dcm');
const ascii = (text: string) => Buffer.from(text, 'latin1');

/** The sample with the value of one element replaced by another of the same length. */
function withValue(tag: readonly [number, number], value: Buffer): Buffer {
  const copy = Buffer.from(sample);
  const key = Buffer.alloc(4);
  key.writeUInt16LE(tag[0], 0);
  key.writeUInt16LE(tag[1], 2);
  const at = copy.indexOf(key, 132);
  if (at < 0) throw new Error('the sample has no such element');
  value.copy(copy, at + 8);
  return copy;
}
/** A small film, whole but for what is asked. */
const small = (options: FilmOptions): Buffer =>
  Buffer.from(
    dicomFile(
      filmElements({ rows: 40, columns: 30, samples: Array.from({ length: 1200 }, (_, i) => i), ...options }),
    ),
  );
const decimal = (tag: `${string},${string}`, value: string) => ({ tag, vr: 'DS', value });
const uint16 = (value: number) => {
  const bytes = Buffer.alloc(2);
  bytes.writeUInt16LE(value);
  return bytes;
};

/** Name, bytes, and what the sentence must say. Rows are (0028,0010), columns (0028,0011). */
const REFUSED: readonly (readonly [name: string, bytes: Buffer, says: RegExp])[] = [
  ['empty.dcm', Buffer.alloc(0), /“empty\.dcm” is empty/],
  ['letter.dcm', ascii('Dear colleague, please see the attached film.'), /“letter\.dcm” is not a film/],
  ['cut.dcm', sample.subarray(0, 400_000), /“cut\.dcm” .*(cut short|damaged)/],
  ['zero.dcm', withValue([0x0028, 0x0010], uint16(0)), /“zero\.dcm” .*Rows/],
  ['wide.dcm', withValue([0x0028, 0x0011], uint16(65_535)), /“wide\.dcm”/],
  ['no picture.dcm', small({ pixelData: null }), /“no picture\.dcm” holds no picture/],
  ['broken.json', ascii('{ "format": "raybend-case", '), /broken\.json was not opened: it is damaged/],
  ['other.json', ascii('{ "hello": 1 }'), /other\.json was not opened: it is not a Raybend case file/],
  [
    'newer.json',
    ascii('{ "format": "raybend-case", "version": 999, "case": {} }'),
    /newer\.json was not opened: it was written by a newer Raybend/,
  ],
];

const bench = visitEach();

describe('bad input', () => {
  it.each(REFUSED)('%s gives one sentence and leaves the open case alone', async (name, buffer, says) => {
    const { page } = bench;
    await page.locator('input[type=file]').first().setInputFiles({ name, mimeType: '', buffer });
    const message = page.getByRole('log', { name: 'Messages' }).getByText(says);
    await message.waitFor();
    // What happened, then what to do: two sentences at most, the second an instruction.
    expect(((await message.textContent()) ?? '').split(/\.\s/).length).toBeLessThanOrEqual(3);
    await page.getByText('Saved on this computer only · 4 films').waitFor();
    await page.getByRole('heading', { name: 'Right hand, small finger, neck' }).waitFor();
  });

  it('a spacing of 0 or below, or a window of no number, opens with a sentence and no millimetres', async () => {
    const { page } = bench;
    const open = (name: string, extra: FilmOptions['extra']) =>
      page
        .getByLabel('Film files', { exact: true })
        .setInputFiles({ name, mimeType: '', buffer: small({ ...(extra && { extra }) }) });
    await open('zero.dcm', [decimal('0028,0030', '0\\0')]);
    await page.getByText('Pixel Spacing cannot be used: it needs two numbers above 0').waitFor();
    await page.getByText('No scale').first().waitFor();
    await open('negative.dcm', [decimal('0018,1164', '-0.1\\0.1')]);
    await page.getByText('Imager Pixel Spacing cannot be used: it needs two numbers above 0').waitFor();
    await open('window.dcm', [decimal('0028,1050', 'NaN'), decimal('0028,1051', 'NaN')]);
    await page
      .getByRole('log', { name: 'Messages' })
      .getByText(/window\.dcm: Window 1 of the file cannot be used: .*\. Check the brightness and contrast/)
      .waitFor();
    await page.getByText('Saved on this computer only · 7 films').waitFor();
  });

  it('one bad file among good ones does not stop them', async () => {
    const { page } = bench;
    await page
      .locator('input[type=file]')
      .first()
      .setInputFiles([
        { name: 'letter.dcm', mimeType: '', buffer: ascii('Dear colleague') },
        { name: 'ring.dcm', mimeType: '', buffer: readFileSync('sample-images/ring-shaft-pa.dcm') },
        { name: 'empty.png', mimeType: '', buffer: Buffer.alloc(0) },
      ]);
    await page.getByText('Saved on this computer only · 5 films').waitFor();
    const messages = page.getByRole('log', { name: 'Messages' });
    await messages.getByText(/“letter\.dcm” is not a film/).waitFor();
    await messages.getByText(/“empty\.png” is empty/).waitFor();

    // Escape ends what was begun first; only then does it put messages away, the newest first.
    const newest = messages.locator('.message').last();
    const said = await newest.textContent();
    const count = await messages.locator('.message').count();
    await page.getByRole('button', { name: 'Place proximal axis' }).click();
    await page.locator('.plate__prompt').waitFor();
    await page.keyboard.press('Escape');
    await page.locator('.plate__prompt').waitFor({ state: 'detached' });
    expect(await newest.textContent()).toBe(said);
    await page.keyboard.press('Escape');
    await expect.poll(() => messages.locator('.message').count()).toBe(count - 1);
    expect(await messages.getByText(said ?? '').count()).toBe(0);
  });
});
