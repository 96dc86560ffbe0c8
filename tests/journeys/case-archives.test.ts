import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { change } from '../../src/case/apply.ts';
import { injuryOf } from '../../src/case/fixed-records.ts';
import { act } from '../../src/case/history.ts';
import type { WholeCase } from './archives.ts';
import { archiveOf, courseCase, courseFilms } from './course-case.ts';
import { bytesOf, casesEach, importing, labels, said, toCases } from './in-cases.ts';
import { manyFilms, withMarks } from './many-films.ts';

const AT = '2026-03-01T09:30:00.000Z';
const films = courseFilms().slice(0, 2);
const current = casesEach();

const labelled = ({ state, unknownFields }: WholeCase, label: string): WholeCase => {
  const transaction = change(state.document, 'label the case', AT, { ...injuryOf(state.document), label });
  const done = act(state, { kind: 'do', transaction });
  if (!done.ok) throw new Error(done.error.kind);
  return { state: done.value, unknownFields };
};

describe('export and import', () => {
  it('brings every case with its films and history to another computer', async () => {
    const { page } = current;
    await importing(
      page,
      'one.zip',
      await archiveOf([courseCase(films, { id: 'one', label: 'One' })], films),
    );
    await said(page, 'one.zip: 1 case taken in.');
    await toCases(page);
    await page
      .getByRole('radiogroup', { name: 'Films in exported files' })
      .getByText('Included', { exact: true })
      .click();
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Export all cases' }).click();
    const bytes = await bytesOf(await downloading);
    const entries = Object.keys(unzipSync(bytes));
    expect(entries.filter((name) => name.startsWith('cases/'))).toHaveLength(2);
    expect(entries.filter((name) => name.startsWith('films/'))).toHaveLength(6);

    await current.anew();
    await toCases(current.page);
    await importing(current.page, 'all.zip', Buffer.from(bytes));
    await said(current.page, 'all.zip: 2 cases taken in.');
    await current.page.getByRole('button', { name: 'One', exact: true }).click();
    await current.page.getByText('Saved on this computer only · 2 films').waitFor();
    await current.page.locator('.strip__film img').nth(1).waitFor();
  });

  it('says when the same is already here, and keeps films once', async () => {
    const { page } = current;
    const zip = await archiveOf([courseCase(films, { id: 'one', label: 'One' })], films);
    await importing(page, 'one.zip', zip);
    await said(page, 'one.zip: 1 case taken in.');
    await toCases(page);
    await importing(page, 'again.zip', zip);
    await said(page, 'again.zip: 1 case already here and the same.');
    const names = await page.evaluate(async () => {
      const root = await navigator.storage.getDirectory();
      const folder = await root.getDirectoryHandle('films');
      const found: string[] = [];
      for await (const name of (folder as unknown as { keys(): AsyncIterable<string> }).keys())
        found.push(name);
      return found;
    });
    expect(names).toHaveLength(6);
  });

  it('keeps fields that this version does not know, from file to file', async () => {
    const { page } = current;
    const whole = courseCase([], { id: 'later', label: 'Later' });
    const file = {
      format: 'raybend-case',
      version: 2,
      case: whole.state.document,
      fromLater: { kept: true },
    };
    await importing(page, 'later.json', Buffer.from(JSON.stringify(file)));
    await said(page, 'later.json: 1 case taken in.');
    await page.reload();
    await page.getByText('Saved on this computer only · 0 films').waitFor();
    await page.getByRole('link', { name: 'Bench' }).click();
    const downloading = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Marks only' }).click();
    const saved = JSON.parse(new TextDecoder().decode(await bytesOf(await downloading)));
    expect(saved.fromLater).toEqual({ kept: true });
  });

  it('puts two versions of one case together, reports what both changed, and loses neither', async () => {
    const { page } = current;
    const base = courseCase(films, { id: 'shared', label: 'Before' });
    await importing(page, 'base.zip', await archiveOf([base], films));
    await said(page, 'base.zip: 1 case taken in.');
    await toCases(page);
    await page.getByRole('button', { name: 'Rename Before' }).click();
    await page.getByLabel('Label of the case').fill('Mine');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Mine', exact: true }).waitFor();

    await importing(page, 'theirs.zip', await archiveOf([labelled(base, 'Theirs')], films));
    await said(
      page,
      'theirs.zip: 1 case put together with the one kept here. One thing was changed on both sides; nothing is lost, decide under Cases.',
    );
    await toCases(page);
    await page.getByRole('button', { name: 'Theirs (other version)', exact: true }).waitFor();
    expect((await labels(page)).toSorted()).toEqual(['Mine', 'Sample case', 'Theirs (other version)']);
    await page.getByRole('button', { name: 'Take the other version of the injury and its label' }).click();
    await page.getByRole('button', { name: 'Theirs', exact: true }).waitFor();
    await page.getByRole('button', { name: 'Undo take the other version' }).click();
    await page.getByRole('button', { name: 'Mine', exact: true }).waitFor();
  });
});

