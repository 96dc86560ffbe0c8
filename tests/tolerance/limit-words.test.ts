import { describe, expect, it } from 'vitest';
import { limitText, probabilityText, valueText } from '../../src/tolerance/limit-words.ts';

describe('numbers in words', () => {
  // JCGM 100:2008, 7.2.6: one or two significant digits of the uncertainty, and the value to the same place.
  it.each([
    [42.4, 3, 'degrees', '42°'],
    [-12.6, 3, 'degrees', '−13°'],
    [-0.2, 3, 'degrees', '0°'],
    [42.44, 1.5, 'degrees', '42.4°'],
    [3.25, 1.4, 'millimetres', '3.3\u2009mm'],
    [3.25, 2.4, 'millimetres', '3\u2009mm'],
    [-0.04, 0.3, 'millimetres', '0.0\u2009mm'],
    [0.456, 0.08, 'millimetres', '0.46\u2009mm'],
  ] as const)('%f ± %f %s is %s', (value, expandedUncertainty, unit, text) => {
    expect(valueText(value, expandedUncertainty, unit)).toBe(text);
  });

  it.each([
    [0.0049, 'less than 1 in 100'],
    [0.005, 'about 1 in 100'],
    [0.5, 'about 50 in 100'],
    [0.994, 'about 99 in 100'],
    [0.996, 'more than 99 in 100'],
    [1, 'more than 99 in 100'],
  ])('%f is %s', (probability, text) => {
    expect(probabilityText(probability)).toBe(text);
  });

  it.each([
    [{ lo: 50, hi: 60 }, 'degrees', 'up to', 'up to 50–60°'],
    [{ lo: 2, hi: 2 }, 'millimetres', 'less than', 'less than 2\u2009mm'],
    [{ lo: 0, hi: 0 }, 'millimetres', 'up to', 'no displacement'],
    [null, 'degrees', 'up to', null],
  ] as const)('limit %o %s, %s: %s', (band, unit, comparison, text) => {
    expect(limitText({ band, unit, comparison })).toBe(text);
  });
});
