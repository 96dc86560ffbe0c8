import { describe, expect, it } from 'vitest';
import { HINTS, type HintId, hintDue } from '../../../src/ui/hints/hints.ts';

const NONE: ReadonlySet<HintId> = new Set();
const at = (begun: boolean, measured: boolean, examined = false) => ({ begun, measured, examined });

describe('the hints of a first start', () => {
  it('are four, and short', () => {
    expect(HINTS).toHaveLength(4);
    for (const { text } of HINTS) expect(text.split(' ').length).toBeLessThanOrEqual(35);
  });

  it('come one after another, as the work goes on', () => {
    expect(hintDue(at(false, false), NONE)).toBe('begin');
    expect(hintDue(at(true, false), NONE)).toBe('points');
    expect(hintDue(at(true, true), NONE)).toBe('reading');
    expect(hintDue(at(true, true), new Set<HintId>(['reading']))).toBe('limits');
    expect(hintDue(at(true, true, true), new Set<HintId>(['reading']))).toBeNull();
  });

  it('stay away once closed, each by itself', () => {
    expect(hintDue(at(false, false), new Set<HintId>(['begin']))).toBeNull();
    expect(hintDue(at(true, false), new Set<HintId>(['begin']))).toBe('points');
    expect(hintDue(at(true, true), new Set(HINTS.map(({ id }) => id)))).toBeNull();
  });
});
