import type { Film, PixelLevel } from '../../film/film.ts';
import { displayLut, type Light } from '../../film/grey-scale.ts';
import type { FilmPart } from '../../geometry/film-part.ts';

/** A rectangle of whole pixels of a film. */
export type FilmArea = Omit<Extract<FilmPart, { kind: 'rectangle' }>, 'kind'>;

/** One grey for each pixel, 0 black to 255 white, row by row from the top left. */
export interface GreyPicture {
  readonly columns: number;
  readonly rows: number;
  readonly grey: Uint8Array;
}

interface Shown {
  /** The part that leaves; null: the whole film. Nothing outside it is in the picture. */
  readonly area: FilmArea | null;
  /** Painted black, in pixels of the whole film: what lies under them is gone. */
  readonly covered: readonly FilmArea[];
}

/** A level of a film as displayed, or a part of it, in pixels of that level. */
export function levelPicture(
  film: Film,
  light: Light,
  level: PixelLevel,
  { column, row, columns, rows }: FilmArea = { column: 0, row: 0, columns: level.columns, rows: level.rows },
): GreyPicture {
  const { values, firstStored } = displayLut(film.grey, light, film.storedMin, film.storedMax);
  const grey = new Uint8Array(columns * rows);
  for (let y = 0; y < rows; y += 1) {
    const from = (row + y) * level.columns + column;
    for (let x = 0; x < columns; x += 1) {
      grey[y * columns + x] = values[(level.pixels[from + x] ?? 0) - firstStored] ?? 0;
    }
  }
  return { columns, rows, grey };
}

/** A film as displayed, without what is cut away and what is covered. */
export function filmPicture(film: Film, light: Light, { area, covered }: Shown): GreyPicture {
  const level = film.levels[0];
  if (level === undefined) throw new Error('a film has at least one level');
  const { column, row, columns, rows } = area ?? { column: 0, row: 0, ...level };
  const { grey } = levelPicture(film, light, level, { column, row, columns, rows });
  for (const cover of covered) {
    const top = Math.max(cover.row - row, 0);
    const bottom = Math.min(cover.row + cover.rows - row, rows);
    const left = Math.max(cover.column - column, 0);
    const right = Math.min(cover.column + cover.columns - column, columns);
    for (let y = top; y < bottom; y += 1) {
      if (right > left) grey.fill(0, y * columns + left, y * columns + right);
    }
  }
  return { columns, rows, grey };
}

/** The same picture as a canvas takes it. */
export function imageDataOf({ columns, rows, grey }: GreyPicture): ImageData {
  const picture = new ImageData(columns, rows);
  const words = new Uint32Array(picture.data.buffer);
  for (let i = 0; i < words.length; i += 1) {
    const value = grey[i] ?? 0;
    // Red, green and blue are equal, so that the order of bytes in a word does not matter beside alpha.
    words[i] = 0xff000000 | (value << 16) | (value << 8) | value;
  }
  return picture;
}

/** The same on a canvas. */
export function canvasOf(picture: GreyPicture): OffscreenCanvas {
  const canvas = new OffscreenCanvas(picture.columns, picture.rows);
  canvas.getContext('2d')!.putImageData(imageDataOf(picture), 0, 0);
  return canvas;
}
