import { distanceBetween } from './axis.ts';
import { type PlacingError, placedInputs, pointsOf } from './placing.ts';
import { type Basis, type Input, type Measured, propagate } from './propagate.ts';
import type { Spacing } from './spacing.ts';
import type { PlanePoint } from './units.ts';

/** Every magnification between the two is held equally likely. 1 ≤ least ≤ most. */
export interface MagnificationRange {
  readonly least: number;
  readonly most: number;
  /** What the range rests on. */
  readonly basis: string;
}

/** How plane units become a length that can be shown. */
export type LengthScale =
  | {
      readonly kind: 'millimetres';
      /** One standard deviation of the spacing as a share of it. */
      readonly relativeStandardUncertainty: number;
      /** By how much the plane's millimetres are too long at the bone; null where they hold at the bone. */
      readonly magnification: MagnificationRange | null;
    }
  | {
      /** No scale: a length is a share of this bone's own length on the same film. */
      readonly kind: 'share';
      readonly bone: { readonly from: PlanePoint; readonly to: PlanePoint };
    };

export interface LengthReading extends Measured {
  readonly unit: 'millimetres' | 'percent of bone';
  /** As it stands on the film, before dividing by the middle of the magnification range. */
  readonly onFilm: number;
  readonly magnification: MagnificationRange | null;
}

const KNOWN = Number.POSITIVE_INFINITY;

/**
 * How many times too long an object is shown, from distances in one unit.
 *
 *     M = source to detector / (source to detector − height of the object above the detector)
 */
export const magnificationAt = (sourceToDetector: number, height: number): number =>
  sourceToDetector / (sourceToDetector - height);

/** Source to detector for an extremity, and the least and greatest height of a metacarpal above it, in mm. Assumed. */
const SOURCE_MM = 1000;
const LOWEST_MM = 10;
const HIGHEST_MM = 30;

/**
 * Magnification to reckon with for a hand on the detector: a bone 10 to 30 mm above it, 1 m from the source,
 * is shown 1 to 3 % too long. Null where the spacing holds in the patient.
 *
 * A stated Estimated Radiographic Magnification Factor (0018,1114) is taken to within 0.01 either way.
 */
export function magnificationRange(
  spacing: Extract<Spacing, { kind: 'millimetres' }>,
): MagnificationRange | null {
  if (spacing.plane === 'patient') return null;
  const factor = spacing.estimatedMagnification;
  if (factor !== null) {
    return {
      least: Math.max(1, factor - 0.01),
      most: Math.max(1, factor + 0.01),
      basis: `stated magnification ${factor.toFixed(2)}, taken to 0.01 either way`,
    };
  }
  const most = magnificationAt(SOURCE_MM, HIGHEST_MM);
  return spacing.plane === 'not-known'
    ? { least: 1, most, basis: 'plane of the spacing not known: 0 to 3 % assumed' }
    : {
        least: magnificationAt(SOURCE_MM, LOWEST_MM),
        most,
        basis: 'hand on the detector: 1 to 3 % assumed',
      };
}

/** Points of one film that were placed by the same hand and belong to one line of the budget. */
export interface PlacedGroup {
  readonly points: readonly PlanePoint[];
  readonly placing: PlacingError;
  readonly source: string;
}

/**
 * A length computed from placed points, with its uncertainty.
 *
 *     millimetres:  L = f(points) · s / M      s = 1, u(s) the spacing's; M uniform over its range
 *     share:        L = 100 · f(points) / |bone|
 *
 * The length is divided by the middle of the magnification range, since a known effect is corrected for
 * (JCGM 100:2008, 3.2.4), and carries the uniform distribution's standard deviation, the half-width over √3
 * (4.3.7). `onFilm` is the length without that division.
 *
 * @param f - Plane length from the points of all groups, in order; smooth there, and proportional to the
 *   scale of the film `scale` belongs to.
 * @param groups - Within a group, points with the very same coordinates count as one placed point. The bone
 *   of a `share` scale joins the first group.
 */
export function measureLength(
  f: (points: readonly PlanePoint[]) => number,
  groups: readonly PlacedGroup[],
  scale: LengthScale,
): LengthReading {
  const joined = scale.kind === 'share' ? withBone(groups, scale.bone) : groups;
  const inputs: Input[] = [];
  const places = joined.flatMap(({ points, placing, source }) => {
    const first = inputs.length;
    inputs.push(...placedInputs(points, placing, source));
    return points.map(
      (point) => first + 2 * points.findIndex((other) => other.x === point.x && other.y === point.y),
    );
  });
  const pointsAt = (values: readonly number[]) =>
    places.flatMap((place) => pointsOf(values.slice(place, place + 2)));
  const count = (groups[0] as PlacedGroup).points.length;
  if (scale.kind === 'share') {
    const measured = propagate((values) => {
      const points = pointsAt(values);
      const [from, to] = points.splice(count, 2) as [PlanePoint, PlanePoint];
      return (100 * f(points)) / distanceBetween(from, to);
    }, inputs);
    return { ...measured, unit: 'percent of bone', onFilm: measured.value, magnification: null };
  }
  const placed = inputs.length;
  const measured = propagate(
    (values) => (f(pointsAt(values)) * (values[placed] ?? 1)) / (values[placed + 1] ?? 1),
    [...inputs, ...scaleInputs(scale)],
  );
  return {
    ...measured,
    unit: 'millimetres',
    onFilm: f(groups.flatMap(({ points }) => points)),
    magnification: scale.magnification,
  };
}

const withBone = (
  [first, ...rest]: readonly PlacedGroup[],
  bone: { readonly from: PlanePoint; readonly to: PlanePoint },
): readonly PlacedGroup[] =>
  first === undefined ? [] : [{ ...first, points: [...first.points, bone.from, bone.to] }, ...rest];

/** The scale itself as inputs: the spacing's factor, then the magnification where there is one. */
function scaleInputs(scale: Extract<LengthScale, { kind: 'millimetres' }>): readonly Input[] {
  const known = (text: string): Basis => ({ text, degreesOfFreedom: KNOWN });
  const spacing: Input = {
    value: 1,
    standardUncertainty: scale.relativeStandardUncertainty,
    source: 'spacing of the film',
    basis: known('as stated with the scale'),
  };
  if (scale.magnification === null) return [spacing];
  const { least, most, basis } = scale.magnification;
  return [
    spacing,
    {
      value: (least + most) / 2,
      // JCGM 100:2008, 4.3.7: uniform over the range.
      standardUncertainty: (most - least) / 2 / Math.sqrt(3),
      source: 'magnification',
      basis: known(basis),
    },
  ];
}
