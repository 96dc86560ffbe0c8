import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cornersToPicture, liesOn } from '../../src/geometry/film-part.ts';
import { type Corners, throughHomography } from '../../src/geometry/homography.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { between, errorOf, unwrap } from './support.ts';

const cornersPart = (corners: Corners, columns: number, rows: number) => ({
  kind: 'corners' as const,
  corners,
  columns,
  rows,
});

describe('where a part lies in its picture', () => {
  it('takes the corners of a straightened film to the corners that were marked', () => {
    const wobble = fc.tuple(between(-200, 200), between(-200, 200));
    fc.assert(
      fc.property(wobble, wobble, wobble, wobble, (a, b, c, d) => {
        const corners: Corners = [
          filmPoint(500 + a[0], 400 + a[1]),
          filmPoint(2500 + b[0], 400 + b[1]),
          filmPoint(2500 + c[0], 3000 + c[1]),
          filmPoint(500 + d[0], 3000 + d[1]),
        ];
        const map = unwrap(cornersToPicture(cornersPart(corners, 1800, 2400)));
        const toPicture = (point: FilmPoint) => {
          const { x, y } = throughHomography(map, point);
          return filmPoint(x, y);
        };
        const ends = [filmPoint(0, 0), filmPoint(1800, 0), filmPoint(1800, 2400), filmPoint(0, 2400)];
        ends.forEach((end, index) => {
          const found = toPicture(end);
          expect(found.column).toBeCloseTo(corners[index]!.column, 6);
          expect(found.row).toBeCloseTo(corners[index]!.row, 6);
        });
        // The diagonals of a rectangle meet in its middle, and straight lines stay straight.
        const middle = toPicture(filmPoint(900, 1200));
        const [p, q, r, s] = corners;
        const across = (one: typeof p, other: typeof p) =>
          (other.column - one.column) * (middle.row - one.row) -
          (other.row - one.row) * (middle.column - one.column);
        expect(Math.abs(across(p, r)) / Math.hypot(r.column - p.column, r.row - p.row)).toBeLessThan(1e-6);
        expect(Math.abs(across(q, s)) / Math.hypot(s.column - q.column, s.row - q.row)).toBeLessThan(1e-6);
      }),
    );
  });

  it('refuses corners that make no sheet', () => {
    const crossed: Corners = [filmPoint(0, 0), filmPoint(9, 9), filmPoint(9, 0), filmPoint(0, 9)];
    expect(errorOf(cornersToPicture(cornersPart(crossed, 10, 10))).kind).toBe('corners-not-convex');
  });

  it('tells a part that is on the picture from one that is not', () => {
    const picture = { columns: 454, rows: 373 };
    const rectangle = { kind: 'rectangle', column: 230, row: 0, columns: 224, rows: 373 } as const;
    expect(liesOn(rectangle, picture)).toBe(true);
    expect(liesOn({ ...rectangle, columns: 225 }, picture)).toBe(false);
    expect(liesOn({ ...rectangle, row: 1 }, picture)).toBe(false);
    const square: Corners = [filmPoint(-5, -5), filmPoint(460, 0), filmPoint(460, 380), filmPoint(0, 380)];
    expect(liesOn(cornersPart(square, 10, 10), picture)).toBe(true);
    expect(
      liesOn(cornersPart(square.with(0, filmPoint(-300, 0)) as unknown as Corners, 10, 10), picture),
    ).toBe(false);
  });
});
