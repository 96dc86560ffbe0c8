import type { Film } from '../../film/film.ts';
import { displayLut } from '../../film/grey-scale.ts';
import { defaultLight } from '../../film/light.ts';

const LONGEST_SIDE = 116;

/** A small picture of a film for the strip, as an object URL. */
export const thumbnailOf = (film: Film): Promise<string> => pictureOf(film, LONGEST_SIDE);

/**
 * A picture of a film as it is first shown, as an object URL; whoever asks for it revokes it.
 *
 * @param longestSide - In pixels; a film that is smaller stays as it is.
 */
export async function pictureOf(film: Film, longestSide: number): Promise<string> {
  const level =
    [...film.levels].reverse().find(({ columns, rows }) => Math.max(columns, rows) >= longestSide) ??
    film.levels[0]!;
  const { values, firstStored } = displayLut(film.grey, defaultLight(film), film.storedMin, film.storedMax);
  const picture = new ImageData(level.columns, level.rows);
  const { data } = picture;
  const { pixels } = level;
  // Ten films opened together pass through here; one write for each byte is what keeps the page answering.
  for (let i = 0, at = 0; i < pixels.length; i += 1, at += 4) {
    const grey = values[pixels[i]! - firstStored] ?? 0;
    data[at] = grey;
    data[at + 1] = grey;
    data[at + 2] = grey;
    data[at + 3] = 255;
  }
  const full = new OffscreenCanvas(level.columns, level.rows);
  full.getContext('2d')!.putImageData(picture, 0, 0);
  const scale = Math.min(1, longestSide / Math.max(level.columns, level.rows));
  const small = new OffscreenCanvas(
    Math.max(1, Math.round(level.columns * scale)),
    Math.max(1, Math.round(level.rows * scale)),
  );
  small.getContext('2d')!.drawImage(full, 0, 0, small.width, small.height);
  return URL.createObjectURL(await small.convertToBlob({ type: 'image/png' }));
}
