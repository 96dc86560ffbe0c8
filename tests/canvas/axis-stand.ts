import type { MarkShape } from '../../src/case/document.ts';
import { madeFilm } from './made-film.ts';
import { freeAxis } from './plate-stand.ts';
import { standEach } from './stand-each.ts';

/** A film with one axis, for tests that press, drag and magnify as a person does. */

export const WIDTH = 600;
export const HEIGHT = 400;
export const film = madeFilm(600, 400, (column, row) => column + row);
/** The film is as large as the plate and shown whole: one screen pixel is one pixel of the film. */
export const axis = freeAxis('distal-axis', [150, 300], [250, 100]);

/** For each test of a file a plate of its own. */
export const standWithAxis = () => standEach({ width: WIDTH, height: HEIGHT }, film, axis);

export const moved = (from: readonly [number, number], to: readonly [number, number]): MarkShape =>
  freeAxis('distal-axis', from, to).shape;