describe('bad files are refused or named, each in a sentence', () => {
  const manifest = strToU8(
    JSON.stringify({ format: 'raybend-archive', version: 1, cases: [], films: [], missingFilms: [] }),
  );

  it('path tricks, a future version, a missing film, a changed film', async () => {
    const { page } = current;
    await importing(
      page,
      'tricks.zip',
      Buffer.from(zipSync({ 'raybend.json': manifest, '../../evil.json': strToU8('{}') })),
    );
    await said(
      page,
      /tricks\.zip was not opened: the entry “\.\.\/\.\.\/evil\.json” in it points out of the file/,
    );
    await importing(
      page,
      'future.zip',
      Buffer.from(
        zipSync({
          'raybend.json': manifest,
          'cases/a.json': strToU8('{"format":"raybend-case","version":77}'),
        }),
      ),
    );
    await said(page, /cases\/a\.json in future\.zip was not opened: it was written by a newer Raybend/);
    const [first] = films;
    await importing(
      page,
      'missing.zip',
      await archiveOf([courseCase(films, { id: 'missing', label: 'Missing' })], [first!]),
    );
    await said(page, /missing\.zip: a film named by the cases is not in the file\. The marks are kept/);
    await toCases(page);
    const whole = await archiveOf([courseCase(films, { id: 'changed', label: 'Changed' })], films);
    const entries = unzipSync(new Uint8Array(whole));
    const name = `films/${films[1]!.record.sha256}.dcm`;
    entries[name] = entries[name]!.map((byte, i) => (i === 900 ? byte ^ 1 : byte));
    await importing(page, 'changed.zip', Buffer.from(zipSync(entries, { level: 0 })));
    await said(page, /changed\.zip: a film in it is not what was measured and was left out/);
  });

  it('a film opened again for a case that misses it takes its place', async () => {
    const { page } = current;
    await importing(
      page,
      'missing.zip',
      await archiveOf([courseCase(films, { id: 'missing', label: 'Missing' })], [films[0]!]),
    );
    await said(page, /is not kept on this computer\. Open its file again/);
    await page.getByRole('link', { name: 'Bench' }).click();
    await page.getByLabel('Film files').setInputFiles({
      name: 'again.dcm',
      mimeType: 'application/dicom',
      buffer: Buffer.from(films[1]!.bytes),
    });
    await page.locator('.strip__film img').nth(1).waitFor();
    await page.getByText('Saved on this computer only · 2 films').waitFor();
  });
});

describe('many and large', () => {
  it('50 films and 5,000 marks open with the first film before the others are decoded', async () => {
    const { page } = current;
    const fifty = manyFilms(films[0]!, 50);
    const path = join(mkdtempSync(join(tmpdir(), 'raybend-many-')), 'many.zip');
    writeFileSync(path, await archiveOf([withMarks(fifty, 5000, { id: 'many', label: 'Many' })], fifty));
    await page.getByLabel('Case files and archives').setInputFiles(path);
    await page.getByText('many.zip: 1 case taken in.').waitFor({ timeout: 120_000 });
    rmSync(dirname(path), { recursive: true });
    await page.reload();
    const picturesBehind = await page.evaluate(async () => {
      while (document.querySelector('figcaption.caption') === null)
        await new Promise((next) => requestAnimationFrame(next));
      return document.querySelectorAll('.strip__film img').length;
    });
    expect(picturesBehind).toBeLessThan(10);
    await page.getByText('Saved on this computer only · 50 films').waitFor();
    await page.locator('.strip__film img').nth(49).waitFor({ timeout: 120_000 });
    // Of films that are only in the strip the pixels are let go; one that is looked at again comes back.
    await page.locator('.strip__film').nth(20).click();
    await page.locator('figcaption.caption').getByText('Film 21.').waitFor();
  });

  it('a film that is in another case too is opened with a word of it', async () => {
    const { page } = current;
    const picture = readFileSync('sample-images/small-neck-lateral.png');
    const open = () =>
      page
        .getByLabel('Film files')
        .setInputFiles({ name: 'hand.png', mimeType: 'image/png', buffer: picture });
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByText('Saved on this computer only · 0 films').waitFor();
    await open();
    await page.getByText('Saved on this computer only · 1 film').waitFor();
    await toCases(page);
    await page.getByRole('button', { name: 'Rename Case without a label' }).click();
    await page.getByLabel('Label of the case').fill('First');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'First', exact: true }).waitFor();
    await page.getByRole('button', { name: 'New case' }).click();
    await page.getByText('Saved on this computer only · 0 films').waitFor();
    await open();
    await said(page, 'hand.png is also in the case “First”. Check that it belongs to this hand.');
    // Within one case it is not added a second time.
    await page.getByText('Saved on this computer only · 1 film').waitFor();
    await open();
    await said(page, /hand\.png is already in this case/);
    await page.getByText('Saved on this computer only · 1 film').waitFor();
  });
});
