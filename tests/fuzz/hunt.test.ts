import { expect, it } from 'vitest';
import { hunt } from './hunt.ts';

const MILLISECONDS = 120_000;

it(
  'two minutes of hostile files give films, cases and errors by name, in time and within memory',
  async () => {
    const { files, verdicts, failures } = await hunt({
      seed: 20251125,
      from: 0,
      count: Number.POSITIVE_INFINITY,
      milliseconds: MILLISECONDS,
    });
    expect(failures).toEqual([]);
    // Were everything refused at the door, nothing would have been tried.
    expect(verdicts.opened).toBeGreaterThan(files / 50);
    expect(Object.keys(verdicts).length).toBeGreaterThan(8);
  },
  2 * MILLISECONDS,
);
