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
 * Magnification to reckon with for a hand on the detector: a bone 10 to 30 mm above it at 1 m from the source
 * is shown 1 to 3 % too long. Null where the spacing holds in the patient or was set by an object beside it.
 *
 * A stated Estimated Radiographic Magnification Factor (0018,1114) is taken to within 0.01 either way.
 */
export function magnificationRange(
  spacing: Extract<Spacing, { kind: 'millimetres' }>,
): MagnificationRange | null {
  if (spacing.plane === 'patient' || spacing.origin === 'object-of-known-size') return null;
  if (spacing.origin === 'invented-film' && spacing.plane !== 'detector') return null;
  const factor = spacing.estimatedMagnification;
  if (factor !== null) {
    return {
      least: Math.max(1, factor - 0.01),
      most: Math.max(1, factor + 0.01),
      basis: `stated magnification ${factor}, taken to 0.01 either way`,
    };
  }
  return spacing.plane === 'not-known'
    ? { least: 1, most: 1.03, basis: 'plane of the spacing not known: 0 to 3 % assumed' }
    : { least: 1.01, most: 1.03, basis: 'hand on the detector: 1 to 3 % assumed' };
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
 * Points with the very same coordinates count as one placed point.
 *
 * @param f - Plane length from the points, in the order given; smooth there, and proportional to the film's scale.
 */
export function measureLength(
  f: (points: readonly PlanePoint[]) => number,
  points: readonly PlanePoint[],
  placing: PlacingError,
  scale: LengthScale,
  source: string,
): LengthReading {
  const all = scale.kind === 'share' ? [...points, scale.bone.from, scale.bone.to] : points;
  const places = all.map((point) => all.findIndex((other) => other.x === point.x && other.y === point.y));
  const placed = placedInputs(all, placing, source);
  const planeFrom = (values: readonly number[]) => {
    const found = pointsOf(values);
    const at = places.map((place) => found[place] as PlanePoint);
    return { length: f(at.slice(0, points.length)), rest: at.slice(points.length) };
  };
  if (scale.kind === 'share') {
    const measured = propagate((values) => {
      const { length, rest } = planeFrom(values);
      return (100 * length) / distanceBetween(rest[0] as PlanePoint, rest[1] as PlanePoint);
    }, placed);
    return { ...measured, unit: 'percent of bone', onFilm: measured.value, magnification: null };
  }
  const { magnification } = scale;
  const factors = scaleInputs(scale);
  const count = placed.length;
  const measured = propagate(
    (values) => (planeFrom(values).length * (values[count] ?? 1)) / (values[count + 1] ?? 1),
    [...placed, ...factors],
  );
  return { ...measured, unit: 'millimetres', onFilm: f(points), magnification };
}

/** The scale itself as inputs: the spacing's factor, then the magnification where there is one. */
export function scaleInputs(scale: Extract<LengthScale, { kind: 'millimetres' }>): readonly Input[] {
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
