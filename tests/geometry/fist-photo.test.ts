import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { directionDifference, fingerDirection, nailOverlap } from '../../src/geometry/fist-photo.ts';
import { errorOf, freeAxis, placed, point, unwrap } from './support.ts';
import { expectAsPrinted, workedExamples } from './worked-examples.ts';

const pair = z.tuple([z.number(), z.number()]);
const segment = z.tuple([pair, pair]);
const examples = workedExamples(
  'fist-photograph',
  z.object({ reference: segment, finger: segment, other: segment, nail: segment, edge: pair }),
);
const axis = ([from, to]: z.infer<typeof segment>) => ({ from: point(from), to: point(to) });

describe('fist photograph', () => {
  it.each(examples)('$name', (example) => {
    const { reference, finger, other, nail, edge } = example.given;
    const here = unwrap(fingerDirection(axis(reference), axis(finger), placed(0.5)));
    const there = unwrap(fingerDirection(axis(reference), axis(other), placed(0.5)));
    const overlap = unwrap(nailOverlap(axis(nail), point(edge), placed(0.5)));
    expectAsPrinted(example, {
      direction: here.value,
      difference: directionDifference(here, there).value,
      overlap: overlap.value,
    });
  });

  it('refuses two fingers that point past a right angle from one another: one was placed backwards', () => {
    const reference = freeAxis([0, 0], 20, -90);
    expect(fingerDirection(reference, freeAxis([9, 0], 20, -1), placed(0.5)).ok).toBe(true);
    const backwards = errorOf(fingerDirection(reference, freeAxis([9, 0], 20, 60), placed(0.5)));
    expect(backwards.kind).toBe('points-back');
    if (backwards.kind === 'points-back') expect(backwards.turn).toBeCloseTo(150, 9);
  });

  it('refuses axes and nails shorter than five placing errors', () => {
    const [short, long] = [freeAxis([0, 0], 2, 0), freeAxis([0, 0], 20, 0)];
    const expected = { kind: 'axis-too-short', length: 2, neededLength: 2.5 };
    expect(errorOf(fingerDirection(long, short, placed(0.5)))).toEqual(expected);
    expect(errorOf(fingerDirection(short, long, placed(0.5)))).toEqual(expected);
    expect(errorOf(nailOverlap(short, point([1, 1]), placed(0.5)))).toEqual(expected);
  });
});
