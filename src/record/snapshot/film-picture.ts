import type { Film } from '../../film/film.ts';
import { displayLut, type Light } from '../../film/grey-scale.ts';

/** A film as displayed: one grey per pixel of the film, as red, green, blue and alpha. */
export function filmPicture(film: Film, light: Light): ImageData {
  const level = film.levels[0];
  if (level === undefined) throw new Error('a film has at least one level');
  const { values, firstStored } = displayLut(film.grey, light, film.storedMin, film.storedMax);
  const picture = new ImageData(level.columns, level.rows);
  const words = new Uint32Array(picture.data.buffer);
  for (let i = 0; i < words.length; i += 1) {
    const grey = values[(level.pixels[i] ?? 0) - firstStored] ?? 0;
    // Red, green and blue are equal, so that the order of bytes in a word does not matter beside alpha.
    words[i] = 0xff000000 | (grey << 16) | (grey << 8) | grey;
  }
  return picture;
}
