import { acrossAt, COLUMN_MM, COLUMNS, columnAt, HALF_WIDTH_MM, type Strip } from './strip.ts';

/** An outline that may be the bone's: where it lies on every row of its stretch, and how plainly it shows there. */
export interface Outline {
  /** Across, mm, one for each row of the stretch. */
  readonly across: Float64Array;
  /** −0.7 (a step the wrong way) to 1.6 (a very strong step); about 1 on a plain cortex. */
  readonly strength: Float64Array;
  readonly meanStrength: number;
}

/** Rows of a strip, first and last included. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** A place that an outline has to run through. */
export interface Pin {
  /** Row of the strip, need not be whole. */
  readonly row: number;
  readonly across: number;
}

/** +1 for the left outline, where bone begins; −1 for the right one, where it ends. */
export type Rise = 1 | -1;

/**
 * How plainly a slope shows an outline. Saturated, so that one very bright neighbour cannot outweigh the whole
 * length of a fainter bone.
 */
export const strengthOf = (slope: number): number =>
  slope > 0 ? (1.6 * slope) / (0.6 + slope) : Math.max(-0.7, slope);

export function strengthTable(strip: Strip, rise: Rise): Float32Array {
  const table = new Float32Array(strip.slope.length);
  for (let i = 0; i < table.length; i += 1) table[i] = strengthOf(rise * strip.slope[i]!);
  return table;
}

/** The strengths of left and of right outlines. */
export const bothTables = (strip: Strip): { rising: Float32Array; falling: Float32Array } => ({
  rising: strengthTable(strip, 1),
  falling: strengthTable(strip, -1),
});

/** A parabola across a stretch, by what it does at the stretch's middle, ends and bow, mm. */
interface Course {
  readonly middle: number;
  /** Half the difference between the last and the first row. */
  readonly lean: number;
  /** Middle less the mean of the two ends, times two thirds and one third: mean zero over the stretch. */
  readonly bow: number;
  readonly score: number;
}

const courseAt = ({ middle, lean, bow }: Course, t: number): number =>
  middle + lean * t + bow * (1 / 3 - t * t);

const BOWS_MM = [-0.9, -0.45, 0, 0.45, 0.9];
const MIDDLE_STEP = 2;
const LEAN_STEP_MM = 0.3;
/** Two courses nearer than this everywhere are the same. */
const SAME_MM = 0.7;

/** Where courses are looked for. */
export interface SearchRange {
  /** Least and greatest distance across in the middle of the stretch, mm. */
  readonly from: number;
  readonly to: number;
  readonly mostLean: number;
}

/** The best courses by mean strength that differ from one another, by exhaustive search. */
function bestCourses(table: Float32Array, stretch: Stretch, range: SearchRange, most: number): Course[] {
  const rows = stretch.last - stretch.first + 1;
  const half = (rows - 1) / 2;
  const from = Math.max(0, Math.round(columnAt(range.from)));
  const to = Math.min(COLUMNS - 1, Math.round(columnAt(range.to)));
  const places = Math.floor((to - from) / MIDDLE_STEP) + 1;
  const leans = Math.max(1, Math.round(range.mostLean / LEAN_STEP_MM));
  const rowStep = rows > 24 ? 2 : 1;
  const found: Course[] = [];
  const sums = new Float64Array(places);
  for (let leanStep = -leans; leanStep <= leans; leanStep += 1) {
    const lean = leanStep * LEAN_STEP_MM;
    for (const bow of BOWS_MM) {
      sums.fill(0);
      let used = 0;
      for (let row = 0; row < rows; row += rowStep) {
        const t = half === 0 ? 0 : (row - half) / half;
        const shift = Math.round((lean * t + bow * (1 / 3 - t * t)) / COLUMN_MM);
        const start = (stretch.first + row) * COLUMNS;
        used += 1;
        for (let i = 0; i < places; i += 1) {
          const column = from + i * MIDDLE_STEP + shift;
          sums[i]! += column < 0 || column >= COLUMNS ? -0.3 : table[start + column]!;
        }
      }
      for (let i = 0; i < places; i += 1) {
        const score = sums[i]! / used;
        if (score < 0.12) continue;
        if ((i > 0 && sums[i - 1]! > sums[i]!) || (i + 1 < places && sums[i + 1]! > sums[i]!)) continue;
        found.push({ middle: acrossAt(from + i * MIDDLE_STEP), lean, bow, score });
      }
    }
  }
  found.sort((p, q) => q.score - p.score);
  const kept: Course[] = [];
  for (const course of found) {
    if (kept.length >= most) break;
    const known = kept.some((other) =>
      [-1, 0, 1].every((t) => Math.abs(courseAt(course, t) - courseAt(other, t)) < SAME_MM),
    );
    if (!known) kept.push(course);
  }
  return kept;
}

/** The path may leave its course by this much, and moves by at most one column from row to row. */
const REACH_MM = 1;
const REACH = Math.round(REACH_MM / COLUMN_MM);
const MOVE_COST = 0.7;

/**
 * The path of greatest summed strength near a course (dynamic programming, first to last row), then to a
 * fraction of a column by a parabola through the slope.
 */
