import { readFileSync } from 'node:fs';
import { nodeFilmTools } from '../../../src/cli/node-film-tools.ts';
import { readFilm } from '../../../src/film/read-film.ts';
import { writeDx } from '../../../src/record/dx-writer.ts';

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
export function largeFilm(number = 1): Uint8Array {
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
    instanceNumber: number,
    kilovolts: 55,
    uids: { study: '2.25.1', series: '2.25.2', instance: `2.25.3${number}` },
    patient: { name: 'INVENTED^FILM', id: 'INVENTED-BENCH' },
    takenAt: { date: '20260105', time: '101500' },
  });
  if (!written.ok) throw new Error('The film of the bench cannot be written.');
  return written.value;
}
