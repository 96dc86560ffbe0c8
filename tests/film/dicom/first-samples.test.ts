import { createHash } from 'node:crypto';
import dcmjsCodecs from 'dcmjs-codecs';
import { beforeAll, describe, expect, it } from 'vitest';
import { nodeFilmTools } from '../../../src/cli/node-film-tools.ts';
import { firstSamples } from '../../../src/film/dicom/first-samples.ts';
import type { PixelDescription } from '../../../src/film/dicom/pixel-description.ts';
import type { PixelEncoding } from '../../../src/film/dicom/transfer-syntax.ts';
import type { Film, FilmError, FirstPicture } from '../../../src/film/film.ts';
import { readFilm } from '../../../src/film/read-film.ts';
import type { Result } from '../../../src/geometry/result.ts';
import { largeFilmFile } from '../large-film-file.ts';

const { NativeCodecs, Transcoder } = dcmjsCodecs;

const COLUMNS = 2101;
const ROWS = 1999;
const LOSSLESS = '1.2.840.10008.1.2.4.90';
const HTJ2K = '1.2.840.10008.1.2.4.201';

/** Soft parts, a bone with hard edges from black to white, which a wavelet overshoots, and some grain. */
const values = Uint16Array.from({ length: COLUMNS * ROWS }, (_, i) => {
  const [column, row] = [i % COLUMNS, Math.floor(i / COLUMNS)];
  if (column % 400 < 12) return 4095;
  if (row % 500 < 9) return 0;
  return Math.round(2000 + 1500 * Math.sin(column / 150) * Math.cos(row / 90)) + ((i * 7919) % 23);
});

/** Written by dcmjs-codecs 0.0.8, an encoder the product does not use. */
function transcoded(uid: string): Uint8Array {
  const file = largeFilmFile(COLUMNS, ROWS, values);
  const transcoder = new Transcoder(file.slice().buffer as ArrayBuffer);
  transcoder.transcode(uid);
  return new Uint8Array(transcoder.getDicomPart10());
}

async function firstOf(file: Uint8Array): Promise<{ readonly firsts: FirstPicture[]; readonly ok: boolean }> {
  const firsts: FirstPicture[] = [];
  const read = await readFilm(file, nodeFilmTools, 0, (picture) => firsts.push(picture));
  return { firsts, ok: read.ok };
}

interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly at: (column: number, row: number) => number;
}

/**
 * The low-pass half of one line by the reversible 5/3 filter, ITU-T T.800 F.4.8.1: odd samples lose the floored mean of
 * their neighbours, even ones gain a quarter of what the odd ones beside them kept. Lines are mirrored at their ends.
 */
function lowPass(length: number, at: (index: number) => number): number[] {
  const mirrored = (index: number) =>
    at(index < 0 ? -index : index >= length ? 2 * length - 2 - index : index);
  const kept = (odd: number) => mirrored(odd) - Math.floor((mirrored(odd - 1) + mirrored(odd + 1)) / 2);
  return Array.from(
    { length: Math.ceil(length / 2) },
    (_, n) => at(2 * n) + Math.floor((kept(2 * n - 1) + kept(2 * n + 1) + 2) / 4),
  );
}

/** One decomposition, columns before rows (T.800 F.4.2). */
function halved({ columns, rows, at }: Grid): Grid {
  const tall = Array.from({ length: columns }, (_, column) => lowPass(rows, (row) => at(column, row)));
  const half = Array.from({ length: Math.ceil(rows / 2) }, (_, row) =>
    lowPass(columns, (column) => tall[column]![row]!),
  );
  return { columns: Math.ceil(columns / 2), rows: half.length, at: (column, row) => half[row]![column]! };
}

const whole: Grid = { columns: COLUMNS, rows: ROWS, at: (column, row) => values[row * COLUMNS + column]! };

let lossless: Uint8Array;

beforeAll(async () => {
  await NativeCodecs.initializeAsync();
  lossless = transcoded(LOSSLESS);
});

