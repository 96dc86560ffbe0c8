import { defaultSpec } from '../../src/phantom/default-specs.ts';
import { planFilm, prepareFilm } from '../../src/phantom/invent.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { renderRows } from '../../src/phantom/render.ts';
import { race } from './harness/lines.ts';

/**
 * How long an invented film takes, as a ratio to a plain loop in the same run: machines and their loads
 * differ, ratios much less. The loop does for every pixel of a 1500 × 2000 film what no renderer can do
 * without: twenty multiplications and additions and one exponential.
 */

const COLUMNS = 1500;
const ROWS = 2000;

function plainLoop(): number {
  let sum = 0;
  for (let i = 0; i < COLUMNS * ROWS; i += 1) {
    let x = i * 1e-9;
    for (let k = 0; k < 20; k += 1) x = x * 0.97 + 0.01;
    sum += Math.exp(-x);
  }
  return sum;
}

const random = seededRandom(1);
const plan = planFilm(defaultSpec('small-neck-lateral'), random);
const preview = { ...plan, previewScale: 4 } as const;
const ready = prepareFilm(plan);

await race({
  against: 'plain loop over the same pixels',
  baseline: () => {
    if (plainLoop() < 0) throw new Error('The loop was not run.');
  },
  runs: {
    'film of 1500 × 2000 invented, one thread': () => {
      const { exposure } = prepareFilm(plan);
      renderRows(exposure, 0, ROWS);
    },
    'film invented, one of two workers: preparation and half the rows': () => {
      const { exposure } = prepareFilm(plan);
      renderRows(exposure, 0, ROWS / 2);
    },
    'film invented, rows alone': () => renderRows(ready.exposure, 0, ROWS),
    'preview of an invented film, a quarter as wide and high': () => {
      const { exposure } = prepareFilm(preview);
      renderRows(exposure, 0, exposure.camera.rows);
    },
  },
  rounds: 4,
});
