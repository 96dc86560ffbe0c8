import type { Film } from '../../film/film.ts';
import { displayLut } from '../../film/grey-scale.ts';
import { defaultLight } from '../../film/light.ts';

const LONGEST_SIDE = 116;

/** A small picture of a film for the strip, as an object URL; from the smallest level that is large enough. */
export async function thumbnailOf(film: Film): Promise<string> {
  const level =
    [...film.levels].reverse().find(({ columns, rows }) => Math.max(columns, rows) >= LONGEST_SIDE) ??
    film.levels[0]!;
  const { values, firstStored } = displayLut(film.grey, defaultLight(film), film.storedMin, film.storedMax);
  const picture = new ImageData(level.columns, level.rows);
  level.pixels.forEach((stored, i) => {
    const grey = values[stored - firstStored] ?? 0;
    picture.data.set([grey, grey, grey, 255], i * 4);
  });
  const full = new OffscreenCanvas(level.columns, level.rows);
  full.getContext('2d')!.putImageData(picture, 0, 0);
  const scale = Math.min(1, LONGEST_SIDE / Math.max(level.columns, level.rows));
  const small = new OffscreenCanvas(
    Math.max(1, Math.round(level.columns * scale)),
    Math.max(1, Math.round(level.rows * scale)),
  );
  small.getContext('2d')!.drawImage(full, 0, 0, small.width, small.height);
  return URL.createObjectURL(await small.convertToBlob({ type: 'image/png' }));
}
