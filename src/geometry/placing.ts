import type { Axis } from './axis.ts';
import { axisLength, distanceBetween } from './axis.ts';
import type { Basis, Input } from './propagate.ts';
import { type PlanePoint, planePoint } from './units.ts';

/**
 * How far a placed point lies from where it was meant: one standard deviation of each coordinate, in plane
 * units, equal in both directions and independent from point to point.
 */
export interface PlacingError {
  readonly standardUncertainty: number;
  readonly basis: Basis;
}

/** One standard deviation per coordinate, in mm, until the user's own repeats say better. An assumption. */
export const NOMINAL_PLACING_ERROR_MM = 0.5;

export const ASSUMED: Basis = {
  text: 'assumed 0.5 mm per coordinate',
  degreesOfFreedom: Number.POSITIVE_INFINITY,
};

/**
 * The placing error in plane units.
 *
 * @param placingErrorMm - From the user's repeats, in mm; null: the assumption of 0.5 mm.
 * @param basis - What `placingErrorMm` rests on, e.g. `{ text: 'from 12 repeats', degreesOfFreedom: 11 }`.
 * @param unitsPerMm - Plane units in a millimetre of the film: 1 on a film in mm, `nominalUnitsPerMm` elsewhere.
 */
export function placingError(
  placingErrorMm: number | null,
  basis: Basis = ASSUMED,
  unitsPerMm = 1,
): PlacingError {
  return placingErrorMm === null
    ? { standardUncertainty: NOMINAL_PLACING_ERROR_MM * unitsPerMm, basis: ASSUMED }
    : { standardUncertainty: placingErrorMm * unitsPerMm, basis };
}

/** The two coordinates of each point as inputs, in order x₁, y₁, x₂, y₂, … */
export const placedInputs = (
  points: readonly PlanePoint[],
  placing: PlacingError,
  source: string,
): readonly Input[] =>
  points.flatMap((point) =>
    [point.x, point.y].map((value) => ({
      value,
      standardUncertainty: placing.standardUncertainty,
      source,
      basis: placing.basis,
    })),
  );

/** The reverse of flattening: every two numbers are a point. */
export function pointsOf(coordinates: readonly number[]): readonly PlanePoint[] {
  const points: PlanePoint[] = [];
  for (let i = 0; i + 1 < coordinates.length; i += 2) {
    points.push(planePoint(coordinates[i] as number, coordinates[i + 1] as number));
  }
  return points;
}

/**
 * Below this many placing errors an axis is flagged. By simulation the first-order uncertainty of a
 * two-point axis understates the spread by 0.2 % at 20 placing errors, 1 % at 10 and 5 % at 5
 * (tests/geometry/simulation.test.ts).
 */
const SHORT_AXIS_PLACING_ERRORS = 20;

/** Whether an axis is shorter than 20 times its placing error. */
export const isShortForPlacing = (axis: Axis, placing: PlacingError): boolean =>
  axisLength(axis) < SHORT_AXIS_PLACING_ERRORS * placing.standardUncertainty;

/**
 * Mean length of the metacarpal from joint to joint, in mm, by finger; 66 adults, right hands.
 * @see Buryanov A, Kotiuk V. Proportions of hand segments. Int J Morphol 2010;28(3):755–758, Table I.
 */
export const MEAN_METACARPAL_LENGTH_MM = {
  thumb: 46.22,
  index: 68.12,
  middle: 64.6,
  ring: 58.0,
  small: 53.69,
} as const;

/**
 * Plane units in a millimetre, guessed from the bone itself, on a film without a scale: the placed length of
 * the metacarpal divided by the published mean length of that bone.
 *
 * **For the size of an uncertainty only.** Adults differ by about a tenth from the mean (and children by far
 * more), which shifts an uncertainty by a tenth; a length from it would hide exactly the shortening that is
 * looked for. Lengths on such a film are shares of a bone.
 *
 * @param bone - Base to head of the metacarpal, plane units. A broken, shortened bone makes the placing error
 *   smaller than it is by the same share.
 */
export const nominalUnitsPerMm = (
  ray: keyof typeof MEAN_METACARPAL_LENGTH_MM,
  bone: { readonly from: PlanePoint; readonly to: PlanePoint },
): number => distanceBetween(bone.from, bone.to) / MEAN_METACARPAL_LENGTH_MM[ray];
