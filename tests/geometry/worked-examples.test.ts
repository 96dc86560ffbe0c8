import { describe, expect, it } from 'vitest';
import { expectAsPrinted, halfLastPlace } from './worked-examples.ts';

/** The net itself: a table test that could not fail would be worse than none. */
describe('tables of worked examples', () => {
  const example = {
    name: 'a row',
    kind: 'published',
    source: 'somebody, somewhere',
    given: null,
    expected: { value: '12.50' },
    within: null,
  } as const;

  it('allow half a unit in the last place as printed', () => {
    expect(halfLastPlace('12.50')).toBeCloseTo(0.005, 12);
    expect(halfLastPlace('-3')).toBe(0.5);
    expect(halfLastPlace('0.429796848199937E-03')).toBeCloseTo(0.5e-18, 30);
  });

  it('fail one step outside, on a value that is missing, and on one that is not a number', () => {
    expect(() => expectAsPrinted(example, { value: 12.505 })).not.toThrow();
    expect(() => expectAsPrinted(example, { value: 12.5051 })).toThrow('expected 12.50');
    expect(() => expectAsPrinted(example, { value: Number.NaN })).toThrow();
    expect(() => expectAsPrinted(example, { other: 12.5 })).toThrow('nothing was found');
    expect(() => expectAsPrinted({ ...example, within: 0.1 }, { value: 12.59 })).not.toThrow();
    expect(() => expectAsPrinted({ ...example, within: 0.1 }, { value: 12.61 })).toThrow();
  });
});
