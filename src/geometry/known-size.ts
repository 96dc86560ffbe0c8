import { distanceBetween } from './axis.ts';
import { type CircleFailure, fitCircle } from './circle.ts';
import { chiSquareQuantile } from './distributions.ts';
import type { PlacingError } from './placing.ts';
import { failure, type Result, success } from './result.ts';
import type { Spacing, SpacingPlane } from './spacing.ts';
import { lineThroughOrigin } from './statistics/line-through-origin.ts';
import { type FilmPoint, type Millimetres, planePoint } from './units.ts';

/** An object of known size on the film: points on its round rim, or the two ends of a length. */
export type KnownObject =
  | { readonly kind: 'round'; readonly rim: readonly FilmPoint[] }
  | { readonly kind: 'straight'; readonly from: FilmPoint; readonly to: FilmPoint };

export interface KnownSize {
  /** Diameter of the round object, or distance of the two ends. */
  readonly size: Millimetres;
  /** One standard deviation of that size as a share of it; 0 for a coin or a marker made to size. */
  readonly sizeRelativeUncertainty: number;
  /** How the user describes the object, kept with the scale. */
  readonly description: string;
  /** Where the object lay: beside the bone (`patient`), on the detector, or not known. */
  readonly plane: SpacingPlane;
}

export type KnownSizeFailure =
  | CircleFailure
  | { readonly kind: 'object-too-small'; readonly columns: number; readonly neededColumns: number };

/** A shorter object on the film cannot carry a scale: one pixel would be a twentieth of it. */
const LEAST_COLUMNS = 20;

/**
 * The scale of a film from an object of known size on it.
 *
 *     column spacing = size / (diameter in columns)        row spacing = column spacing · rowToColumn
 *
 * Relative standard uncertainty from the circle's fit (2 u(r) / d) or the two ends (√2 σ / d), and the
 * object's own, in quadrature.
 *
 * Holds at the height of the object. An object on the detector shows a bone above it 1 to 3 % too long still;
 * a round object seen tilted is an ellipse, and its fitted circle lies between the two diameters.
 *
 * @param rowToColumn - Row spacing over column spacing of the film; 1 for square pixels.
 * @param placingMm - Placing error in mm per coordinate, e.g. 0.5.
 *
 * Fails with the circle's failures, and `object-too-small` below 20 columns.
 */
export function scaleFromObject(
  object: KnownObject,
  known: KnownSize,
  rowToColumn: number,
  placingMm: PlacingError,
): Result<Extract<Spacing, { kind: 'millimetres' }>, KnownSizeFailure> {
  const inColumns = ({ column, row }: FilmPoint) => planePoint(column, row * rowToColumn);
  const measured = sizeInColumns(object, inColumns);
  if (!measured.ok) return measured;
  const { columns, varianceFactor } = measured.value;
  if (columns < LEAST_COLUMNS) {
    return failure({ kind: 'object-too-small', columns, neededColumns: LEAST_COLUMNS });
  }
  const columnSpacingMm = known.size / columns;
  const placing = (placingMm.standardUncertainty * Math.sqrt(varianceFactor)) / known.size;
  return success({
    kind: 'millimetres',
    columnSpacingMm,
    rowSpacingMm: columnSpacingMm * rowToColumn,
    plane: known.plane,
    origin: 'object-of-known-size',
    calibrationType: 'FIDUCIAL',
    calibrationDescription: known.description,
    estimatedMagnification: null,
    relativeStandardUncertainty: Math.hypot(placing, known.sizeRelativeUncertainty),
    conflicts: [],
  });
}

/** The size in columns, and its variance for a unit variance of each coordinate. */
function sizeInColumns(
  object: KnownObject,
  inColumns: (point: FilmPoint) => ReturnType<typeof planePoint>,
): Result<{ readonly columns: number; readonly varianceFactor: number }, CircleFailure> {
  if (object.kind === 'straight') {
    const columns = distanceBetween(inColumns(object.from), inColumns(object.to));
    return success({ columns, varianceFactor: 2 });
  }
  const circle = fitCircle(object.rim.map(inColumns));
  if (!circle.ok) return circle;
  const { radius, covarianceFactor } = circle.value;
  // The diameter is twice the radius, so its variance is four times as large.
  return success({ columns: 2 * radius, varianceFactor: 4 * (covarianceFactor[2]?.[2] ?? Number.NaN) });
}

type Millimetre = Extract<Spacing, { kind: 'millimetres' }>;

/** One scale from several objects of known size on a film. */
export interface PooledScale {
  readonly columnSpacingMm: number;
  readonly rowSpacingMm: number;
  readonly relativeStandardUncertainty: number;
  /** The objects differ by more than their errors explain, 19 times in 20: one of them is wrong. */
  readonly disagree: boolean;
}

/**
 * The scale that all objects give together: pixels on known length, a line through the origin, each object by its own
 * uncertainty. With w = 1 / (relative standard uncertainty) of each and k its columns per millimetre:
 *
 *     columns per mm = slope of the line of w k on w        relative u = 1 / √Σ w²
 *
 * Where the objects lie farther from the line than their uncertainties say, the line's own standard error, from its
 * residuals, is the larger of the two and is taken. They disagree when χ², the squared residuals in units of the
 * uncertainties, passes its 95 % point.
 *
 * @param scales - What each object gives by itself, of one film; two or more, each with an uncertainty above 0.
 */
export function pooledScale(scales: readonly Millimetre[]): PooledScale {
  const weights = scales.map(({ relativeStandardUncertainty }) => 1 / relativeStandardUncertainty);
  const line = lineThroughOrigin(
    scales.map(({ columnSpacingMm }, index) => {
      const x = weights[index] as number;
      return { x, y: x / columnSpacingMm };
    }),
  );
  const [first] = scales;
  if (!line.ok || first === undefined) throw new RangeError('a pooled scale needs two objects');
  const { slope, slopeStandardError, residualSd, degreesOfFreedom } = line.value;
  const chiSquare = degreesOfFreedom * (residualSd / slope) ** 2;
  return {
    columnSpacingMm: 1 / slope,
    rowSpacingMm: first.rowSpacingMm / first.columnSpacingMm / slope,
    relativeStandardUncertainty: Math.max(1 / Math.hypot(...weights), slopeStandardError / slope),
    disagree: chiSquare > chiSquareQuantile(0.95, degreesOfFreedom),
  };
}
