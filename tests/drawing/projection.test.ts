import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  magnifiedAt,
  type Projection,
  pixelsPerColumn,
  pixelsPerRow,
  scaled,
  toFilm,
  toScreen,
} from '../../src/drawing/projection.ts';
import { filmPoint, screenPoint } from '../../src/geometry/units.ts';

const coordinate = fc.double({ min: -5000, max: 5000, noNaN: true });
const projections: fc.Arbitrary<Projection> = fc
  .record({
    turn: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
    perColumn: fc.double({ min: 0.05, max: 24, noNaN: true }),
    rowsPerColumn: fc.double({ min: 0.3, max: 3, noNaN: true }),
    mirrored: fc.boolean(),
    e: coordinate,
    f: coordinate,
  })
  .map(({ turn, perColumn, rowsPerColumn, mirrored, e, f }) => ({
    a: (mirrored ? -1 : 1) * perColumn * Math.cos(turn),
    b: (mirrored ? -1 : 1) * perColumn * Math.sin(turn),
    c: -perColumn * rowsPerColumn * Math.sin(turn),
    d: perColumn * rowsPerColumn * Math.cos(turn),
    e,
    f,
  }));

test('film to screen to film is the identity', () => {
  fc.assert(
    fc.property(projections, coordinate, coordinate, (projection, column, row) => {
      const back = toFilm(projection, toScreen(projection, filmPoint(column, row)));
      expect(back.column).toBeCloseTo(column, 6);
      expect(back.row).toBeCloseTo(row, 6);
    }),
  );
});

test('a worked example: a quarter turn clockwise, two pixels per column, three per row', () => {
  // Columns run down and rows run left on screen.
  const quarter: Projection = { a: 0, b: 2, c: -3, d: 0, e: 100, f: 50 };
  expect(toScreen(quarter, filmPoint(10, 20))).toEqual({ x: 40, y: 70 });
  expect(toFilm(quarter, screenPoint(40, 70))).toEqual({ column: 10, row: 20 });
  expect(pixelsPerColumn(quarter)).toBe(2);
  expect(pixelsPerRow(quarter)).toBe(3);
});

test('magnified about a point, that point is where it was asked to be and lengths grow by the factor', () => {
  fc.assert(
    fc.property(projections, coordinate, coordinate, (projection, column, row) => {
      const magnified = magnifiedAt(projection, filmPoint(column, row), screenPoint(85, 85), 3);
      const at = toScreen(magnified, filmPoint(column, row));
      expect(at.x).toBeCloseTo(85, 6);
      expect(at.y).toBeCloseTo(85, 6);
      expect(pixelsPerColumn(magnified)).toBeCloseTo(3 * pixelsPerColumn(projection), 9);
    }),
  );
});

test('in device pixels every coordinate is the ratio larger', () => {
  fc.assert(
    fc.property(projections, coordinate, coordinate, (projection, column, row) => {
      const css = toScreen(projection, filmPoint(column, row));
      const device = toScreen(scaled(projection, 1.5), filmPoint(column, row));
      expect(device.x).toBeCloseTo(1.5 * css.x, 6);
      expect(device.y).toBeCloseTo(1.5 * css.y, 6);
    }),
  );
});
