import { directionOf } from '../axis.ts';
import type { PlacingError } from '../placing.ts';
import { failure, type Result, success } from '../result.ts';
import { type PlanePoint, planePoint } from '../units.ts';
import { repeatability } from './repeatability.ts';
import { meanOf } from './table.ts';

/** Fewer degrees of freedom than this say less about the placing error than the assumption does. */
const ENOUGH_DEGREES_OF_FREEDOM = 10;

export interface TooFewRepeats {
  readonly kind: 'too-few-repeats';
  readonly degreesOfFreedom: number;
  readonly needed: number;
}

/**
 * The user's own placing error, from control points placed again on the same film.
 *
 * Both coordinates of each point count as subjects measured once per placing; their pooled within-subject SD is
 * the standard uncertainty per coordinate. Says how far apart placings by one person lie, not how far they lie
 * from the truth.
 *
 * @param points - For each control point, where it was placed each time; plane millimetres.
 *
 * Fails with `too-few-repeats` below 10 degrees of freedom (e.g. two axes of two points placed three times give
 * 16), and then the assumption of 0.5 mm stands.
 */
export function placingErrorFromRepeats(
  points: readonly (readonly PlanePoint[])[],
): Result<PlacingError, TooFewRepeats> {
  const coordinates = points.flatMap((placings) => [placings.map(({ x }) => x), placings.map(({ y }) => y)]);
  const most = Math.max(...points.map((placings) => placings.length));
  return pooled(coordinates, `from up to ${most} placings of ${points.length} points`);
}

/** An axis of two points (or two mid-points) as placed once. */
export interface PlacedLine {
  readonly one: PlanePoint;
  readonly other: PlanePoint;
}

/**
 * The user's own placing error, from an axis placed again on the same film.
 *
 * Along the bone a point of an axis may lie anywhere, so its place there is no error. What counts is how far the
 * lines lie from one another across the bone, at two stations: where their first and second points lie on
 * average. Both stations count as subjects measured once per placing. A line given by mid-points of two placed
 * points scatters by σ / √2, and its spread is multiplied back.
 *
 * @param lines - Plane millimetres, in the order of placing.
 * @param pointsEach - How many placed points each of the two points stands for: 1, or 2 for mid-points.
 *
 * Fails with `too-few-repeats` below 10 degrees of freedom, which takes six placings.
 */
export function placingErrorFromLines(
  lines: readonly PlacedLine[],
  pointsEach: 1 | 2,
): Result<PlacingError, TooFewRepeats> {
  const [first, second] = [lines.map(({ one }) => one), lines.map(({ other }) => other)].map(middleOfAll);
  if (first === undefined || second === undefined || lines.length === 0) return pooled([], '');
  const along = directionOf({ from: first, to: second });
  const lengthwise = (point: PlanePoint) => (point.x - first.x) * along.x + (point.y - first.y) * along.y;
  const across = (point: PlanePoint) => (point.y - first.y) * along.x - (point.x - first.x) * along.y;
  const offsetAt = ({ one, other }: PlacedLine, station: number): number => {
    const [from, to] = [lengthwise(one), lengthwise(other)];
    return across(one) + ((station - from) / (to - from)) * (across(other) - across(one));
  };
  const stations = [0, lengthwise(second)].map((station) =>
    lines.map((line) => Math.sqrt(pointsEach) * offsetAt(line, station)),
  );
  return pooled(stations, `from ${lines.length} placings of one axis`);
}

const middleOfAll = (points: readonly PlanePoint[]): PlanePoint =>
  planePoint(meanOf(points.map(({ x }) => x)), meanOf(points.map(({ y }) => y)));

function pooled(
  coordinates: readonly (readonly number[])[],
  text: string,
): Result<PlacingError, TooFewRepeats> {
  const found = repeatability(coordinates);
  const degreesOfFreedom = found.ok ? found.value.degreesOfFreedom : 0;
  if (!found.ok || degreesOfFreedom < ENOUGH_DEGREES_OF_FREEDOM) {
    return failure({ kind: 'too-few-repeats', degreesOfFreedom, needed: ENOUGH_DEGREES_OF_FREEDOM });
  }
  return success({
    standardUncertainty: found.value.withinSubjectSd,
    basis: { text, degreesOfFreedom },
  });
}
