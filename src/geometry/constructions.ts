import { type Axis, axisLength, middleOf } from './axis.ts';
import { type CircleFailure, circleCentre, fitCircle } from './circle.ts';
import { fitLine, type LineFailure, lineAxis } from './line.ts';
import type { PlacingError } from './placing.ts';
import { failure, type Result, success } from './result.ts';
import type { PlanePoint } from './units.ts';

/**
 * The control points of an axis, by how it is constructed. Same shapes and names as the marks of a case, in
 * plane coordinates.
 *
 * - `free`: the two points are the axis.
 * - `cortex-pair`: mid-points between the outer cortices at two or more levels, and the line through them.
 * - `canal`: the same between the two inner cortices.
 * - `dorsal-cortex`: the line through two or more points along the dorsal cortex.
 * - `head`: from the middle of the broken end to the centre of the circle through the rim of the head.
 */
export type AxisPoints =
  | { readonly construction: 'free'; readonly from: PlanePoint; readonly to: PlanePoint }
  | {
      readonly construction: 'cortex-pair' | 'canal';
      readonly levels: readonly { readonly one: PlanePoint; readonly other: PlanePoint }[];
    }
  | { readonly construction: 'dorsal-cortex'; readonly points: readonly PlanePoint[] }
  | {
      readonly construction: 'head';
      readonly rim: readonly PlanePoint[];
      readonly brokenEnd: PlanePoint;
    };

export type AxisFailure =
  | LineFailure
  | CircleFailure
  | {
      readonly kind: 'axis-too-short';
      /** Plane units. */
      readonly length: number;
      /** Plane units: five times the placing error. */
      readonly neededLength: number;
    }
  | {
      readonly kind: 'circle-too-small';
      /** Plane units. */
      readonly radius: number;
      /** Plane units: three times the placing error. */
      readonly neededRadius: number;
    };

/** Below this many placing errors between its ends an axis has no direction worth a number (about ±32° at k = 2). */
const SHORTEST_AXIS_PLACING_ERRORS = 5;

/** Rim points that lie closer together than they can be placed fix no circle: any nudge may turn it inside out. */
const SMALLEST_RADIUS_PLACING_ERRORS = 3;

export interface ConstructedAxis {
  /** Directed as placed; `orient.ts` turns a pair of axes from proximal to distal. */
  readonly axis: Axis;
  /** Root-mean-square distance of the points from the fitted line or circle; 0 for two points. Plane units. */
  readonly residual: number;
  /** The head circle, for the head construction. */
  readonly circle: { readonly centre: PlanePoint; readonly radius: number } | null;
}

/**
 * Builds an axis from its control points.
 *
 * Fails with `too-few-points` (what is needed is given), `points-coincide`, `no-direction` (points in a heap),
 * `circle-not-defined` (rim points nearly on a line or over less than 45° of the rim), `circle-too-small` when
 * the radius is less than 3 × the placing error, and `axis-too-short` when the ends are less than 5 × the
 * placing error apart, with both lengths in plane units.
 *
 * @see docs/measurements/ for a page on each construction: what it means and what it leaves out.
 */
export function constructAxis(
  shape: AxisPoints,
  placing: PlacingError,
): Result<ConstructedAxis, AxisFailure> {
  const built = build(shape);
  if (!built.ok) return built;
  const { circle } = built.value;
  const neededRadius = SMALLEST_RADIUS_PLACING_ERRORS * placing.standardUncertainty;
  if (circle !== null && circle.radius < neededRadius)
    return failure({ kind: 'circle-too-small', radius: circle.radius, neededRadius });
  const length = axisLength(built.value.axis);
  if (length === 0) return failure({ kind: 'points-coincide' });
  const neededLength = SHORTEST_AXIS_PLACING_ERRORS * placing.standardUncertainty;
  return length < neededLength ? failure({ kind: 'axis-too-short', length, neededLength }) : built;
}

function build(shape: AxisPoints): Result<ConstructedAxis, AxisFailure> {
  switch (shape.construction) {
    case 'free':
      return success({ axis: { from: shape.from, to: shape.to }, residual: 0, circle: null });
    case 'cortex-pair':
    case 'canal':
    case 'dorsal-cortex': {
      const line = fitLine(linePoints(shape));
      return line.ok ? success({ axis: line.value.axis, residual: line.value.residual, circle: null }) : line;
    }
    case 'head': {
      const fitted = fitCircle(shape.rim);
      if (!fitted.ok) return fitted;
      const { centre, radius, residual } = fitted.value;
      return success({ axis: { from: shape.brokenEnd, to: centre }, residual, circle: { centre, radius } });
    }
  }
}

/**
 * The axis of `constructAxis` as a function of the control points, without the checks. Uncertainty is
 * propagated through this one.
 *
 * @param shape - Says which construction it is; its own points are not used.
 * @param points - As many points as `controlPoints(shape)`, in the same order.
 */
export function axisFrom(shape: AxisPoints, points: readonly PlanePoint[]): Axis {
  const moved = withControlPoints(shape, points);
  switch (moved.construction) {
    case 'free':
      return { from: moved.from, to: moved.to };
    case 'cortex-pair':
    case 'canal':
    case 'dorsal-cortex':
      return lineAxis(linePoints(moved));
    case 'head':
      return { from: moved.brokenEnd, to: circleCentre(moved.rim) };
  }
}

/** Every placed point of a construction, in a fixed order: along the bone as placed; the broken end last. */
export function controlPoints(shape: AxisPoints): readonly PlanePoint[] {
  switch (shape.construction) {
    case 'free':
      return [shape.from, shape.to];
    case 'cortex-pair':
    case 'canal':
      return shape.levels.flatMap(({ one, other }) => [one, other]);
    case 'dorsal-cortex':
      return shape.points;
    case 'head':
      return [...shape.rim, shape.brokenEnd];
  }
}

/** The same construction on other points, in the order of `controlPoints`. */
export function withControlPoints(shape: AxisPoints, points: readonly PlanePoint[]): AxisPoints {
  const count = controlPoints(shape).length;
  if (points.length !== count) {
    throw new RangeError(`A ${shape.construction} axis of ${count} points was given ${points.length}.`);
  }
  const at = (index: number) => points[index] as PlanePoint;
  switch (shape.construction) {
    case 'free':
      return { construction: 'free', from: at(0), to: at(1) };
    case 'cortex-pair':
    case 'canal':
      return {
        construction: shape.construction,
        levels: shape.levels.map((_, level) => ({ one: at(2 * level), other: at(2 * level + 1) })),
      };
    case 'dorsal-cortex':
      return { construction: 'dorsal-cortex', points };
    case 'head':
      return { construction: 'head', rim: points.slice(0, -1), brokenEnd: at(count - 1) };
  }
}

const linePoints = (
  shape: Extract<AxisPoints, { construction: 'cortex-pair' | 'canal' | 'dorsal-cortex' }>,
): readonly PlanePoint[] =>
  shape.construction === 'dorsal-cortex'
    ? shape.points
    : shape.levels.map(({ one, other }) => middleOf(one, other));
