import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToAxis, stationOf, turnBetween, wrapDegrees } from '../../src/geometry/axis.ts';
import { planePoint } from '../../src/geometry/units.ts';
import { between, freeAxis } from './support.ts';

describe('directed axes', () => {
  it('turn by +180 and never by −180 degrees when they run against one another', () => {
    fc.assert(
      fc.property(between(-50, 50), between(-50, 50), between(1, 50), (x, y, length) => {
        const axis = { from: planePoint(x, y), to: planePoint(x + length, y + 2) };
        const back = { from: axis.to, to: axis.from };
        expect(turnBetween(axis, back)).toBeCloseTo(180, 9);
        expect(turnBetween(back, axis)).toBeGreaterThan(0);
      }),
    );
    // atan2(−0, −1) is −π, and the cross product of these two comes out as −0.
    const [left, right] = [-1, 1].map((x) => ({ from: planePoint(0, 0), to: planePoint(x, 0) }));
    if (left === undefined || right === undefined) throw new Error('two axes');
    expect(turnBetween(left, right)).toBe(180);
    expect(turnBetween(right, left)).toBe(180);
  });

  it('swap to the opposite turn', () => {
    fc.assert(
      fc.property(between(-179, 179), between(-179, 179), (a, b) => {
        const [one, other] = [freeAxis([1, 2], 9, a), freeAxis([5, 5], 7, b)];
        expect(wrapDegrees(turnBetween(one, other) + turnBetween(other, one))).toBeCloseTo(0, 9);
      }),
    );
  });

  it('have differences of angles in (−180, 180]', () => {
    for (const [angle, wrapped] of [
      [180, 180],
      [-180, 180],
      [190, -170],
      [-190, 170],
      [540, 180],
      [0, 0],
    ] as const) {
      expect(wrapDegrees(angle)).toBe(wrapped);
    }
  });

  it('tell where a point lies along and across, and how far from the stretch between their ends', () => {
    const axis = { from: planePoint(10, 10), to: planePoint(18, 16) }; // along (4, 3) / 5, length 10
    const station = stationOf(planePoint(10 + 4 - 3, 10 + 3 + 4), axis); // 5 along, 5 to the right
    expect(station.along).toBeCloseTo(5, 12);
    expect(station.across).toBeCloseTo(5, 12);
    expect(distanceToAxis(planePoint(18 + 3, 16 + 4), axis)).toBeCloseTo(5, 12);
    expect(distanceToAxis(planePoint(11, 17), axis)).toBeCloseTo(5, 12);
  });
});
