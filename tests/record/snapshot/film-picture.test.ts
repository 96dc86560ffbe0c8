import { beforeAll, describe, expect, it } from 'vitest';
import type { Film } from '../../../src/film/film.ts';
import type { Light } from '../../../src/film/grey-scale.ts';
import { filmPicture } from '../../../src/record/snapshot/film-picture.ts';
import { openSample } from '../sample.ts';

const FULL: Light = { shown: { kind: 'full-range' }, negative: false };

describe('filmPicture', () => {
  let film: Film;
  beforeAll(async () => {
    film = await openSample();
  });
  const whole = () => filmPicture(film, FULL, { area: null, covered: [] });

  it('shows the least stored value black and the greatest white (PS3.3 C.11.2)', () => {
    const { columns, rows, grey } = whole();
    expect([columns, rows, grey.length]).toEqual([400, 500, 200_000]);
    const { pixels } = film.levels[0]!;
    expect(grey[pixels.indexOf(film.storedMin)]).toBe(0);
    expect(grey[pixels.indexOf(film.storedMax)]).toBe(255);
  });

  it('holds the area that is wanted and nothing outside it', () => {
    const area = { column: 30, row: 40, columns: 7, rows: 5 };
    const { columns, rows, grey } = filmPicture(film, FULL, { area, covered: [] });
    expect([columns, rows, grey.length]).toEqual([7, 5, 35]);
    const all = whole();
    for (let row = 0; row < 5; row += 1) {
      const from = (40 + row) * 400 + 30;
      expect(Array.from(grey.subarray(7 * row, 7 * row + 7))).toEqual(
        Array.from(all.grey.subarray(from, from + 7)),
      );
    }
  });

  it('has nothing but black where it is covered, wherever the area begins', () => {
    const covers = [
      { column: 32, row: 41, columns: 2, rows: 2 },
      { column: 0, row: 0, columns: 31, rows: 500 },
      { column: 36, row: 44, columns: 400, rows: 500 },
      // Elsewhere on the film.
      { column: 200, row: 200, columns: 50, rows: 50 },
    ];
    const area = { column: 30, row: 40, columns: 7, rows: 5 };
    const { grey } = filmPicture(film, FULL, { area, covered: covers });
    const all = filmPicture(film, FULL, { area, covered: [] });
    for (let row = 40; row < 45; row += 1) {
      for (let column = 30; column < 37; column += 1) {
        const isCovered = covers.some(
          (one) =>
            column >= one.column &&
            column < one.column + one.columns &&
            row >= one.row &&
            row < one.row + one.rows,
        );
        const at = (row - 40) * 7 + (column - 30);
        expect(grey[at], `${column} ${row}`).toBe(isCovered ? 0 : all.grey[at]);
      }
    }
  });
});