describe('the first picture of a large film in JPEG 2000', () => {
  it('is the low-pass of the 5/3 wavelet as the standard has it, cut at the bits stored: equal', async () => {
    const { firsts, ok } = await firstOf(lossless);
    expect(ok).toBe(true);
    expect(firsts).toHaveLength(1);
    const [{ level, step, columns, rows }] = firsts as [FirstPicture];
    // The coarsest with 512 or more on its longer side: 2101 → 1051 → 526.
    expect({ step, columns, rows }).toEqual({ step: 4, columns: COLUMNS, rows: ROWS });
    const expected = halved(halved(whole));
    expect([level.columns, level.rows]).toEqual([expected.columns, expected.rows]);
    let overshoots = 0;
    const wrong: string[] = [];
    level.pixels.forEach((value, i) => {
      const [column, row] = [i % level.columns, Math.floor(i / level.columns)];
      const low = expected.at(column, row);
      if (low < 0 || low > 4095) overshoots += 1;
      if (value !== Math.min(Math.max(low, 0), 4095)) wrong.push(`${column}, ${row}: ${value} for ${low}`);
    });
    expect(wrong).toEqual([]);
    // The film was made so that cutting matters.
    expect(overshoots).toBeGreaterThan(1000);
  });

  it('shows what is there: within 2 % of the means of the film on average, and dark or light where it is', async () => {
    const { firsts } = await firstOf(lossless);
    const { level, step, storedMin, storedMax } = firsts[0]!;
    let differences = 0;
    level.pixels.forEach((value, i) => {
      const [column, row] = [i % level.columns, Math.floor(i / level.columns)];
      // Round the pixel that a coarse one stands for, as far as the film goes.
      let sum = 0;
      let count = 0;
      for (let y = row * step - 2; y <= row * step + 2; y += 1)
        for (let x = column * step - 2; x <= column * step + 2; x += 1) {
          if (x < 0 || y < 0 || x >= COLUMNS || y >= ROWS) continue;
          sum += whole.at(x, y);
          count += 1;
        }
      differences += Math.abs(value - sum / count);
    });
    // Hard edges, which the two filters cut differently, are 4 % of this film.
    expect(differences / level.pixels.length).toBeLessThan(0.02 * 4095);
    expect([storedMin, storedMax]).toEqual([0, 4095]);
  });

  it('has the grey scale and the spacing of the whole', async () => {
    const { firsts } = await firstOf(lossless);
    const read = await readFilm(lossless, nodeFilmTools);
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const { grey, spacing, facts } = read.value;
    expect(firsts[0]).toMatchObject({ grey, spacing, facts });
  });
});

describe('no first picture', () => {
  it('of High-Throughput JPEG 2000, which is whole nearly as soon', async () => {
    expect(await firstOf(transcoded(HTJ2K))).toEqual({ firsts: [], ok: true });
  });

  it.each([
    ['whose data are nonsense', (file: Uint8Array, from: number) => file.fill(0xff, from, file.length - 14)],
    ['whose data are zeros', (file: Uint8Array, from: number) => file.fill(0, from, file.length - 14)],
    [
      'that is damaged in its middle',
      (file: Uint8Array) => file.fill(0xff, file.length >> 1, file.length - 14),
    ],
  ])('changes what is said of a stream %s', async (_, spoil) => {
    const file = lossless.slice();
    spoil(file, file.findIndex((byte, at) => byte === 0xff && file[at + 1] === 0x93) + 2);
    const firsts: FirstPicture[] = [];
    const watched = await readFilm(file, nodeFilmTools, 0, (picture) => firsts.push(picture));
    expect(saidOf(watched)).toEqual(saidOf(await readFilm(file, nodeFilmTools)));
    for (const { level } of firsts) expect(level.pixels).toHaveLength(level.columns * level.rows);
  });

  /** An error as it is; of a film its notes and a hash: millions of values compared one by one take a minute. */
  const saidOf = (read: Result<Film, FilmError>) =>
    read.ok
      ? [read.value.facts.notes, createHash('sha256').update(read.value.levels[0]!.pixels).digest('hex')]
      : read.error;

  const frame = () => lossless.subarray(lossless.findIndex((_, at) => isCodestream(at)));
  const isCodestream = (at: number) =>
    [0xff, 0x4f, 0xff, 0x51].every((byte, index) => lossless[at + index] === byte);
  const plain: PixelDescription = {
    columns: COLUMNS,
    rows: ROWS,
    frames: 1,
    samplesPerPixel: 1,
    photometric: 'MONOCHROME2',
    planar: false,
    bitsAllocated: 16,
    bitsStored: 12,
    highBit: 11,
    signed: false,
  };
  const ask = (
    patch: Partial<PixelDescription> = {},
    encoding: PixelEncoding = 'jpeg-2000',
    overlay = false,
  ) => firstSamples(encoding, frame(), { ...plain, ...patch }, overlay, nodeFilmTools);

  it('is the exception for a plain film', async () => {
    expect((await ask())?.step).toBe(4);
  });

  it.each([
    ['of signed values', { signed: true }],
    ['of values that do not end at the lowest bit', { highBit: 15 }],
    ['of numbers of a palette', { photometric: 'PALETTE COLOR' as const }],
    ['of a stream of another size than the file says', { columns: COLUMNS + 1 }],
  ])('%s', async (_, patch) => {
    expect(await ask(patch)).toBeNull();
  });

  it('where an overlay may lie in the upper bits', async () => {
    expect(await ask({}, 'jpeg-2000', true)).toBeNull();
  });

  it('of another compression', async () => {
    expect(await ask({}, 'jpeg')).toBeNull();
  });
});
