import type { Stretch } from './outlines.ts';
import type { Pair } from './pairs.ts';
import { COLUMNS, columnAt, type Strip } from './strip.ts';

/**
 * Where the brightness across both outlines is taken, mm from the outline into the bone. What a bone's own edge looks
 * like there, and what a neighbour's, is learned: a number of the score for each place.
 */
const PLACES_MM = [-2, -1.5, -1, -0.6, -0.3, 0, 0.3, 0.6, 0.9, 1.2, 1.6, 2, 2.5, 3.2] as const;

export const EDGE_FEATURES = PLACES_MM.length;

/** Nothing is known of the edges of an account that follows none. */
export const NO_EDGES: readonly number[] = PLACES_MM.map(() => 0);

/** One very bright neighbour must not outweigh all else. */
const held = (step: number): number => step / (1 + Math.abs(step) / 3);

/**
 * Mean brightness at each place, of both outlines and all rows, less that on the outline itself; in units of the
 * strip's usual slope.
 */
export function edgeProfile(strip: Strip, stretch: Stretch, { one, other }: Pair): number[] {
  const rows = one.across.length;
  const unit = strip.usualSlope;
  if (unit === 0) return [...NO_EDGES];
  const sums = new Float64Array(PLACES_MM.length);
  for (let i = 0; i < rows; i += 1) {
    const start = (stretch.first + i) * COLUMNS;
    const left = one.across[i]!;
    const right = other.across[i]!;
    const edges = valueAt(strip, start, left) + valueAt(strip, start, right);
    for (let k = 0; k < sums.length; k += 1) {
      const place = PLACES_MM[k]!;
      sums[k]! += valueAt(strip, start, left + place) + valueAt(strip, start, right - place) - edges;
    }
  }
  return Array.from(sums, (sum) => held(sum / (2 * rows * unit)));
}

function valueAt({ values }: Strip, start: number, acrossMm: number): number {
  const column = Math.max(0, Math.min(COLUMNS - 1, columnAt(acrossMm)));
  const before = Math.floor(column);
  const share = column - before;
  const value = values[start + before]!;
  return share === 0 ? value : value + share * (values[start + before + 1]! - value);
}
