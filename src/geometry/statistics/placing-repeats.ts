import type { PlacingError } from '../placing.ts';
import { failure, type Result, success } from '../result.ts';
import type { PlanePoint } from '../units.ts';
import { repeatability } from './repeatability.ts';

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
  const found = repeatability(coordinates);
  const degreesOfFreedom = found.ok ? found.value.degreesOfFreedom : 0;
  if (!found.ok || degreesOfFreedom < ENOUGH_DEGREES_OF_FREEDOM) {
    return failure({ kind: 'too-few-repeats', degreesOfFreedom, needed: ENOUGH_DEGREES_OF_FREEDOM });
  }
  const most = Math.max(...points.map((placings) => placings.length));
  return success({
    standardUncertainty: found.value.withinSubjectSd,
    basis: { text: `from up to ${most} placings of ${points.length} points`, degreesOfFreedom },
  });
}
