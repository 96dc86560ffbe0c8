import { readFileSync } from 'node:fs';
import { nodeFilmTools } from '../../../src/cli/node-film-tools.ts';
import { readFilm } from '../../../src/film/read-film.ts';
import { largeFilmFile } from '../../film/large-film-file.ts';

export const COLUMNS = 3000;
export const ROWS = 4000;

const sample = await readFilm(readFileSync('sample-images/small-neck-pa.dcm'), nodeFilmTools);
if (!sample.ok) throw new Error('The sample film does not open.');
const [tile] = sample.value.levels;

/** 12 megapixels: an invented film laid side by side until it is large enough. */
export const pixels = new Uint16Array(COLUMNS * ROWS);
for (let row = 0; row < ROWS; row += 1) {
  const from = (row % tile!.rows) * tile!.columns;
  for (let column = 0; column < COLUMNS; column += 1) {
    pixels[row * COLUMNS + column] = tile!.pixels[from + (column % tile!.columns)]!;
  }
}

/** The film as an uncompressed DICOM file; `number` tells several apart. */
export const largeFilm = (number = 1): Uint8Array => largeFilmFile(COLUMNS, ROWS, pixels, number);