function pathNear(
  strip: Strip,
  table: Float32Array,
  rise: Rise,
  stretch: Stretch,
  course: Float64Array,
  pins: readonly Pin[],
): Outline {
  const rows = stretch.last - stretch.first + 1;
  const width = 2 * REACH + 1;
  const best = new Float64Array(rows * width);
  const from = new Int8Array(rows * width);
  const pinned = new Map(pins.map((pin) => [Math.round(pin.row) - stretch.first, pin.across]));
  const columns = Int32Array.from(course, (across) => Math.round(columnAt(across)));
  for (let row = 0; row < rows; row += 1) {
    const start = (stretch.first + row) * COLUMNS;
    const middle = columns[row]!;
    const pin = pinned.get(row);
    const only = pin === undefined ? null : Math.round(columnAt(pin)) - middle;
    for (let k = -REACH; k <= REACH; k += 1) {
      const column = middle + k;
      let own = column < 0 || column >= COLUMNS ? -0.7 : table[start + column]!;
      if (only !== null) own = k === Math.max(-REACH, Math.min(REACH, only)) ? 1 : -1e6;
      if (row === 0) {
        best[k + REACH] = own;
        continue;
      }
      let most = Number.NEGATIVE_INFINITY;
      let step = 0;
      for (let d = -1; d <= 1; d += 1) {
        // A course that leans moves by whole columns now and then; that is no move of the path.
        const before = k + d;
        if (before < -REACH || before > REACH) continue;
        const score = best[(row - 1) * width + before + REACH]! - (d === 0 ? 0 : MOVE_COST);
        if (score > most) {
          most = score;
          step = d;
        }
      }
      best[row * width + k + REACH] = most + own;
      from[row * width + k + REACH] = step;
    }
  }
  let k = 0;
  for (let i = 0; i < width; i += 1) {
    if (best[(rows - 1) * width + i]! > best[(rows - 1) * width + k]!) k = i;
  }
  const across = new Float64Array(rows);
  const strength = new Float64Array(rows);
  let total = 0;
  for (let row = rows - 1; row >= 0; row -= 1) {
    const column = columns[row]! + k - REACH;
    const pin = pinned.get(row);
    const start = (stretch.first + row) * COLUMNS;
    across[row] = pin ?? acrossAt(finePeak(strip.slope, start, column, rise));
    strength[row] =
      pin === undefined ? (column < 0 || column >= COLUMNS ? -0.7 : table[start + column]!) : 1.6;
    total += strength[row]!;
    k += from[row * width + k]!;
  }
  return { across, strength, meanStrength: total / rows };
}

/** Climbs to the steepest place within half a millimetre, then a parabola through it and its neighbours. */
function finePeak(slope: Float32Array, start: number, column: number, rise: Rise): number {
  let c = Math.max(1, Math.min(COLUMNS - 2, column));
  for (let step = 0; step < 3; step += 1) {
    const here = rise * slope[start + c]!;
    if (c + 1 < COLUMNS - 1 && rise * slope[start + c + 1]! > here) c += 1;
    else if (c - 1 > 0 && rise * slope[start + c - 1]! > here) c -= 1;
    else break;
  }
  const before = rise * slope[start + c - 1]!;
  const here = rise * slope[start + c]!;
  const after = rise * slope[start + c + 1]!;
  const bend = before - 2 * here + after;
  return bend >= 0 ? c : c + Math.max(-0.5, Math.min(0.5, (before - after) / (2 * bend)));
}

const meanDistance = (p: Outline, q: Outline): number => {
  let sum = 0;
  for (let i = 0; i < p.across.length; i += 1) sum += Math.abs(p.across[i]! - q.across[i]!);
  return sum / p.across.length;
};

/** Shifts a course so that it runs through all pins, in between by straight pieces. */
function throughPins(course: Float64Array, stretch: Stretch, pins: readonly Pin[]): Float64Array {
  if (pins.length === 0) return course;
  const sorted = [...pins].sort((p, q) => p.row - q.row);
  const at = (row: number): number =>
    course[Math.max(0, Math.min(course.length - 1, Math.round(row) - stretch.first))]!;
  const gaps = sorted.map((pin) => pin.across - at(pin.row));
  return course.map((across, i) => {
    const row = stretch.first + i;
    const after = sorted.findIndex((pin) => pin.row >= row);
    if (after === 0) return across + gaps[0]!;
    if (after < 0) return across + gaps.at(-1)!;
    const p = sorted[after - 1]!;
    const q = sorted[after]!;
    const share = (row - p.row) / Math.max(1e-9, q.row - p.row);
    return across + gaps[after - 1]! * (1 - share) + gaps[after]! * share;
  });
}

/**
 * Outlines of one side, the plainest first.
 *
 * @param seeds - Courses to try besides those found, one place across for each row of the stretch.
 * @param pins - Places that every outline returned runs through, at the nearest row.
 */
export function findOutlines(
  strip: Strip,
  rise: Rise,
  stretch: Stretch,
  range: SearchRange,
  seeds: readonly Float64Array[],
  pins: readonly Pin[],
  most: number,
): Outline[] {
  const table = strengthTable(strip, rise);
  const rows = stretch.last - stretch.first + 1;
  const half = (rows - 1) / 2;
  const courses = bestCourses(table, stretch, range, most).map((course) =>
    Float64Array.from({ length: rows }, (_, row) => courseAt(course, half === 0 ? 0 : (row - half) / half)),
  );
  const near =
    pins.length === 0 ? courses : courses.filter((course) => farthestPin(course, stretch, pins) < 3);
  const outlines = [...seeds, ...near]
    .map((course) => pathNear(strip, table, rise, stretch, throughPins(course, stretch, pins), pins))
    .sort((p, q) => q.meanStrength - p.meanStrength);
  const kept: Outline[] = [];
  for (const outline of outlines) {
    if (outline.across.some((across) => Math.abs(across) >= HALF_WIDTH_MM)) continue;
    if (!kept.some((other) => meanDistance(outline, other) < 0.3)) kept.push(outline);
  }
  return kept;
}

function farthestPin(course: Float64Array, stretch: Stretch, pins: readonly Pin[]): number {
  return Math.max(
    ...pins.map(({ row, across }) => {
      const i = Math.max(0, Math.min(course.length - 1, Math.round(row) - stretch.first));
      return Math.abs(course[i]! - across);
    }),
  );
}
