import { describe, expect, it } from 'vitest';
import {
  keepOwnPlacingError,
  outcomeOf,
  ownPlacingError,
  PLACINGS_WANTED,
} from '../../src/app/repeats/repeats.ts';
import type { Repeats } from '../../src/app/repeats/repeats-task.ts';
import { type MarkShape, recordId } from '../../src/case/document.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { film, free } from '../case/samples.ts';

/** 0.1 mm to a pixel, and pixels that are only known to be square. */
const { spacing } = film('film-1');
const noScale = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;

const repeats = (construction: Repeats['construction'], placings: readonly MarkShape[]): Repeats => ({
  filmId: recordId('film-1'),
  construction,
  placings,
});

const level = (row: number, aside: number) => ({
  one: filmPoint(1000 + aside, row),
  other: filmPoint(1100 + aside, row),
});

describe('repeats of one axis', () => {
  const asides = [0, 4, -4, 0, 4, -4];

  it('give the placing error of a free line', () => {
    const placings = asides.map((aside) => free([1000 + aside, 2000], [1000 + aside, 1500]));
    // Offsets of 0 and ± 0.4 mm at both stations: √(8 · 0.4² / 10) = 0.357771 mm; 2 · (6 − 1) degrees of freedom.
    expect(outcomeOf(repeats('free', placings), spacing)).toEqual({
      kind: 'estimate',
      standardUncertaintyMm: expect.closeTo(0.357771, 6),
      degreesOfFreedom: 10,
    });
  });

  it('give √2 times the spread of mid-points', () => {
    const placings = asides.map(
      (aside): MarkShape => ({ construction: 'canal', levels: [level(2000, aside), level(1500, aside)] }),
    );
    expect(outcomeOf(repeats('canal', placings), spacing)).toMatchObject({
      standardUncertaintyMm: expect.closeTo(Math.SQRT2 * 0.357771, 6),
    });
  });

  it('say nothing before all are made, without a scale, and where nothing differs', () => {
    const same = Array.from({ length: PLACINGS_WANTED }, () => free([1000, 2000], [1000, 1500]));
    expect(outcomeOf(repeats('free', same.slice(1)), spacing)).toBeNull();
    expect(outcomeOf(repeats('free', same), noScale)).toBeNull();
    expect(outcomeOf(repeats('free', same), spacing)).toEqual({ kind: 'no-spread' });
  });
});

describe('the placing error that is kept for new cases', () => {
  const notepad = (content: string | null = null) => {
    let kept = content;
    return {
      getItem: () => kept,
      setItem: (_key: string, value: string) => {
        kept = value;
      },
      removeItem: () => {
        kept = null;
      },
    };
  };

  it('comes back as it was kept', () => {
    const pad = notepad();
    expect(ownPlacingError(pad)).toBeNull();
    keepOwnPlacingError(pad, { placingErrorMm: 0.36, placingErrorDegreesOfFreedom: 10 });
    expect(ownPlacingError(pad)).toEqual({ placingErrorMm: 0.36, placingErrorDegreesOfFreedom: 10 });
  });

  it.each([
    '{',
    'null',
    '7',
    '{"placingErrorMm":0.4}',
    '{"placingErrorMm":-1,"placingErrorDegreesOfFreedom":10}',
    '{"placingErrorMm":"0.4","placingErrorDegreesOfFreedom":10}',
  ])('is none where what is kept says nothing: %s', (content) => {
    expect(ownPlacingError(notepad(content))).toBeNull();
  });

  it('is given up where the browser keeps nothing', () => {
    const full = {
      ...notepad(),
      setItem: () => {
        throw new Error('full');
      },
    };
    expect(() =>
      keepOwnPlacingError(full, { placingErrorMm: 0.4, placingErrorDegreesOfFreedom: 10 }),
    ).not.toThrow();
  });
});
