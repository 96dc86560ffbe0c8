import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { liesOn } from '../../../src/geometry/film-part.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import {
  cornersOf,
  equalParts,
  firstCorners,
  type Rectangle,
  rectangleBetween,
  withCorner,
} from '../../../src/ui/film-tools/part-drawing.ts';

const picture = { columns: 454, rows: 373 };
const isOn = (part: Rectangle) => liesOn({ kind: 'rectangle', ...part }, picture);
const anywhere = fc
  .tuple(fc.double({ min: -900, max: 1400, noNaN: true }), fc.double({ min: -900, max: 1400, noNaN: true }))
  .map(([column, row]) => filmPoint(column, row));

describe('rectangles drawn on a picture', () => {
  it('are of whole pixels on the picture, whichever way they are drawn', () => {
    fc.assert(
      fc.property(anywhere, anywhere, (one, other) => {
        const drawn = rectangleBetween(one, other, picture);
        expect(rectangleBetween(other, one, picture)).toEqual(drawn);
        if (drawn === null) return;
        expect(Object.values(drawn).every(Number.isInteger)).toBe(true);
        expect(isOn(drawn)).toBe(true);
      }),
    );
    expect(rectangleBetween(filmPoint(10.4, 20.6), filmPoint(60, 90), picture)).toEqual({
      column: 10,
      row: 21,
      columns: 50,
      rows: 69,
    });
  });

  it('are not made by a click or a thin stroke', () => {
    expect(rectangleBetween(filmPoint(10, 10), filmPoint(11, 300), picture)).toBeNull();
  });

  it('keep the opposite corner when one is moved, and never turn over', () => {
    const part: Rectangle = { column: 100, row: 50, columns: 200, rows: 150 };
    fc.assert(
      fc.property(anywhere, fc.constantFrom(0 as const, 1 as const, 2 as const, 3 as const), (to, corner) => {
        const moved = withCorner(part, corner, to, picture);
        const opposite = (corner + 2) % 4;
        expect(cornersOf(moved)[opposite]).toEqual(cornersOf(part)[opposite]);
        expect(moved.columns).toBeGreaterThan(0);
        expect(isOn(moved)).toBe(true);
      }),
    );
    expect(withCorner(part, 0, filmPoint(110, 70), picture)).toEqual({
      column: 110,
      row: 70,
      columns: 190,
      rows: 130,
    });
  });

  it('can start as equal parts that leave no pixel out', () => {
    const three = equalParts(picture, 3, 'side by side');
    expect(three.reduce((sum, part) => sum + part.columns * part.rows, 0)).toBe(454 * 373);
    expect(equalParts(picture, 2, 'stacked').map(({ row, rows }) => [row, rows])).toEqual([
      [0, 187],
      [187, 186],
    ]);
  });

  it('gives a sheet its first corners inside the picture, from top left clockwise', () => {
    const [topLeft, topRight, bottomRight, bottomLeft] = firstCorners(picture);
    expect(topLeft.column).toBeLessThan(topRight.column);
    expect(topRight.row).toBeLessThan(bottomRight.row);
    expect(bottomLeft.column).toBe(topLeft.column);
  });
});
