import { describe, expect, it } from 'vitest';
import { filmsInWords, filmsOnPage, type NumberedFilm } from '../../../src/record/pdf/on-page.ts';
import { caseOf, film } from '../../case/samples.ts';

/** Numbered in this order from 1. */
const course = caseOf(
  film('after', { day: 0, moment: 'after-reduction' }),
  film('before', { day: 0, moment: 'before-reduction' }),
  film('other', { hand: 'other', day: null }),
  film('week', { day: 7, moment: 'follow-up' }),
  film('fist', { shows: 'fist', day: 30 }),
  film('month', { day: 28, moment: 'follow-up' }),
);

const numbers = (films: readonly NumberedFilm[]) => films.map(({ number }) => number);

describe('filmsOnPage', () => {
  it.each([
    [1, [4], [4]],
    [2, [4], [2, 4]],
    [3, [4], [2, 4, 6]],
    [4, [4], [2, 3, 4, 6]],
    [2, [4, 1], [1, 4]],
    [3, [], [2, 3, 6]],
    [6, [1], [1, 2, 3, 4, 5, 6]],
  ])(
    '%i in full with %j pictured: these, then how it was, how it is now and the other hand',
    (most, pictured, inFull) => {
      const onPage = filmsOnPage(course, pictured, { inFull: most, listed: 99 });
      expect(numbers(onPage.inFull)).toEqual(inFull);
      expect(numbers(onPage.leftOut)).toEqual([]);
    },
  );

  it('has every film once: in full, on a line, or counted as left out, the older before the newer', () => {
    const { inFull, listed, leftOut } = filmsOnPage(course, [2], { inFull: 2, listed: 2 });
    expect([numbers(inFull), numbers(listed), numbers(leftOut)]).toEqual([
      [2, 6],
      [3, 5],
      [1, 4],
    ]);
  });
});

describe('filmsInWords', () => {
  const all = filmsOnPage(caseOf(...Array.from({ length: 12 }, (_, index) => film(`f${index}`))), [], {
    inFull: 99,
    listed: 0,
  }).inFull;
  it.each([
    [[2], 'film 2'],
    [[2, 3], 'films 2 and 3'],
    [[1, 3, 4, 5, 9], 'films 1, 3 to 5 and 9'],
    [[4, 5, 6, 7], 'films 4 to 7'],
  ])('%j is “%s”', (wanted, words) => {
    expect(filmsInWords(all.filter(({ number }) => wanted.includes(number)))).toBe(words);
  });
});
