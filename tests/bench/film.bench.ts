import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { takePart } from '../../src/film/take-part.ts';
import { straightening } from '../../src/geometry/slant.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { writeDx } from '../../src/record/dx-writer.ts';
import { type DcmtkTool, throughDcmtk } from '../film/dcmtk.ts';
import { inFolder } from '../outside-tools.ts';

/**
 * How long a film of 12 megapixels takes to open, by compression, as a ratio to a plain copy of its stored values
 * in the same run. The film is an invented one laid side by side until it is large enough, compressed here with
 * dcmtk and gdcm. Opening is all of it: header, pixels, range and the pyramid the plate is drawn from.
 */

const COLUMNS = 3000;
const ROWS = 4000;

const sample = await readFilm(readFileSync('sample-images/small-neck-pa.dcm'), nodeFilmTools);
if (!sample.ok) throw new Error('The sample film does not open.');
const [tile] = sample.value.levels;
const pixels = new Uint16Array(COLUMNS * ROWS);
for (let row = 0; row < ROWS; row += 1) {
  const from = (row % tile!.rows) * tile!.columns;
  for (let column = 0; column < COLUMNS; column += 1) {
    pixels[row * COLUMNS + column] = tile!.pixels[from + (column % tile!.columns)]!;
  }
}

const written = writeDx({
  columns: COLUMNS,
  rows: ROWS,
  pixels,
  bitsStored: 12,
  window: { center: 2048, width: 4096 },
  imagerPixelSpacingMm: 0.1,
  patientSpacing: null,
  magnification: null,
  distanceSourceToDetectorMm: null,
  side: 'right',
  view: 'pa',
  viewPosition: 'PA',
  seriesDescription: 'Invented film for a bench',
  instanceNumber: 1,
  kilovolts: 55,
  uids: { study: '2.25.1', series: '2.25.2', instance: '2.25.3' },
  patient: { name: 'INVENTED^FILM', id: 'INVENTED-BENCH' },
  takenAt: { date: '20260105', time: '101500' },
});
if (!written.ok) throw new Error('The film of the bench cannot be written.');
const native = written.value;

const compressed = (tool: DcmtkTool, ...options: string[]) => throughDcmtk(tool, options, native);

const jpeg2000 = inFolder((folder) => {
  const [from, to] = [join(folder, 'in.dcm'), join(folder, 'out.dcm')];
  writeFileSync(from, native);
  const run = spawnSync('gdcmconv', ['--j2k', from, to]);
  if (run.status !== 0) throw new Error('gdcmconv cannot be run: apt-get install libgdcm-tools');
  return readFileSync(to);
});

const FILES: readonly (readonly [name: string, file: Uint8Array])[] = [
  ['uncompressed', native],
  ['deflated', compressed('dcmconv', '+td')],
  ['RLE', compressed('dcmcrle')],
  ['JPEG Lossless', compressed('dcmcjpeg', '+e1')],
  ['JPEG-LS', compressed('dcmcjpls')],
  ['JPEG 2000', jpeg2000],
  ['JPEG Extended, 12 bits', compressed('dcmcjpeg', '+ee')],
];

const OPTIONS = { time: 0, iterations: 3, warmupTime: 0, warmupIterations: 1 };

async function open(file: Uint8Array): Promise<void> {
  const read = await readFilm(file, nodeFilmTools);
  if (!read.ok || read.value.levels[0]!.pixels.length !== pixels.length) throw new Error('not opened whole');
}

describe('a film of 3000 × 4000 pixels', () => {
  bench(
    'plain copy of its stored values',
    () => {
      if (pixels.slice().length !== pixels.length) throw new Error('not copied');
    },
    { ...OPTIONS, iterations: 20 },
  );
  for (const [name, file] of FILES) bench(`opened, ${name}`, () => open(file), OPTIONS);
});

const opened = await readFilm(native, nodeFilmTools);
if (!opened.ok) throw new Error('The film of the bench does not open.');
const film = opened.value;
const slant = straightening(
  [filmPoint(300, 200), filmPoint(2800, 350), filmPoint(2650, 3700), filmPoint(150, 3800)],
  0.75,
);
if (!slant.ok) throw new Error('The corners of the bench make no sheet.');

describe('parts of a film of 3000 × 4000 pixels', () => {
  bench(
    'plain copy of its stored values',
    () => {
      pixels.slice();
    },
    { ...OPTIONS, iterations: 20 },
  );
  bench(
    'one half cut out',
    () => {
      takePart(film, { kind: 'rectangle', column: 0, row: 0, columns: COLUMNS / 2, rows: ROWS });
    },
    OPTIONS,
  );
  bench(
    'straightened by four corners',
    () => {
      takePart(film, slant.value.part);
    },
    OPTIONS,
  );
});
