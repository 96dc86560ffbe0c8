import { nice, ticks } from 'd3-array';

interface Span {
  readonly from: number;
  readonly to: number;
}

interface LinearScaleOptions {
  /** Values beyond the ends are put at the end. */
  readonly clamped?: boolean;
  /** The ends are moved out to the next round number, as for so many ticks; true: for ten. */
  readonly rounded?: number | true;
}

/** A map from values to places on a ruler or chart, straight in both directions. */
export interface LinearScale {
  (value: number): number;
  /** The value at a place. */
  valueAt(place: number): number;
  /** Round values within the ends, about so many. */
  ticks(about: number): number[];
  readonly values: Span;
  readonly places: Span;
}

/**
 * The scale of a ruler or a chart's axis.
 *
 * @param values - Ends of the values, in their unit; not the same.
 * @param places - Where the ends lie, in CSS pixels or points.
 */
export function linearScale(
  values: readonly [number, number],
  places: readonly [number, number],
  { clamped = false, rounded }: LinearScaleOptions = {},
): LinearScale {
  const [from, to] = rounded === undefined ? values : nice(...values, rounded === true ? 10 : rounded);
  const [start, end] = places;
  const within = (share: number): number => (clamped ? Math.min(1, Math.max(0, share)) : share);
  const scale = (value: number): number => start + within((value - from) / (to - from)) * (end - start);
  return Object.assign(scale, {
    valueAt: (place: number) => from + within((place - start) / (end - start)) * (to - from),
    ticks: (about: number) => ticks(from, to, about),
    values: { from, to },
    places: { from: start, to: end },
  });
}
