import { readFileSync } from 'node:fs';
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { encode } from 'fast-png';
import { strToU8, zipSync } from 'fflate';
import type { Page } from 'playwright';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { dicomFile, type Element, filmElements } from '../film/dicom-file.ts';
import { withOrientation } from '../film/picture/jpegs.ts';
import { violations } from './axe.ts';
import { closeBrowser, type Visit, visit } from './browser.ts';

const COLUMNS = 600;
const ROWS = 400;
/** A disc of 240 pixels across in the right half of the plate: 24 mm then make 0.1 mm per pixel. */
const DISC = { column: 450, row: 200, radius: 120 };

/** Two exposures on one plate, drawn here: a dark band parts them; the right one shows a disc. */
const plate = Buffer.from(
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

const patient = (id: string): Element[] => [
  { tag: '0010,0010', vr: 'PN', value: `INVENTED^${id}` },
  { tag: '0010,0020', vr: 'LO', value: id },
];
const dicom = (shade: number, extra: readonly Element[] = [], frames = 1): Buffer =>
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

const sample = readFileSync('sample-images/small-neck-lateral.dcm');

let current: Visit;

async function emptyCase(): Promise<void> {
  const { page } = current;
  await page.getByText('Saved on this computer only · 4 films').waitFor();
  await page.getByRole('button', { name: 'New case' }).click();
  await page.getByText('Saved on this computer only · 0 films').waitFor();
}

beforeEach(async () => {
  current = await visit();
  await emptyCase();
});

afterEach(async () => {
  expect(current.trouble).toEqual([]);
  await current.close();
});

afterAll(closeBrowser);

interface Given {
  readonly name: string;
  readonly buffer: Buffer;
}
const open = (page: Page, ...files: readonly Given[]) =>
  page
    .getByLabel('Film files', { exact: true })
    .setInputFiles(files.map((file) => ({ ...file, mimeType: 'application/octet-stream' })));

const films = (page: Page, count: number) =>
  page.getByText(`Saved on this computer only · ${count} ${count === 1 ? 'film' : 'films'}`).waitFor();

async function noViolations(page: Page): Promise<void> {
  expect(await violations(page)).toEqual([]);
}

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

describe('parts of a picture', () => {
  const toParts = async (page: Page) => {
    await open(page, { name: 'plate.png', buffer: plate });
    await films(page, 1);
    await page.getByText('Side and parts of the picture').click();
  };

  it('makes two films of two exposures on one plate, keeps their file once, and can be undone', async () => {
    const { page } = current;
    await toParts(page);
    await page.getByRole('button', { name: 'Split' }).click();
    const sheet = page.getByRole('dialog', { name: 'Several exposures on one picture' });
    const picture = (await sheet.getByRole('group', { name: 'The whole picture' }).boundingBox())!;
    const scale = Math.min(picture.width / COLUMNS, picture.height / ROWS);
    const at = (column: number, row: number) => ({
      x: picture.x + picture.width / 2 + (column - COLUMNS / 2) * scale,
      y: picture.y + picture.height / 2 + (row - ROWS / 2) * scale,
    });
    const draw = async (from: readonly [number, number], to: readonly [number, number]) => {
      const [start, end] = [at(...from), at(...to)];
      await page.mouse.move(start.x, start.y);
      await page.mouse.down();
      await page.mouse.move(end.x, end.y, { steps: 4 });
      await page.mouse.up();
    };
    await draw([20, 20], [280, 380]);
    await draw([580, 380], [320, 20]);
    await sheet.getByText(/Part 1: 26\d × 36\d pixels|Part 1: 25\d × 3[56]\d pixels/).waitFor();
    // The keyboard moves a corner: ten screen pixels with Shift.
    const corner = sheet.getByRole('button', { name: /Part 2, bottom right corner/ });
    await corner.focus();
    const before = await corner.getAttribute('aria-label');
    await page.keyboard.press('Shift+ArrowLeft');
    expect(await corner.getAttribute('aria-label')).not.toBe(before);
    await noViolations(page);
    await sheet.getByRole('button', { name: 'Make 2 films' }).click();
    await films(page, 2);
    await page.getByText('Part of a picture').waitFor();
    const files = () =>
      page.evaluate(async () => {
        const names: string[] = [];
        const root = await navigator.storage.getDirectory();
        for await (const name of (await root.getDirectoryHandle('films')).keys()) names.push(name);
        return names.length;
      });
    // Four sample films and the one plate.
    expect(await files()).toBe(5);
    await page.reload();
    await films(page, 2);
    await page.getByRole('button', { name: 'Undo split the picture' }).click();
    await films(page, 1);
  });

  it('straightens a photograph by its corners, or keeps a caution with the degrees', async () => {
    const { page } = current;
    await toParts(page);
    const slant = async () => {
      await page.getByRole('button', { name: 'Straighten' }).click();
      const sheet = page.getByRole('dialog', { name: 'Photographed at a slant' });
      await sheet.getByRole('button', { name: /Top left corner of the sheet/ }).focus();
      for (let i = 0; i < 8; i += 1) await page.keyboard.press('Shift+ArrowRight');
      await sheet.getByText(/an angle in the middle may be wrong by up to \d+\.\d°/).waitFor();
      return sheet;
    };
    const first = await slant();
    await noViolations(page);
    await first.getByRole('button', { name: 'Leave it slanted, with a caution' }).click();
    await page.getByText(/angles may be wrong by up to \d+\.\d°/).waitFor();
    await page.getByRole('button', { name: /more cautions?/ }).click();
    await page.getByText('Photographed at a slant and not straightened').first().waitFor();
    const second = await slant();
    // Pressed, not only there: what opens outside a modal sheet is seen and cannot be reached.
    await second.getByRole('button', { name: /Proportion/ }).click();
    await page.getByRole('option', { name: '24 × 30 cm, upright' }).click();
    await second.getByRole('button', { name: /24 × 30 cm, upright/ }).waitFor();
    await second.getByRole('button', { name: 'Straighten' }).click();
    await page.getByText('Straightened by its corners').waitFor();
    await films(page, 1);
    expect(await page.getByText('Photographed at a slant and not straightened').count()).toBe(0);
  });
});

describe('scale and side', () => {
  it('takes the scale from a round object, in millimetres or inches, and gives it back', async () => {
    const { page } = current;
    await open(page, { name: 'plate.png', buffer: plate });
    await films(page, 1);
    await page.getByText('No scale').first().waitFor();
    await page.getByRole('button', { name: 'Set the scale', exact: true }).click();
    await page.getByRole('button', { name: 'Place object of known size' }).click();
    const host = (await page.locator('.plate__host').boundingBox())!;
    const scale = Math.min(host.width / COLUMNS, host.height / ROWS);
    for (const turn of [10, 130, 250]) {
      const column = DISC.column + DISC.radius * Math.cos((turn * Math.PI) / 180);
      const row = DISC.row + DISC.radius * Math.sin((turn * Math.PI) / 180);
      await page.mouse.click(
        host.x + host.width / 2 + (column - COLUMNS / 2) * scale,
        host.y + host.height / 2 + (row - ROWS / 2) * scale,
      );
    }
    const size = page.getByRole('textbox', { name: 'Its diameter' });
    await size.fill('24');
    await page.getByRole('button', { name: 'Use it' }).click();
    await page.getByText('“24” has no unit').waitFor();
    await noViolations(page);
    await size.fill('24 mm');
    await page.getByRole('textbox', { name: /Give or take/ }).fill('0.5 mm');
    await page.getByRole('button', { name: 'Use it' }).click();
    // The disc is 240 pixels across by construction: 24 mm make 0.100 mm per pixel.
    await page.getByText(/^0\.(099|100|101) mm per pixel/).waitFor();
    await page.getByText(/by an object of 24 mm ± 0.5 mm that lay beside the bone, ±\s\d\.\d\s%/).waitFor();
    await page.getByRole('button', { name: 'Back to the file’s' }).click();
    await page.getByText('No scale').first().waitFor();
    await page.getByRole('button', { name: 'Set the scale', exact: true }).click();
    await page.getByRole('textbox', { name: 'Its diameter' }).fill('1 in');
    await page.getByRole('button', { name: 'Use it' }).click();
    // 25.4 mm over 240 pixels: 0.106 mm.
    await page.getByText(/^0\.10[567] mm per pixel/).waitFor();
    // The scale goes with its object.
    await page.getByRole('button', { name: 'Set the scale', exact: true }).click();
    await page.getByRole('button', { name: 'Remove the object' }).click();
    await page.getByText('No scale').first().waitFor();
  });

  it('takes a second known length into the scale, and says when the two disagree', async () => {
    const { page } = current;
    await open(page, { name: 'plate.png', buffer: plate });
    await films(page, 1);
    const host = (await page.locator('.plate__host').boundingBox())!;
    const scale = Math.min(host.width / COLUMNS, host.height / ROWS);
    const across = async (columns: number, row: number) => {
      for (const column of [COLUMNS / 2 - columns / 2, COLUMNS / 2 + columns / 2])
        await page.mouse.click(
          host.x + host.width / 2 + (column - COLUMNS / 2) * scale,
          host.y + host.height / 2 + (row - ROWS / 2) * scale,
        );
    };
    const size = page.getByRole('textbox', { name: 'Its length' });
    await page.getByRole('button', { name: 'Set the scale', exact: true }).click();
    await page.getByText('Two ends', { exact: true }).click();
    await page.getByRole('button', { name: 'Place object of known size' }).click();
    await across(500, ROWS / 2);
    await size.fill('50 mm');
    await page.getByRole('button', { name: 'Use it' }).click();
    // 500 pixels of 0.1 mm by construction; 2 · √2 · 0.5 mm of 50 mm are 2.8 %.
    await page.getByText(/by an object of 50 mm that lay beside the bone, ±\s2\.8\s%/).waitFor();
    await page.getByRole('button', { name: 'Add another known length' }).click();
    await page.getByRole('button', { name: 'Place second known length' }).click();
    await across(400, ROWS / 2 + 80);
    await size.fill('40 mm');
    await noViolations(page);
    await page.getByRole('button', { name: 'Use it' }).click();
    // Of √(50² + 40²) mm: 2.2 %.
    await page.getByText(/by objects of 50 mm and 40 mm that lay beside the bone, ±\s2\.2\s%/).waitFor();
    await page.getByText(/^0\.(099|100|101) mm per pixel/).waitFor();
    expect(await page.getByText('The two known lengths disagree').count()).toBe(0);
    await page.getByRole('button', { name: 'Change another known length' }).click();
    await size.fill('30 mm');
    await page.getByRole('button', { name: 'Use it' }).click();
    await page
      .getByText(/The two known lengths disagree: 50 mm gives 0\.\d+ mm per column and 30 mm/)
      .waitFor();
    await page.getByRole('button', { name: /more cautions?/ }).click();
    await page.getByText('Statements of the spacing disagree').first().waitFor();
    await page.getByRole('button', { name: 'Change another known length' }).click();
    await page.getByRole('button', { name: 'Remove the object' }).click();
    await page.getByText(/by an object of 50 mm that lay/).waitFor();
  });

  it('offers what the file says of side and view, and flags a mirrored film', async () => {
    const { page } = current;
    const stated: Element[] = [
      { tag: '0018,5101', vr: 'CS', value: 'PA' },
      { tag: '0020,0062', vr: 'CS', value: 'L' },
      { tag: '0020,0020', vr: 'CS', value: 'R\\F' },
    ];
    await open(page, { name: 'pa.dcm', buffer: dicom(1, stated) });
    await films(page, 1);
    await page.getByText('view: read from the file').waitFor();
    await page.getByText('Side and parts of the picture').click();
    await page.getByText('The file says: left hand').waitFor();
    await page.getByText('rows run towards R, columns towards F').waitFor();
    // Nothing is taken over by itself.
    await page.getByText('Right', { exact: true }).first().click();
    await page.getByText('The case says right.').waitFor();
    await page.getByText('The file names the other hand').first().waitFor();
    await page.getByRole('button', { name: 'It is the other hand' }).click();
    expect(await page.getByText('The file names the other hand').count()).toBe(0);
    await page.getByText('Lateral', { exact: true }).first().click();
    await page.getByText('The file says: PA view').waitFor();
    await page.getByRole('button', { name: 'This film is mirrored' }).click();
    await page.getByRole('button', { name: /more cautions?/ }).click();
    await page.getByText('Mirrored film').first().waitFor();
    await noViolations(page);
  });

  it('offers to divide by the magnification a file estimates', async () => {
    const { page } = current;
    const stated: Element[] = [
      { tag: '0018,1114', vr: 'DS', value: '1.05' },
      { tag: '0018,1164', vr: 'DS', value: '0.21\\0.21' },
    ];
    await open(page, { name: 'm.dcm', buffer: dicom(1, stated) });
    await page.getByText('0.210 mm per pixel').waitFor();
    await page.getByRole('button', { name: 'Divide by 1.05' }).click();
    await page.getByText('0.200 mm per pixel').waitFor(); // 0.21 / 1.05
    await page.getByRole('button', { name: 'Back to the file’s' }).click();
    await page.getByText('0.210 mm per pixel').waitFor();
  });
});

describe('under a finger', () => {
  it('has targets of 44 pixels in the list and in the film tools', async () => {
    await current.close();
    current = await visit({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });
    await emptyCase();
    const { page } = current;
    await open(page, { name: 'disc.zip', buffer: Buffer.from(zipSync({ a: dicom(1), b: dicom(2, [], 3) })) });
    const sheet = page.getByRole('dialog', { name: 'Films found' });
    await sheet.getByText('2 films found in 1 file.').waitFor();
    const small = await sheet
      .locator('button, label, input:not([type=checkbox]), summary')
      .evaluateAll((all) =>
        all
          .map((one) => ({ box: one.getBoundingClientRect(), text: one.textContent ?? '' }))
          .filter(({ box }) => box.width > 1 && box.height > 1 && box.height < 43.5)
          .map(({ text, box }) => `${text}: ${box.height}`),
      );
    expect(small).toEqual([]);
    await sheet.getByRole('button', { name: 'Add 2 films' }).click();
    await films(page, 2);
  });
});
