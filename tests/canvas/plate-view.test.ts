import { describe, expect, test } from 'vitest';
import { GREATEST_MAGNIFICATION, keptInSight, wholeFilmView } from '../../src/canvas/plate-view.ts';
import { degrees, filmPoint } from '../../src/geometry/units.ts';
import { millimetres, ratioOnly } from './made-film.ts';

const film = { columns: 1000, rows: 800, spacing: ratioOnly(1) };

describe('the whole film', () => {
  test.each([
    // As wide as the plate: 500 / 1000.
    { name: 'wide plate', size: { width: 500, height: 900 }, turn: 0, magnification: 0.5 },
    // As high as the plate: 200 / 800.
    { name: 'flat plate', size: { width: 500, height: 200 }, turn: 0, magnification: 0.25 },
    // Turned a quarter, its 800 rows lie across: 400 / 800.
    { name: 'quarter turn', size: { width: 400, height: 900 }, turn: 90, magnification: 0.5 },
    // At 45° it needs (1000 + 800) / √2 in both directions: 900 / 1272.79.
    { name: 'half a quarter turn', size: { width: 900, height: 900 }, turn: 45, magnification: Math.SQRT1_2 },
  ])('fits: $name', ({ size, turn, magnification }) => {
    const view = wholeFilmView(film, size, degrees(turn));
    expect(view.magnification).toBeCloseTo(magnification, 12);
    expect(view.centre).toEqual({ column: 500, row: 400 });
  });

  test('of unequal spacings is as high as its rows are in columns', () => {
    // Rows 0.3 mm and columns 0.1 mm apart: 800 rows are as high as 2400 columns are wide.
    const tall = { columns: 1000, rows: 800, spacing: millimetres(0.3, 0.1) };
    expect(wholeFilmView(tall, { width: 1000, height: 1200 }).magnification).toBeCloseTo(0.5, 12);
  });
});

describe('a view is kept in sight', () => {
  const size = { width: 500, height: 400 };
  const view = wholeFilmView(film, size);

  test('with its middle on the film', () => {
    const lost = { ...view, centre: filmPoint(-30, 5000) };
    expect(keptInSight(lost, film, size).centre).toEqual({ column: 0, row: 800 });
  });

  test('neither too small to see nor too large to place', () => {
    expect(keptInSight({ ...view, magnification: 1e-6 }, film, size).magnification).toBeCloseTo(
      view.magnification / 2,
      12,
    );
    expect(keptInSight({ ...view, magnification: 1e6 }, film, size).magnification).toBe(
      GREATEST_MAGNIFICATION,
    );
  });

  test('and stays as it is when it already is', () => {
    const good = { ...view, centre: filmPoint(12.5, 700), magnification: 3 };
    expect(keptInSight(good, film, size)).toEqual(good);
  });
});
