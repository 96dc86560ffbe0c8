import type { Film } from '../../film/film.ts';
import { defaultLight } from '../../film/light.ts';
import { canvasOf, levelPicture } from '../../record/snapshot/film-picture.ts';

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
  const full = canvasOf(levelPicture(film, defaultLight(film), level));
  const scale = Math.min(1, longestSide / Math.max(level.columns, level.rows));
  const small = new OffscreenCanvas(
    Math.max(1, Math.round(level.columns * scale)),
    Math.max(1, Math.round(level.rows * scale)),
  );
  small.getContext('2d')!.drawImage(full, 0, 0, small.width, small.height);
  return URL.createObjectURL(await small.convertToBlob({ type: 'image/png' }));
}
