import type { ExifOrientation } from './exif.ts';

/** Samples of a picture, interleaved by pixel, row by row from the top-left one. */
export interface PictureSamples {
  readonly columns: number;
  readonly rows: number;
  readonly components: number;
  readonly samples: Uint8Array;
}

/** For each EXIF orientation: whether rows and columns change places, and what is then mirrored. */
const TURNS: Readonly<Record<ExifOrientation, { transposed: boolean; across: boolean; down: boolean }>> = {
  1: { transposed: false, across: false, down: false },
  2: { transposed: false, across: true, down: false },
  3: { transposed: false, across: true, down: true },
  4: { transposed: false, across: false, down: true },
  5: { transposed: true, across: false, down: false },
  6: { transposed: true, across: false, down: true },
  7: { transposed: true, across: true, down: true },
  8: { transposed: true, across: true, down: false },
};

/**
 * The picture as its EXIF orientation wants it seen (EXIF 2.3, tag 0112: the side of the visible picture on
 * which row 0 and column 0 as stored lie).
 */
export function upright(stored: PictureSamples, orientation: ExifOrientation): PictureSamples {
  if (orientation === 1) return stored;
  const { transposed, across, down } = TURNS[orientation];
  const { components } = stored;
  const columns = transposed ? stored.rows : stored.columns;
  const rows = transposed ? stored.columns : stored.rows;
  const samples = new Uint8Array(columns * rows * components);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      const x = transposed ? row : column;
      const y = transposed ? column : row;
      const fromColumn = across ? stored.columns - 1 - x : x;
      const fromRow = down ? stored.rows - 1 - y : y;
      const from = components * (fromRow * stored.columns + fromColumn);
      const to = components * (row * columns + column);
      for (let i = 0; i < components; i++) samples[to + i] = stored.samples[from + i] as number;
    }
  }
  return { columns, rows, components, samples };
}
