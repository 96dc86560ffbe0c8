import { magnifiedAt, type Projection, pixelsPerColumn } from '../drawing/projection.ts';
import { type FilmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { PlateSize } from './plate-view.ts';

export type Corner = 'top-left' | 'top-right' | 'bottom-left' | 'bottom-right';

export interface InsetPlace {
  readonly corner: Corner;
  readonly centre: ScreenPoint;
  readonly radius: number;
}

/** CSS pixels. */
const DIAMETER = 170;
const EDGE = 16;
/** So much higher in the corner of the scale bar. */
const ABOVE_SCALE_BAR = 40;
/** It moves to another corner only when the point comes this near, so that it does not jump about. */
const TOO_NEAR = 48;
/** Against the plate; and in CSS pixels per column, between which the factor gives way. */
const FACTOR = 3;
const LEAST_PIXELS_PER_COLUMN = 1;
const MOST_PIXELS_PER_COLUMN = 8;

/**
 * Where the inset stands: in the corner farthest from the point, and it stays in its corner while the point
 * is not close to it. Never more than 45 % of the shorter side of the plate.
 */
export function insetPlace(
  previous: Corner | null,
  point: ScreenPoint,
  { width, height }: PlateSize,
): InsetPlace {
  const radius = Math.min(DIAMETER, 0.45 * Math.min(width, height)) / 2;
  const reach = radius + EDGE;
  const centres: readonly (readonly [Corner, ScreenPoint])[] = [
    ['top-right', screenPoint(width - reach, reach)],
    ['top-left', screenPoint(reach, reach)],
    ['bottom-right', screenPoint(width - reach, height - reach)],
    ['bottom-left', screenPoint(reach, height - reach - ABOVE_SCALE_BAR)],
  ];
  const distance = (centre: ScreenPoint) => Math.hypot(centre.x - point.x, centre.y - point.y);
  const kept = centres.find(([corner]) => corner === previous);
  const [corner, centre] =
    kept !== undefined && distance(kept[1]) > radius + TOO_NEAR
      ? kept
      : centres.reduce((best, other) => (distance(other[1]) > distance(best[1]) ? other : best));
  return { corner, centre, radius };
}

/** The projection of the inset: the plate's, magnified, with `point` in the middle of a square of its size. */
export function insetProjection(plate: Projection, point: FilmPoint, radius: number): Projection {
  const now = pixelsPerColumn(plate);
  const wanted = Math.min(Math.max(now * FACTOR, LEAST_PIXELS_PER_COLUMN), MOST_PIXELS_PER_COLUMN);
  return magnifiedAt(plate, point, screenPoint(radius, radius), Math.max(wanted, now) / now);
}
