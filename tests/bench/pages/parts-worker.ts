import * as Comlink from 'comlink';
import { searchBone } from '../../../src/trace/search.ts';
import { trace } from '../../../src/trace/trace.ts';
import { crowdedRequest, loneRequest, neckRequest } from '../../trace/timed-requests.ts';

/** What can be timed within a worker, by name: a thing done once. */
const THINGS = {
  'trace, lone shaft': () => trace(loneRequest),
  'trace, shaft among neighbours': () => trace(crowdedRequest),
  'trace, neck': () => trace(neckRequest),
  'accounts alone, lone shaft': () => searchBone(loneRequest),
  'accounts alone, shaft among neighbours': () => searchBone(crowdedRequest),
  'accounts alone, neck': () => searchBone(neckRequest),
  // What no renderer of 1500 × 2000 pixels can do without: twenty multiplications and additions and an exponential.
  'plain loop': () => {
    let sum = 0;
    for (let i = 0; i < 1500 * 2000; i += 1) {
      let x = i * 1e-9;
      for (let k = 0; k < 20; k += 1) x = x * 0.97 + 0.01;
      sum += Math.exp(-x);
    }
    return sum;
  },
} as const satisfies Record<string, () => unknown>;

export type TimedThing = keyof typeof THINGS;

const worker = {
  /** The fastest of some rounds by the clock, after three that are not counted, milliseconds. */
  fastest(thing: TimedThing, rounds: number): number {
    let least = Number.POSITIVE_INFINITY;
    for (let round = -3; round < rounds; round += 1) {
      const begun = performance.now();
      if (THINGS[thing]() === 0) throw new Error('The loop was not run.');
      if (round >= 0) least = Math.min(least, performance.now() - begun);
    }
    return least;
  },
};

export type PartsWorker = typeof worker;

Comlink.expose(worker);
