import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import type { Film } from '../../src/film/film.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { sharedFilms } from '../shared-films.ts';
import { decodedSamples, expectDcmtk, itWithDcmtk, throughDcmtk } from './dcmtk.ts';

const folder = sharedFilms('dicom');
const hands = sharedFilms('hands');

async function open(path: string): Promise<Film> {
  const result = await readFilm(readFileSync(path), nodeFilmTools);
  if (!result.ok) throw new Error(JSON.stringify(result.error));
  return result.value;
}

/** SHA-256 over the stored values as little-endian samples in the container of the bits allocated. */
function hashOf(film: Film): string {
  const pixels = film.levels[0]!.pixels;
  return createHash('sha256')
    .update(new Uint8Array(pixels.buffer, pixels.byteOffset, pixels.byteLength))
    .digest('hex');
}

/** Rows of the table in MANIFEST.md: file, size, range, hash. The hashes are of dcmtk's and gdcm's decoding. */
const manifest =
  folder === null
    ? []
    : readFileSync(join(folder, 'MANIFEST.md'), 'utf8')
        .split('\n')
        .filter((line) => /^\| \S+\.dcm /.test(line))
        .map((line) => {
          const cells = line.split('|').map((cell) => cell.trim());
          const [rows, columns] = cells[5]!.split('x').map(Number);
          const [least, greatest] = cells[9]!.split('..').map(Number);
          return { file: cells[1]!, rows, columns, least, greatest, hash: cells[10]!.replaceAll('`', '') };
        });

/** Another inverse transform may round otherwise: T.83 allows it, the manifest says by how much. */
const LOSSY: Readonly<Record<string, number>> = { 'dev_j50.dcm': 1, 'dev_j51_12.dcm': 2 };

describe.runIf(folder !== null || process.env.CI === 'true')(
  'a real radiograph in each transfer syntax',
  () => {
    it('has the films beside the repository, and the manifest lists every one', () => {
      expect(folder, 'set RAYBEND_FILMS to the folder of real films').not.toBeNull();
      const files = readdirSync(folder!).filter((name) => name.endsWith('.dcm'));
      expect(manifest.map(({ file }) => file).sort()).toEqual(files.sort());
    });

    it.each(manifest.filter(({ file }) => LOSSY[file] === undefined))(
      '$file decodes to the hash of the manifest',
      async ({ file, rows, columns, least, greatest, hash }) => {
        const film = await open(join(folder!, file));
        expect([film.rows, film.columns]).toEqual([rows, columns]);
        expect([film.storedMin, film.storedMax]).toEqual([least, greatest]);
        expect(hashOf(film)).toBe(hash);
      },
    );

    itWithDcmtk.each(manifest.filter(({ file }) => LOSSY[file] !== undefined))(
      '$file is within the manifest’s tolerance of dcmtk’s dcmdjpeg',
      async ({ file: name }) => {
        expectDcmtk();
        const film = await open(join(folder!, name));
        const file = throughDcmtk('dcmdjpeg', [], readFileSync(join(folder!, name)));
        const reference = decodedSamples(file, film.levels[0]!.pixels.BYTES_PER_ELEMENT);
        expect(reference.length).toBe(film.rows * film.columns);
        const greatest = reference.reduce(
          (most, value, i) => Math.max(most, Math.abs(value - film.levels[0]!.pixels[i]!)),
          0,
        );
        expect(greatest).toBeLessThanOrEqual(LOSSY[name]!);
      },
    );

    it('says of the crop that its spacing is that of the detector plane', async () => {
      // MANIFEST.md: IPS=0.15\0.15, no Pixel Spacing.
      const film = await open(join(folder!, 'dev_ele.dcm'));
      expect(film.spacing).toMatchObject({
        kind: 'millimetres',
        rowSpacingMm: 0.15,
        columnSpacingMm: 0.15,
        plane: 'detector',
        origin: 'ImagerPixelSpacing',
      });
      expect(film.grey.photometric).toBe('MONOCHROME1');
    });
  },
);

describe.runIf(hands !== null || process.env.CI === 'true')('real hand radiographs as pictures', () => {
  // Sizes as listed in the manifest of the folder.
  it.each([
    ['IMG0003310.jpg', 373, 454],
    ['IMG0003311.jpg', 373, 454],
    ['IMG0002265.jpg', 454, 373],
    ['IMG0000031.jpg', 2304, 2880],
    ['IMG0002312.jpg', 2304, 2880],
    ['01_16_X-ray_of_Hand.jpg', 750, 881],
  ])('%s opens at %i × %i without a scale', async (file, columns, rows) => {
    const path = join(hands!, file);
    expect(existsSync(path)).toBe(true);
    const film = await open(path);
    expect([film.columns, film.rows]).toEqual([columns, rows]);
    expect(film.spacing).toMatchObject({ kind: 'ratio', rowToColumn: 1, origin: 'assumed-square' });
    expect(film.storedMax - film.storedMin).toBeGreaterThan(150);
  });
});
