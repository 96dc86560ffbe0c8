import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { film } from '../../src/cli/commands/film.ts';
import { dicomFile, type FilmOptions, filmElements } from '../film/dicom-file.ts';
import { pngFile } from '../film/picture/png-file.ts';
import { sharedFilms } from '../shared-films.ts';
import { listen } from './said.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'raybend-film-'));
});
afterEach(() => {
  vi.restoreAllMocks();
  rmSync(folder, { recursive: true });
});

const written = (name: string, bytes: Uint8Array | string): string => {
  const path = join(folder, name);
  writeFileSync(path, bytes);
  return path;
};
const small = (options: FilmOptions = {}) => dicomFile(filmElements(options));
const lines = (text: string) =>
  text
    .trim()
    .split('\n')
    .map((line) => JSON.parse(line));
/** The hash asked for, over bytes put together here by hand. */
const sha256 = (...bytes: readonly number[]) =>
  createHash('sha256').update(Uint8Array.from(bytes)).digest('hex');

describe('raybend film', () => {
  it('prints one line for a file, with all that an outside check needs', async () => {
    const path = written(
      'a film.dcm',
      small({
        samples: [1, 2, 3, 4, 258, 4095],
        extra: [
          { tag: '0018,1164', vr: 'DS', value: '0.2\\0.1' },
          { tag: '0028,1050', vr: 'DS', value: '2000' },
          { tag: '0028,1051', vr: 'DS', value: '3000' },
        ],
      }),
    );
    const { out } = listen();
    expect(await film.run([path])).toBe(0);
    const [said, ...more] = lines(out());
    expect(more).toEqual([]);
    expect(said).toMatchObject({
      file: path,
      ok: true,
      kind: 'dicom',
      transferSyntax: { uid: '1.2.840.10008.1.2.1', name: 'Explicit VR Little Endian' },
      rows: 2,
      columns: 3,
      bits: 12,
      photometric: 'MONOCHROME2',
      spacing: { rowSpacingMm: 0.2, columnSpacingMm: 0.1, plane: 'detector', origin: 'ImagerPixelSpacing' },
      window: { center: 2000, width: 3000, function: 'LINEAR' },
      min: 1,
      max: 4095,
      // 258 = 0x0102 and 4095 = 0x0FFF, low byte first.
      sha256: sha256(1, 0, 2, 0, 3, 0, 4, 0, 2, 1, 0xff, 0x0f),
    });
  });

  it('hashes one byte for each value of a film of 8 bits, signed or not, and of a picture', async () => {
    const unsigned = written('8.dcm', small({ bitsAllocated: 8, samples: [0, 1, 127, 128, 254, 255] }));
    const signed = written(
      's8.dcm',
      small({ bitsAllocated: 8, signed: true, samples: [0, 1, 127, 128, 254, 255] }),
    );
    const picture = written(
      'p.png',
      pngFile({ columns: 2, rows: 1, depth: 8, colourType: 0, lines: [[7, 200]] }),
    );
    const { out } = listen();
    expect(await film.run([unsigned, signed, picture])).toBe(0);
    const all = sha256(0, 1, 127, 128, 254, 255);
    expect(lines(out()).map(({ sha256, min, max }) => [sha256, min, max])).toEqual([
      [all, 0, 255],
      // Two's complement: 128 is −128, 254 is −2.
      [all, -128, 127],
      [sha256(7, 200), 7, 200],
    ]);
  });

  it('counts padding in the range, as the hash does', async () => {
    const padding = { tag: '0028,0120', vr: 'US', value: [0] } as const;
    const path = written('padded.dcm', small({ samples: [0, 5, 6, 7, 8, 9], extra: [padding] }));
    const { out } = listen();
    await film.run([path]);
    expect(lines(out())[0]).toMatchObject({ min: 0, max: 9, padding: { from: 0, to: 0 } });
  });

  it('names the colours the file has, and says that the values are greys', async () => {
    const rgb = { bitsAllocated: 8, photometric: 'RGB', samplesPerPixel: 3 };
    const path = written('colour.dcm', small({ ...rgb, samples: new Array(18).fill(9) }));
    const { out } = listen();
    await film.run([path]);
    expect(lines(out())[0]).toMatchObject({ photometric: 'RGB', wasColour: true, min: 9, max: 9 });
  });

  it('goes through folders and archives, and ends with 0 only if all opened', async () => {
    written('a film.dcm', small());
    written('letter.pdf', '%PDF-1.7 not a film');
    mkdirSync(join(folder, 'disc'));
    const text = new TextEncoder().encode('hello');
    written('disc/films.zip', zipSync({ 'IM/0001': small(), 'README.TXT': text }));
    const { out } = listen();
    expect(await film.run([folder])).toBe(1);
    const said = lines(out());
    expect(said.map(({ file, ok }) => [file.slice(folder.length + 1), ok])).toEqual([
      ['a film.dcm', true],
      ['disc/films.zip/IM/0001', true],
      ['disc/films.zip/README.TXT', false],
      ['letter.pdf', false],
    ]);
    expect(said[3]).toMatchObject({ error: { kind: 'not-a-film' } });
    expect(said[3].sentence).toContain('letter.pdf');
  });

  it('names what is wrong with each file, and goes on', async () => {
    const good = written('good.dcm', small());
    const bad = written('bad.dcm', 'no film');
    const { out, error } = listen();
    expect(await film.run([bad, good])).toBe(1);
    expect(await film.run([join(folder, 'missing.dcm'), good])).toBe(3);
    expect(lines(out()).map(({ ok, error }) => (ok ? 'film' : error.kind))).toEqual([
      'not-a-film',
      'film',
      'unreadable',
      'film',
    ]);
    mkdirSync(join(folder, 'empty'));
    expect(await film.run([join(folder, 'empty')])).toBe(1);
    expect(error()).toMatch(/^no-files: /);
  });

  it('gives each picture of a file when asked', async () => {
    const samples = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
    const two = written('two.dcm', small({ samples, extra: [{ tag: '0028,0008', vr: 'IS', value: '2' }] }));
    const { out } = listen();
    expect(await film.run([two])).toBe(0);
    expect(await film.run([two, '--all-pictures'])).toBe(0);
    expect(lines(out()).map(({ picture, pictures, min }) => [picture, pictures, min])).toEqual([
      [1, 2, 1],
      [1, 2, 1],
      [2, 2, 7],
    ]);
  });

  it('asks for a path, and knows its own options only', async () => {
    const { error } = listen();
    expect(await film.run([])).toBe(2);
    expect(await film.run([folder, '--jsno'])).toBe(2);
    expect(error()).toContain('raybend film FILE');
  });

  it('says nothing of a person', async () => {
    const path = written(
      'named.dcm',
      small({
        extra: [
          { tag: '0010,0010', vr: 'PN', value: 'NOBODY^INVENTED' },
          { tag: '0010,0020', vr: 'LO', value: 'NUMBER-77' },
        ],
      }),
    );
    const { out } = listen();
    expect(await film.run([path])).toBe(0);
    expect(out()).not.toMatch(/NOBODY|NUMBER-77/);
  });

  it('gives the pixels the manifest of the real films states', async () => {
    const path = sharedFilms('dicom');
    if (path === null) throw new Error('This test needs the real films; set RAYBEND_FILMS to their folder.');
    const { out } = listen();
    await film.run([path]);
    // Columns of the manifest: file | bytes | syntax | … | sha256 of decoded pixels | decoder, by dcmtk and gdcm.
    const manifest = readFileSync(join(path, 'MANIFEST.md'), 'utf8');
    const rows = [...manifest.matchAll(/^\| (\S+\.dcm) \|.*`([0-9a-f]{64})`/gm)];
    expect(rows.length).toBeGreaterThan(10);
    const said = new Map(
      lines(out()).map((line) => [line.file.split('/').at(-1), line.sha256 as string | undefined]),
    );
    // Baseline and extended JPEG may differ by ±1 and ±2 with another inverse DCT: the manifest says so.
    for (const [, name, hash] of rows) {
      if (name === 'dev_j50.dcm' || name === 'dev_j51_12.dcm') continue;
      expect(said.get(name), name).toBe(hash);
    }
  });
});

describe('npx raybend', () => {
  it('is there after npm run build, and ends with the code of the command', () => {
    const build = spawnSync(
      'npx',
      ['vite', 'build', '--config', 'vite.cli.config.ts', '--logLevel', 'warn'],
      {
        encoding: 'utf8',
      },
    );
    expect(build.stderr).toBe('');
    const raybend = (...args: readonly string[]) =>
      spawnSync('npx', ['raybend', ...args], { encoding: 'utf8' });
    const good = written('good.dcm', small({ samples: [1, 2, 3, 4, 5, 6] }));
    const opened = raybend('film', good);
    expect([opened.status, opened.stderr]).toEqual([0, '']);
    expect(lines(opened.stdout)).toMatchObject([
      { min: 1, max: 6, sha256: sha256(1, 0, 2, 0, 3, 0, 4, 0, 5, 0, 6, 0) },
    ]);
    const refused = raybend('film', good, written('bad.dcm', 'no film'));
    expect(refused.status).toBe(1);
    expect(lines(refused.stdout).map(({ ok }) => ok)).toEqual([true, false]);
  });
});
