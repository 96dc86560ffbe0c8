import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { angleChange, type Corners, planeHomography } from '../../src/geometry/homography.ts';
import { greatestAngleError, rectangleProportion, straightening } from '../../src/geometry/slant.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { between, errorOf, RADIANS, unwrap } from './support.ts';

/**
 * A sheet seen by a camera, by the pinhole model itself: the outside truth of this file. Lengths in sheet
 * heights, angles in degrees, the focal length in pixels.
 */
function photographed(
  widthToHeight: number,
  turns: { readonly pitch: number; readonly yaw: number; readonly roll: number },
  picture: { readonly columns: number; readonly rows: number },
  focal: number,
  distance: number,
): Corners {
  const [cp, sp] = [Math.cos(turns.pitch * RADIANS), Math.sin(turns.pitch * RADIANS)];
  const [cy, sy] = [Math.cos(turns.yaw * RADIANS), Math.sin(turns.yaw * RADIANS)];
  const [cr, sr] = [Math.cos(turns.roll * RADIANS), Math.sin(turns.roll * RADIANS)];
  const seen = (x: number, y: number) => {
    const [x1, y1] = [x * cr - y * sr, x * sr + y * cr];
    const [x2, z2] = [x1 * cy, -x1 * sy];
    const [y3, z3] = [y1 * cp - z2 * sp, y1 * sp + z2 * cp];
    const depth = distance + z3;
    return filmPoint(picture.columns / 2 + (focal * x2) / depth, picture.rows / 2 + (focal * y3) / depth);
  };
  const w = widthToHeight / 2;
  return [seen(-w, -0.5), seen(w, -0.5), seen(w, 0.5), seen(-w, 0.5)];
}

const picture = { columns: 4000, rows: 3000 };

describe('greatest angle error', () => {
  it('is the maximum angular deformation of an ellipse of known axes', () => {
    // Snyder (USGS PP 1395, p. 21, eq. 4-9): sin(ω/2) = |a' − b'| / (a' + b'). Axes 2 : 1 give 2·asin(1/3).
    const stretched = [
      [2, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ];
    expect(greatestAngleError(stretched, filmPoint(5, 7))).toBeCloseTo((2 * Math.asin(1 / 3)) / RADIANS, 9);
    const turned = [
      [0.6, -0.8, 3],
      [0.8, 0.6, 1],
      [0, 0, 1],
    ];
    expect(greatestAngleError(turned, filmPoint(5, 7))).toBeCloseTo(0, 6);
  });

  it('bounds every change of an angle there, and is nearly reached', () => {
    const corners = photographed(0.8, { pitch: 25, yaw: 10, roll: 4 }, picture, 3000, 3);
    const map = unwrap(planeHomography(corners, 0.8));
    const at = filmPoint(2100, 1400);
    const bound = greatestAngleError(map, at);
    let greatest = 0;
    for (let one = 0; one < 180; one += 1) {
      for (let other = 0; other < 180; other += 3) {
        const axis = (turn: number) => ({
          from: at,
          to: filmPoint(
            at.column + 0.01 * Math.cos(turn * RADIANS),
            at.row + 0.01 * Math.sin(turn * RADIANS),
          ),
        });
        greatest = Math.max(greatest, Math.abs(angleChange(map, axis(one), axis(other)).change));
      }
    }
    expect(greatest).toBeLessThanOrEqual(bound + 0.01);
    expect(greatest).toBeGreaterThan(bound - 0.1);
    expect(bound).toBeGreaterThan(3);
  });
});

describe('proportion of a photographed rectangle', () => {
  it('is found from the corners when the camera looks at it from a corner', () => {
    fc.assert(
      fc.property(
        between(0.5, 2),
        between(15, 35),
        between(15, 35),
        between(-10, 10),
        between(2500, 6000),
        (ratio, pitch, yaw, roll, focal) => {
          const corners = photographed(ratio, { pitch, yaw, roll }, picture, focal, 4);
          const found = unwrap(rectangleProportion(corners, picture));
          // Nearly along one side the focal length cannot be seen; the assumed one is then off.
          fc.pre(found.focalLength === 'from the corners');
          expect(found.widthToHeight / ratio).toBeCloseTo(1, 5);
        },
      ),
    );
  });

  it('is within 3 % for a phone that is tilted about one side only, with its focal length assumed', () => {
    // A phone of 26 mm on 36 mm: the focal length is 0.722 of the longer side, 2889 pixels.
    const corners = photographed(0.8, { pitch: 20, yaw: 0, roll: 0 }, picture, 2889, 2);
    const found = unwrap(rectangleProportion(corners, picture));
    expect(found.focalLength).toBe('assumed');
    expect(Math.abs(found.widthToHeight / 0.8 - 1)).toBeLessThan(0.03);
  });

  it('is the plain proportion when there is no slant, and refuses what is no sheet', () => {
    const corners: Corners = [filmPoint(10, 10), filmPoint(250, 10), filmPoint(250, 310), filmPoint(10, 310)];
    expect(unwrap(rectangleProportion(corners, picture)).widthToHeight).toBeCloseTo(240 / 300, 9);
    const flat: Corners = [filmPoint(0, 0), filmPoint(5, 0), filmPoint(9, 0), filmPoint(0, 9)];
    expect(errorOf(rectangleProportion(flat, picture)).kind).toBe('corners-not-convex');
  });
});

describe('straightening', () => {
  it('keeps the proportion and the finest side, and says what the slant could do', () => {
    const corners = photographed(0.8, { pitch: 20, yaw: 0, roll: 0 }, picture, 2889, 2);
    const { part, angleError } = unwrap(straightening(corners, 0.8));
    expect(part.columns / part.rows).toBeCloseTo(0.8, 2);
    const [topLeft, topRight, , bottomLeft] = corners;
    expect(part.rows).toBeGreaterThanOrEqual(
      Math.round(Math.hypot(bottomLeft.column - topLeft.column, bottomLeft.row - topLeft.row)),
    );
    expect(part.columns).toBeGreaterThanOrEqual(Math.round(topRight.column - topLeft.column));
    // Seen 20° off in the middle, one direction is shortened to about cos 20°: 2·asin((1 − cos 20°)/(1 + cos 20°)).
    const cos = Math.cos(20 * RADIANS);
    expect(angleError).toBeCloseTo((2 * Math.asin((1 - cos) / (1 + cos))) / RADIANS, 1);
  });
});
