import { describe, expect, it } from 'vitest';
import {
  type Attempt,
  attemptOf,
  attemptsCsv,
  progressOf,
  readAttempts,
  writeAttempts,
} from '../../src/classroom/attempts.ts';
import { errorOf, unwrap } from '../geometry/support.ts';
import { aside, Learner, SHAFT } from './learner.ts';

const AT = '2026-11-25T10:00:00.000Z';

function attempt(offMm: number): Attempt {
  const learner = new Learner(SHAFT).perfectly().tapDorsal();
  const { distalAxis: axis } = learner.bone;
  const found = learner
    .free('distal-axis', { from: axis.from, to: aside(axis.to, axis, offMm, 0.125) })
    .reveal();
  return attemptOf(learner.exercise, found, AT, 'level: first steps');
}

const none = attempt(0);
const much = attempt(5);

describe('attempts', () => {
  it('come back from their file as they were', () => {
    expect(unwrap(readAttempts(writeAttempts([none, much])))).toEqual([none, much]);
    expect(
      errorOf(readAttempts('{"format":"raybend-attempts","version":1,"attempts":[{"at":"today"}]}')),
    ).toMatchObject({
      kind: 'invalid',
      path: 'attempts.0.at',
    });
  });

  it('say how it went: share inside, mean error, root mean square, what came first most often', () => {
    expect(progressOf([])).toBeNull();
    const progress = progressOf([none, much, much, much])!;
    expect(none.verdict).toBe('inside');
    expect(much.verdict).toBe('outside');
    expect(progress.inside).toBe(1 / 4);
    // Three of four are off by the same e: mean 3e/4, root mean square e √(3/4).
    const error = much.value - much.truth;
    expect(progress.meanError).toBeCloseTo(0.75 * error, 6);
    expect(progress.rmsError).toBeCloseTo(Math.abs(error) * Math.sqrt(0.75), 6);
    expect(progress.causes).toEqual([{ kind: 'axis-tilted', count: 3 }]);
  });

  it('make a table of one line each, with the error spelt out', () => {
    const [heading, first, second] = attemptsCsv([none, much]).split('\r\n');
    expect(heading).toMatch(/^at,from,film,finger,asked,axes,value_deg,/);
    expect(first?.split(',')).toHaveLength(heading!.split(',').length);
    expect(second).toContain(`,${(much.value - much.truth).toFixed(2)},outside,axis-tilted`);
  });
});
