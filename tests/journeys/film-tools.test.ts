import { zipSync } from 'fflate';
import type { Page } from 'playwright';
import { describe, expect, it } from 'vitest';
import type { Element } from '../film/dicom-file.ts';
import {
  COLUMNS,
  DISC,
  dicom,
  emptyCase,
  emptyCaseEach,
  films,
  noViolations,
  open,
  plate,
  ROWS,
} from './opened-films.ts';

const current = emptyCaseEach();

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
    // The form stays where the length is asked for; the axes that come next would scroll it away.
    await expect.poll(() => size.evaluate((field) => field === document.activeElement)).toBe(true);
    await size.fill('50 mm');
    await page.getByRole('button', { name: 'Use it' }).click();
    // 500 pixels of 0.1 mm by construction; 2 · √2 · 0.5 mm of 50 mm are 2.8 %.
    await page.getByText(/by an object of 50 mm that lay beside the bone, ±\s2\.8\s%/).waitFor();
    await page.getByRole('button', { name: 'Add another known length' }).click();
    await page.getByRole('button', { name: 'Place second known length' }).click();
    await across(400, ROWS / 2 + 80);
    await size.fill('40 mm');
    await noViolations(page);
    await size.press('Enter');
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
    await current.anew({ hasTouch: true, isMobile: true, viewport: { width: 820, height: 1180 } });
    await emptyCase(current.page);
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
