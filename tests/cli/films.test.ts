import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { films } from '../../src/cli/commands/films.ts';
import { dicomFile, filmElements } from '../film/dicom-file.ts';
import { sharedFilms } from '../shared-films.ts';
import { listen } from './said.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'raybend-films-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const small = (samples: readonly number[]) => dicomFile(filmElements({ samples: [...samples] }));
const lines = (text: string) =>
  text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));

describe('raybend films', () => {
  it('reads folders, files and archives, and says of each file what it is', async () => {
    writeFileSync(join(folder, 'a film.dcm'), small([1, 2, 3, 4, 5, 6]));
    writeFileSync(join(folder, 'letter.pdf'), '%PDF-1.7 not a film');
    mkdirSync(join(folder, 'disc'));
    writeFileSync(
      join(folder, 'disc', 'films.zip'),
      zipSync({ 'IM/0001': small([9, 8, 7, 6, 5, 4]), 'README.TXT': new TextEncoder().encode('hello') }),
    );
    const { out } = listen();
    expect(await films.run([folder, '--json'])).toBe(0);
    const said = lines(out());
    expect(said.map(({ file, ok }) => [file.slice(folder.length + 1), ok])).toEqual([
      ['a film.dcm', true],
      ['disc/films.zip/IM/0001', true],
      ['disc/films.zip/README.TXT', false],
      ['letter.pdf', false],
    ]);
    expect(said[0]).toMatchObject({ format: 'dicom', modality: 'CR', least: 1, greatest: 6, picture: 1 });
    expect(said[3]).toMatchObject({ error: { kind: 'not-a-film' } });
    expect(said[3].sentence).toContain('letter.pdf');
  });

  it('fails only when nothing could be read', async () => {
    writeFileSync(join(folder, 'bad.dcm'), 'no film');
    const { out } = listen();
    expect(await films.run([join(folder, 'bad.dcm'), join(folder, 'missing.dcm'), '--json'])).toBe(1);
    expect(lines(out()).map(({ error }) => error.kind)).toEqual(['not-a-film', 'unreadable']);
  });

  it('says it in words, and each picture of a file when asked', async () => {
    const rows = filmElements({
      samples: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
      extra: [{ tag: '0028,0008', vr: 'IS', value: '2' }],
    });
    writeFileSync(join(folder, 'two.dcm'), dicomFile(rows));
    const { out } = listen();
    expect(await films.run([join(folder, 'two.dcm'), '--all-pictures'])).toBe(0);
    expect(out()).toContain('picture 1 of 2');
    expect(out()).toContain('picture 2 of 2');
    expect(out()).toContain('dicom CR, 3 × 2, 12 bits, Explicit VR Little Endian');
  });

  it('asks for a path, and knows its own options only', async () => {
    const { error } = listen();
    expect(await films.run(['--json'])).toBe(2);
    expect(await films.run([folder, '--jsno'])).toBe(2);
    expect(error()).toContain('raybend films PATH');
  });

  it('gives the pixels the manifest of the real films states', async () => {
    const path = sharedFilms('dicom');
    if (path === null) throw new Error('This test needs the real films; set RAYBEND_FILMS to their folder.');
    const { out } = listen();
    expect(await films.run([path, '--json'])).toBe(0);
    // Columns of the manifest: file | bytes | syntax | … | sha256 of decoded pixels | decoder, by dcmtk and gdcm.
    const manifest = readFileSync(join(path, 'MANIFEST.md'), 'utf8');
    const rows = [...manifest.matchAll(/^\| (\S+\.dcm) \|.*`([0-9a-f]{64})`/gm)];
    expect(rows.length).toBeGreaterThan(10);
    const said = new Map(
      lines(out()).map((line) => [line.file.split('/').at(-1), line.pixelsSha256 as string | undefined]),
    );
    // Baseline and extended JPEG may differ by ±1 and ±2 with another inverse DCT: the manifest says so.
    for (const [, name, hash] of rows) {
      if (name === 'dev_j50.dcm' || name === 'dev_j51_12.dcm') continue;
      expect(said.get(name), name).toBe(hash);
    }
  });
});
