import * as Comlink from 'comlink';
import { defaultSpec } from '../../../src/phantom/default-specs.ts';
import { planFilm } from '../../../src/phantom/invent.ts';
import { seededRandom } from '../../../src/phantom/random.ts';
import type { PhantomWorker } from '../../../src/workers/phantom.ts';
import type { TraceWorker } from '../../../src/workers/trace.ts';
import { neckRequest } from '../../trace/timed-requests.ts';
import type { PartsWorker, TimedThing } from './parts-worker.ts';

/** What `workers.bench.ts` asks this page; milliseconds by the clock. */
export interface TimedWorkers {
  /** One thing done within a worker: the fastest of some rounds. */
  within(thing: TimedThing, rounds: number): Promise<number>;
  /** From the request of a trace of a neck to its answer, in the app's own worker: one time. */
  traced(): Promise<number>;
  /** A film of 1500 × 2000 that was not drawn before, by two of the app's own workers, half the rows each. */
  film(): Promise<number>;
}

const parts = Comlink.wrap<PartsWorker>(
  new Worker(new URL('./parts-worker.ts', import.meta.url), { type: 'module' }),
);
const tracer = Comlink.wrap<TraceWorker>(
  new Worker(new URL('../../../src/workers/trace.ts', import.meta.url), { type: 'module' }),
);
const makers = [0, 1].map(() =>
  Comlink.wrap<PhantomWorker>(
    new Worker(new URL('../../../src/workers/phantom.ts', import.meta.url), { type: 'module' }),
  ),
);

let seed = 0;
const timedWorkers: TimedWorkers = {
  within: (thing, rounds) => parts.fastest(thing, rounds),
  async traced() {
    const picture = { ...neckRequest.picture, values: neckRequest.picture.values.slice() };
    const begun = performance.now();
    await tracer.trace(Comlink.transfer({ ...neckRequest, picture }, [picture.values.buffer]));
    return performance.now() - begun;
  },
  async film() {
    seed += 1;
    const plan = planFilm(defaultSpec('small-neck-lateral'), seededRandom(seed));
    const begun = performance.now();
    const halves = await Promise.all(makers.map((maker, k) => maker.rows(plan, 1000 * k, 1000 * (k + 1))));
    const took = performance.now() - begun;
    if (halves.some(({ length }) => length !== 1500 * 1000))
      throw new Error('A half of the film is missing.');
    return took;
  },
};

Object.assign(window, { timedWorkers });
