import { describe, expect, it } from 'vitest';
import { limitMethodMismatch } from '../../src/tolerance/limit-method.ts';
import type { LimitMethod } from '../../src/tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';

const silent = SHIPPED_LIMIT_SETS.find((set) => set.id === 'textbook-chapter')!;
const drawnBy = (method: Partial<LimitMethod>) => ({ ...silent, method: { ...silent.method, ...method } });
const lateralCanal = { view: 'lateral', proximal: 'canal', distal: 'canal' } as const;

describe('a limit and a reading drawn otherwise', () => {
  it('cannot differ where the source does not say how it measures', () => {
    expect(limitMethodMismatch(silent, { view: 'oblique', proximal: 'free', distal: 'head' }, 12)).toBeNull();
  });

  it('names the view', () => {
    const set = drawnBy({ view: 'lateral' });
    expect(limitMethodMismatch(set, lateralCanal, null)).toBeNull();
    expect(limitMethodMismatch(set, { ...lateralCanal, view: 'oblique' }, null)).toContain('oblique');
    expect(limitMethodMismatch(set, { ...lateralCanal, view: null }, null)).toBeNull();
  });

  it('names the constructions', () => {
    const set = drawnBy({ constructions: { proximal: 'canal', distal: 'head' } });
    expect(limitMethodMismatch(set, lateralCanal, null)).toContain('the canal and the centre of the head');
    expect(limitMethodMismatch(set, { ...lateralCanal, distal: 'head' }, null)).toBeNull();
  });

  it('names the normal of the one source that takes a fixed 15° off (WikEM neck page, 2016)', () => {
    const set = SHIPPED_LIMIT_SETS.find((candidate) => candidate.id === 'subtract-the-normal-first')!;
    expect(limitMethodMismatch(set, lateralCanal, 12)).toContain(
      'takes a fixed 15° off the measured angle, here 12°',
    );
    expect(limitMethodMismatch(set, lateralCanal, 15)).toBeNull();
  });
});
