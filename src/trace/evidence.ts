import type { Outline, Rise, Stretch } from './outlines.ts';
import { COLUMN_MM, COLUMNS, columnAt, ROW_MM, type Strip } from './strip.ts';

/** What there is to be seen along one outline beside the outline itself. */
export interface OutlineEvidence {
  /** How plainly the inner side of a cortex runs along it. */
  readonly inner: number;
  /**
   * How much brighter it is within than without, past the cortex: the far wall of a neighbour looks like an
   * outline but is darker within. −1 to 1.
   */
  readonly step: number;
  /** How plainly the outline runs on beyond the break, where the bone's own has ended. */
  readonly beyond: number;
}

/** Distances inside the outline at which its cortex may end, mm. */
const CORTEX_MM = [0.6, 2.8] as const;

/**
 * Gathers what there is along an outline.
 *
 * @param rise - Side of the outline; `own` holds the strengths of that side's outlines, `opposite` the other's.
 * @param breakIsLast - The break lies beyond the last row of the stretch, as in a proximal fragment.
 */
export function evidenceAlong(
  strip: Strip,
  stretch: Stretch,
  rise: Rise,
  outline: Outline,
  opposite: Float32Array,
  own: Float32Array,
  breakIsLast: boolean,
): OutlineEvidence {
  const rows = outline.across.length;
  const columns = Int32Array.from(outline.across, (across) => Math.round(columnAt(across)));
  const least = Math.round(CORTEX_MM[0] / COLUMN_MM);
  const most = Math.round(CORTEX_MM[1] / COLUMN_MM);
  let inner = -1;
  for (let depth = least; depth <= most; depth += 1) {
    let sum = 0;
    for (let i = 0; i < rows; i += 1) {
      const column = Math.max(0, Math.min(COLUMNS - 1, columns[i]! + rise * depth));
      sum += opposite[(stretch.first + i) * COLUMNS + column]!;
    }
    inner = Math.max(inner, sum / rows);
  }
  return {
    inner,
    step: stepAcross(strip, stretch, rise, outline),
    beyond: beyondBreak(strip, stretch, outline, own, breakIsLast),
  };
}

/** Stretches across that a step is taken between, from the outline inwards, mm. */
const WITHIN_MM = [2.2, 3.6] as const;
const WITHOUT_MM = [-1.7, -0.5] as const;

function stepAcross(strip: Strip, stretch: Stretch, rise: Rise, outline: Outline): number {
  const rows = outline.across.length;
  const unit = 1.5 * strip.usualSlope;
  if (unit === 0) return 0;
  const meanBetween = (row: number, across: number, [from, to]: readonly [number, number]): number => {
    const first = columnAt(across + rise * from);
    const last = columnAt(across + rise * to);
    const low = Math.max(0, Math.round(Math.min(first, last)));
    const high = Math.min(COLUMNS - 1, Math.round(Math.max(first, last)));
    let sum = 0;
    for (let c = low; c <= high; c += 1) sum += strip.values[row * COLUMNS + c]!;
    return high < low ? 0 : sum / (high - low + 1);
  };
  let total = 0;
  for (let i = 0; i < rows; i += 1) {
    const row = stretch.first + i;
    const across = outline.across[i]!;
    const step = (meanBetween(row, across, WITHIN_MM) - meanBetween(row, across, WITHOUT_MM)) / unit;
    total += step / (1 + Math.abs(step));
  }
  return total / rows;
}

/**
 * Mean of the best strength near the outline's straight prolongation, 5 to 10 mm beyond the stretch as far as the
 * strip reaches.
 */
function beyondBreak(
  strip: Strip,
  stretch: Stretch,
  outline: Outline,
  own: Float32Array,
  breakIsLast: boolean,
): number {
  const rows = outline.across.length;
  const used = Math.min(rows, 20);
  const end = breakIsLast ? rows - 1 : 0;
  const inward = breakIsLast ? -1 : 1;
  let lean = 0;
  let at = 0;
  let spread = 0;
  for (let k = 0; k < used; k += 1) at += outline.across[end + inward * k]! / used;
  for (let k = 0; k < used; k += 1) {
    const d = k - (used - 1) / 2;
    lean += d * (outline.across[end + inward * k]! - at);
    spread += d * d;
  }
  lean = spread > 0 ? lean / spread : 0;
  let sum = 0;
  let count = 0;
  for (let k = Math.round(5 / ROW_MM); k <= Math.round(10 / ROW_MM); k += 1) {
    const row = (breakIsLast ? stretch.last : stretch.first) - inward * k;
    if (row < 0 || row >= strip.rows) break;
    const column = Math.round(columnAt(at + lean * (-k - (used - 1) / 2)));
    let best = -0.7;
    for (let c = column - 2; c <= column + 2; c += 1) {
      if (c >= 0 && c < COLUMNS) best = Math.max(best, own[row * COLUMNS + c]!);
    }
    sum += best;
    count += 1;
  }
  return count === 0 ? 0 : sum / count;
}
