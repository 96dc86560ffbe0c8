import { type Axis, turnBetween } from './axis.ts';
import { type AxisPoints, axisFrom, controlPoints } from './constructions.ts';
import type { OrientedPair } from './orient.ts';
import { type PlacingError, placedInputs, pointsOf } from './placing.ts';
import type { Basis, Input } from './propagate.ts';
import type { Degrees, PlanePoint } from './units.ts';

/** One axis of a reading: placed by its control points, or found by the tracer with its own uncertainty. */
export type AxisInput =
  | { readonly kind: 'placed'; readonly points: AxisPoints; readonly placing: PlacingError }
  | {
      readonly kind: 'traced';
      readonly points: AxisPoints;
      readonly placing: PlacingError;
      /** Of the axis's direction, from the tracer's calibration; takes the place of the placing error. */
      readonly directionUncertainty: Degrees;
      readonly basis: Basis;
    };

/** A point that both axes were built from, by its index among each one's `controlPoints`. */
export interface SharedPoint {
  readonly proximal: number;
  readonly distal: number;
}

/** Control points with the very same coordinates in both axes: one placed point used twice. */
export function coincidingPoints(proximal: AxisPoints, distal: AxisPoints): readonly SharedPoint[] {
  const others = controlPoints(distal);
  return controlPoints(proximal).flatMap((point, index) => {
    const match = others.findIndex((other) => other.x === point.x && other.y === point.y);
    return match < 0 ? [] : [{ proximal: index, distal: match }];
  });
}

export interface AxisPair {
  readonly proximal: AxisInput;
  readonly distal: AxisInput;
}

/** Where each control point of an axis finds its coordinates among the inputs; null for a traced axis. */
interface Places {
  readonly proximal: readonly number[] | null;
  readonly distal: readonly number[] | null;
  /** Index of the traced turn, in degrees, of each axis. */
  readonly proximalTurn: number | null;
  readonly distalTurn: number | null;
}

/** Everything an angle between two axes depends on, each uncertain quantity once. */
export function angleInputs(
  proximal: AxisInput,
  distal: AxisInput,
  shared: readonly SharedPoint[],
): { readonly list: readonly Input[]; readonly places: Places } {
  const list: Input[] = [];
  const addTurn = (axis: Extract<AxisInput, { kind: 'traced' }>, name: string): number => {
    list.push({
      value: 0,
      standardUncertainty: axis.directionUncertainty,
      source: `tracing the ${name} axis`,
      basis: axis.basis,
    });
    return list.length - 1;
  };
  const addPoint = (point: PlanePoint, placing: PlacingError, source: string): number => {
    list.push(...placedInputs([point], placing, source));
    return list.length - 2;
  };
  const bothPlaced = proximal.kind === 'placed' && distal.kind === 'placed';
  const partner = (index: number) =>
    bothPlaced ? shared.find((pair) => pair.distal === index)?.proximal : undefined;
  const sharedProximal = new Set(bothPlaced ? shared.map((pair) => pair.proximal) : []);

  const proximalPlaces =
    proximal.kind === 'placed'
      ? controlPoints(proximal.points).map((point, index) =>
          addPoint(
            point,
            proximal.placing,
            sharedProximal.has(index) ? 'placing the point both axes share' : 'placing the proximal axis',
          ),
        )
      : null;
  const distalPlaces =
    distal.kind === 'placed'
      ? controlPoints(distal.points).map((point, index) => {
          const other = partner(index);
          const place = other === undefined ? undefined : proximalPlaces?.[other];
          return place ?? addPoint(point, distal.placing, 'placing the distal axis');
        })
      : null;
  return {
    list,
    places: {
      proximal: proximalPlaces,
      distal: distalPlaces,
      proximalTurn: proximal.kind === 'traced' ? addTurn(proximal, 'proximal') : null,
      distalTurn: distal.kind === 'traced' ? addTurn(distal, 'distal') : null,
    },
  };
}

/** An axis as its control points stand among the values; as it was given where it has no place there. */
const axisAt = (values: readonly number[], axis: AxisInput, where: readonly number[] | null): Axis =>
  axisFrom(
    axis.points,
    where === null
      ? controlPoints(axis.points)
      : where.flatMap((place) => pointsOf(values.slice(place, place + 2))),
  );

/** Both axes as a function of the values of `angleInputs`, by their points alone and not oriented. */
export const axesFrom = (
  values: readonly number[],
  { proximal, distal }: AxisPair,
  places: Places,
): readonly [proximal: Axis, distal: Axis] => [
  axisAt(values, proximal, places.proximal),
  axisAt(values, distal, places.distal),
];

/** The turn from the proximal to the distal axis as a function of `angleInputs`; not wrapped. */
export function turnFrom(
  values: readonly number[],
  { proximal, distal }: AxisPair,
  axes: OrientedPair,
  places: Places,
): number {
  const along = turnBetween(axisAt(values, proximal, places.proximal), axisAt(values, distal, places.distal));
  const reversedOnce = axes.proximalReversed !== axes.distalReversed;
  const tracedTurn =
    (places.distalTurn === null ? 0 : (values[places.distalTurn] ?? 0)) -
    (places.proximalTurn === null ? 0 : (values[places.proximalTurn] ?? 0));
  return along + (reversedOnce ? 180 : 0) + tracedTurn;
}
