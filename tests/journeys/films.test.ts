import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import type { Element } from '../film/dicom-file.ts';
import { withOrientation } from '../film/picture/jpegs.ts';
import {
  dicom,
  emptyCaseEach,
  films,
  type Given,
  noViolations,
  open,
  patient,
  plate,
  sample,
} from './opened-films.ts';

const current = emptyCaseEach();

describe('files as they come', () => {
  it('opens the one good film among ten hostile files, and says why the others are none', async () => {
    const { page } = current;
    const cut = (at: number) => sample.subarray(0, at);
    const header = Buffer.from(sample.subarray(0, 2000));
    const bomb = Buffer.from(zipSync({ 'zeros.dcm': new Uint8Array(30_000_000) }));
    const hostile: readonly Given[] = [
      { name: 'empty.dcm', buffer: Buffer.alloc(0) },
      { name: 'zeros.dcm', buffer: Buffer.alloc(4096) },
      { name: 'cut.dcm', buffer: cut(300_000) },
      { name: 'header.dcm', buffer: header },
      { name: 'preamble.dcm', buffer: Buffer.concat([Buffer.alloc(128), Buffer.from('DICM')]) },
      { name: 'half.png', buffer: plate.subarray(0, plate.length / 2) },
      { name: 'half.jpg', buffer: Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 16, 0x4a, 0x46, 0x49, 0x46]) },
      { name: 'letter.pdf', buffer: Buffer.from('%PDF-1.7 Dear colleague') },
      { name: '<img src=x onerror=alert(1)>.dcm', buffer: Buffer.from('<script>alert(1)</script>') },
      { name: 'bomb.zip', buffer: bomb },
    ];
    await open(page, ...hostile.slice(0, 5), { name: 'good.dcm', buffer: sample }, ...hostile.slice(5));
    const sheet = page.getByRole('dialog', { name: 'Films found' });
    await sheet.getByText('1 film found in 11 files.').waitFor();
    await sheet.getByRole('checkbox', { name: /good\.dcm/ }).waitFor();
    await sheet.getByText('10 files left out, and why').click();
    expect(await sheet.locator('.found__others li').count()).toBe(10);
    for (const { name } of hostile) await sheet.getByText(name.slice(0, 20)).first().waitFor();
    await noViolations(page);
    await sheet.getByRole('button', { name: 'Add 1 film' }).click();
    await films(page, 1);
    await page.getByText('0.190 mm per pixel').waitFor();
  });

  it('takes markup in any attribute for plain text', async () => {
    const { page } = current;
    const markup = '<img src=x onerror="window.hit=1"><script>window.hit=1</script>';
    const extra = [
      ['0008,0070', 'LO'],
      ['0008,0080', 'LO'],
      ['0008,1030', 'LO'],
      ['0008,103e', 'LO'],
      ['0008,1090', 'LO'],
      ['0010,0010', 'PN'],
      ['0010,0020', 'LO'],
      ['0010,4000', 'LT'],
      ['0018,0015', 'CS'],
      ['0018,1400', 'LO'],
      ['0018,5101', 'CS'],
      ['0020,0020', 'CS'],
      ['0020,0062', 'CS'],
      ['0020,4000', 'LT'],
      ['0028,0a04', 'LO'],
      ['0028,1055', 'LO'],
    ].map(([tag, vr]): Element => ({ tag: tag!, vr: vr!, value: markup }) as Element);
    const spacing: Element[] = [
      { tag: '0028,0030', vr: 'DS', value: '0.2\\0.2' },
      { tag: '0028,0a02', vr: 'CS', value: 'FIDUCIAL' },
      { tag: '0028,1050', vr: 'DS', value: '600' },
      { tag: '0028,1051', vr: 'DS', value: '1200' },
    ];
    const elements = [...extra, ...spacing].toSorted((one, other) => one.tag.localeCompare(other.tag));
    await open(page, { name: `${markup}.dcm`, buffer: dicom(1, elements) });
    await films(page, 1);
    await page.getByText('0.200 mm per pixel').waitFor();
    expect(await page.evaluate(() => 'hit' in window)).toBe(false);
    expect(await page.locator('img[onerror], body script:not([src])').count()).toBe(0);
  });

  it('opens a few good files at once beside a bad one, which says why in a sentence', async () => {
    const { page } = current;
    await open(
      page,
      { name: 'one.dcm', buffer: dicom(1) },
      { name: 'bad.dcm', buffer: Buffer.from('nothing') },
      { name: 'two.dcm', buffer: dicom(7) },
    );
    await films(page, 2);
    await page.getByRole('log', { name: 'Messages' }).getByText('“bad.dcm” is not a film').waitFor();
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('says what was odd about a film, and no longer over the film of another case', async () => {
    const { page } = current;
    await open(page, { name: 'turned.jpg', buffer: Buffer.from(withOrientation(6)) });
    await films(page, 1);
    const note = page.getByText('turned.jpg: The picture was turned upright as its camera data (EXIF) asks.');
    await note.waitFor();
    await page.getByRole('button', { name: 'New case' }).click();
    await films(page, 0);
    expect(await note.count()).toBe(0);
  });

  it('takes several opened together as one step of history: undone, redone and kept as one', async () => {
    const { page } = current;
    const three = [1, 7, 13].map((shade) => ({ name: `${shade}.dcm`, buffer: dicom(shade) }));
    await open(page, ...three);
    await films(page, 3);
    await page.getByRole('button', { name: 'Undo open 3 films' }).click();
    await films(page, 0);
    expect(await page.locator('.strip__film').count()).toBe(0);
    // Nothing else was done in this case, so nothing else is there to be undone.
    expect(await page.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
    await page.getByRole('button', { name: 'Redo open 3 films' }).click();
    await films(page, 3);
    await page.reload();
    await films(page, 3);
    await expect.poll(() => page.locator('.strip__film img').count()).toBe(3);
    await page.getByRole('button', { name: 'Undo open 3 films' }).click();
    await films(page, 0);
    await page.reload();
    await page.getByRole('button', { name: 'Redo open 3 films' }).click();
    await films(page, 3);
    // Their bytes were kept all the while: the first is on the plate again.
    await page.locator('.strip__film').first().click();
    await page.locator('figcaption.caption').waitFor();
  });

  it('lists what is in an archive, adds what is chosen, by keyboard alone', async () => {
    const { page } = current;
    const many = Object.fromEntries(Array.from({ length: 6 }, (_, i) => [`DICOM/IM${i}`, dicom(i)] as const));
    const archive = zipSync({
      ...many,
      'AUTORUN.INF': strToU8('[autorun]'),
      'HELP.PDF': strToU8('%PDF-1.4'),
    });
    await open(page, { name: 'disc.zip', buffer: Buffer.from(archive) });
    const sheet = page.getByRole('dialog', { name: 'Films found' });
    await sheet.getByText('6 films found in 1 file.').waitFor();
    // More than a few: none is chosen beforehand.
    expect(await sheet.getByRole('checkbox', { checked: true }).count()).toBe(0);
    await sheet
      .getByText(/CR · 30 × 40 pixels/)
      .first()
      .waitFor();
    await sheet.getByRole('checkbox', { name: /IM2/ }).focus();
    await page.keyboard.press('Space');
    await sheet.getByRole('checkbox', { name: /IM4/ }).focus();
    await page.keyboard.press('Space');
    await noViolations(page);
    await sheet.getByRole('button', { name: 'Add 2 films' }).focus();
    await page.keyboard.press('Enter');
    await films(page, 2);
    await sheet.waitFor({ state: 'hidden' });
    expect(await page.getByRole('dialog').count()).toBe(0);
  });

  it('looks through a folder; Escape adds nothing', async () => {
    const { page } = current;
    const folder = await mkdtemp(join(tmpdir(), 'raybend-disc-'));
    try {
      await mkdir(join(folder, 'DICOM', 'A'), { recursive: true });
      await writeFile(join(folder, 'DICOM', 'A', 'IM1'), dicom(1));
      await writeFile(join(folder, 'DICOM', 'A', 'IM2'), dicom(2));
      await writeFile(join(folder, 'viewer.exe'), Buffer.from('MZ not a film at all'));
      const input = page.getByLabel('Folder of films');
      await input.setInputFiles(folder);
      const sheet = page.getByRole('dialog', { name: 'Films found' });
      await sheet.getByText('2 films found in 3 files.').waitFor();
      await sheet.getByText(/DICOM\/A\/IM1/).waitFor();
      expect(await sheet.getByRole('checkbox', { checked: true }).count()).toBe(2);
      await page.keyboard.press('Escape');
      await sheet.waitFor({ state: 'detached' });
      await films(page, 0);
    } finally {
      await rm(folder, { recursive: true });
    }
  });

  it('lets one picture of several be chosen, and another be opened later', async () => {
    const { page } = current;
    await open(page, { name: 'run.dcm', buffer: dicom(0, [], 5) });
    const sheet = page.getByRole('dialog', { name: 'Films found' });
    await sheet.getByText('of 5 pictures').waitFor();
    const which = sheet.getByRole('textbox', { name: 'Picture of run.dcm, 1 to 5' });
    await which.fill('3');
    await which.press('Enter');
    await sheet.getByRole('button', { name: 'Add 1 film' }).click();
    await films(page, 1);
    await page.getByText('Side and parts of the picture').click();
    await page.getByText('Picture 3 of 5').waitFor();
    const other = page.getByRole('textbox', { name: 'Another picture of the file' });
    await other.fill('5');
    await other.press('Enter');
    await page.getByRole('button', { name: 'Open it too' }).click();
    await films(page, 2);
    await page.reload();
    await films(page, 2);
  });

  it('asks when films name different patients, and neither shows nor keeps who they are', async () => {
    const { page } = current;
    await open(
      page,
      { name: 'a.dcm', buffer: dicom(1, patient('7001')) },
      { name: 'b.dcm', buffer: dicom(2, patient('7002')) },
    );
    const sheet = page.getByRole('dialog', { name: 'Films found' });
    await sheet.getByText('These films name different patients.').waitFor();
    await sheet.getByText('patient A').waitFor();
    await sheet.getByText('patient B').waitFor();
    expect(await sheet.getByRole('checkbox', { checked: true }).count()).toBe(0);
    await noViolations(page);
    await sheet.getByRole('checkbox', { name: /a\.dcm/ }).check();
    await sheet.getByRole('button', { name: 'Add 1 film' }).click();
    await films(page, 1);
    // The next film of the same patient goes straight in; one of another patient is asked about.
    await open(page, { name: 'a2.dcm', buffer: dicom(3, patient('7001')) });
    await films(page, 2);
    await open(page, { name: 'b.dcm', buffer: dicom(2, patient('7002')) });
    await sheet.getByText('These films name different patients.').waitFor();
    await sheet.getByRole('button', { name: 'Add none' }).click();
    const text = await page.evaluate(() => document.documentElement.outerHTML);
    const kept = await page.evaluate(async () => {
      const names = (await indexedDB.databases()).map(({ name }) => name ?? '');
      const rows = await Promise.all(
        names.map(
          (name) =>
            new Promise((done, fail) => {
              const request = indexedDB.open(name);
              request.onerror = () => fail(request.error);
              request.onsuccess = async () => {
                const database = request.result;
                const stores = [...database.objectStoreNames];
                const all = await Promise.all(
                  stores.map(
                    (store) =>
                      new Promise((found) => {
                        const asked = database.transaction(store).objectStore(store).getAll();
                        asked.onsuccess = () => found(asked.result);
                      }),
                  ),
                );
                database.close();
                done(all);
              };
            }),
        ),
      );
      return JSON.stringify([rows, { ...localStorage }]);
    });
    for (const trace of ['7001', '7002', 'INVENTED^']) {
      expect(text).not.toContain(trace);
      expect(kept).not.toContain(trace);
    }
    expect(kept.length).toBeGreaterThan(500);
  });
});
