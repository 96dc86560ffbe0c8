import * as Comlink from 'comlink';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { defaultSpec } from '../../src/phantom/default-specs.ts';
import { inventFilm, planFilm } from '../../src/phantom/invent.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import type { PhantomWorker } from '../../src/workers/phantom.ts';

const workers: Worker[] = [];
let first: Comlink.Remote<PhantomWorker>;
let second: Comlink.Remote<PhantomWorker>;

beforeAll(() => {
  const start = () => {
    const worker = new Worker(new URL('../../src/workers/phantom.ts', import.meta.url), { type: 'module' });
    workers.push(worker);
    return Comlink.wrap<PhantomWorker>(worker);
  };
  first = start();
  second = start();
});

afterAll(() => {
  for (const worker of workers) worker.terminate();
});

const ready = defaultSpec('small-neck-lateral');
const spec = { ...ready, film: { ...ready.film, columns: 240, rows: 320, pitchMm: 0.8 } };

describe('the worker for invented films', () => {
  it('draws a film in two halves that is the one drawn on the page', async () => {
    const here = inventFilm(spec, seededRandom(9));
    const plan = planFilm(spec, seededRandom(9));
    const [upper, lower] = await Promise.all([first.rows(plan, 0, 150), second.rows(plan, 150, 320)]);
    expect(upper.length + lower.length).toBe(here.pixels.length);
    expect([...upper, ...lower].every((value, i) => value === here.pixels[i])).toBe(true);
    expect(await second.truth(plan)).toEqual(here.truth);
  });

  it('hands over a whole film with its truth', async () => {
    const plan = planFilm(spec, seededRandom(10), 2);
    const { film, truth } = await first.invent(plan);
    const here = inventFilm(spec, seededRandom(10), 2);
    expect([film.columns, film.rows]).toEqual([120, 160]);
    expect(film.levels[0]!.pixels).toEqual(here.pixels);
    expect(truth).toEqual(here.truth);
    // Asked again, it is drawn again: the pixels of the first answer were given away.
    expect((await first.invent(plan)).film.levels[0]!.pixels).toEqual(here.pixels);
  });
});
