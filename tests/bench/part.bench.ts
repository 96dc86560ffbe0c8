/** Parts of a film of 12 megapixels, against a plain copy of its stored values. */
import { nodeFilmTools } from '../../src/cli/node-film-tools.ts';
import { readFilm } from '../../src/film/read-film.ts';
import { takePart } from '../../src/film/take-part.ts';
import { straightening } from '../../src/geometry/slant.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { COLUMNS, largeFilm, pixels, ROWS } from './harness/large-film.ts';
import { race } from './harness/lines.ts';

const opened = await readFilm(largeFilm(), nodeFilmTools);
if (!opened.ok) throw new Error('The film of the bench does not open.');
const film = opened.value;
const slant = straightening(
  [filmPoint(300, 200), filmPoint(2800, 350), filmPoint(2650, 3700), filmPoint(150, 3800)],
  0.75,
);
if (!slant.ok) throw new Error('The corners of the bench make no sheet.');

await race({
  against: 'plain copy of its stored values',
  baseline: () => pixels.slice(),
  runs: {
    'half of a film of 12 megapixels cut out': () =>
      takePart(film, { kind: 'rectangle', column: 0, row: 0, columns: COLUMNS / 2, rows: ROWS }),
    'film of 12 megapixels straightened by four corners': () => takePart(film, slant.value.part),
  },
});
