import type { RecordId } from '../../case/document.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import type { Bracket, Correction } from '../../trace/request.ts';
import type { TracedBone } from '../../trace/traced.ts';

/** What the user said of the outlines after the four taps, in the order of saying it. */
export type Adjustment =
  | { readonly kind: 'bracket'; readonly bracket: Bracket }
  | { readonly kind: 'correction'; readonly correction: Correction };

/** Axes being traced on a film. View state: the case knows nothing of it before it is accepted. */
export interface TraceTask {
  readonly filmId: RecordId;
  /** Base, broken end of the proximal fragment, broken end of the distal one, head; tracing starts with the fourth. */
  readonly taps: readonly FilmPoint[];
  readonly adjustments: readonly Adjustment[];
  /** The taps so far of a bracket being given; null: none is. */
  readonly bracketing: readonly FilmPoint[] | null;
  readonly running: boolean;
  readonly found: TracedFinding | null;
  /** Why there is nothing to propose, as a sentence. */
  readonly failed: string | null;
}

/** What came back, with its doubts already said. */
export interface TracedFinding {
  readonly bone: TracedBone;
  readonly doubts: readonly string[];
}

export const TAPS_WANTED = 4;

export const newTrace = (filmId: RecordId): TraceTask => ({
  filmId,
  taps: [],
  adjustments: [],
  bracketing: null,
  running: false,
  found: null,
  failed: null,
});

const TAP_INSTRUCTIONS = [
  'Tap the middle of the base, where the bone begins at the wrist.',
  'Tap the middle of the broken end of the fragment nearer the wrist.',
  'Tap the middle of the broken end of the fragment nearer the knuckle.',
  'Tap the tip of the head, where the bone ends at the knuckle.',
] as const;

const BRACKET_INSTRUCTIONS = [
  'Tap the outer edge of this bone on one side, where bones overlap.',
  'Tap its outer edge on the other side, at the same level.',
] as const;

/** What the next tap is for; null: none is asked for. */
export function tapWanted({ taps, bracketing }: TraceTask): string | null {
  if (taps.length < TAPS_WANTED) return TAP_INSTRUCTIONS[taps.length] ?? null;
  return bracketing === null ? null : (BRACKET_INSTRUCTIONS[bracketing.length] ?? null);
}

/** Whether the film is to be searched now: all taps are there, and neither an answer nor a question is open. */
export const isComplete = ({ taps, bracketing }: TraceTask): boolean =>
  taps.length === TAPS_WANTED && bracketing === null;

/** The task with one more tap. */
export function withTap(task: TraceTask, point: FilmPoint): TraceTask {
  if (task.taps.length < TAPS_WANTED) return { ...task, taps: [...task.taps, point] };
  if (task.bracketing === null) return task;
  const [one, other] = [...task.bracketing, point];
  if (one === undefined || other === undefined) return { ...task, bracketing: [point] };
  const bracket: Bracket = { fragment: fragmentNear(task.taps, one, other), one, other };
  return { ...task, bracketing: null, adjustments: [...task.adjustments, { kind: 'bracket', bracket }] };
}

/** The task with a point of an outline put elsewhere, in place of an earlier correction of the same point. */
export function withCorrection(
  task: TraceTask,
  correction: Correction,
  instead: FilmPoint | null,
): TraceTask {
  const others = task.adjustments.filter(
    (adjustment) =>
      instead === null ||
      adjustment.kind !== 'correction' ||
      adjustment.correction.at.column !== instead.column ||
      adjustment.correction.at.row !== instead.row,
  );
  return { ...task, adjustments: [...others, { kind: 'correction', correction }] };
}

/** The task without the last thing the user said; null: nothing was said. */
export function withoutLast(task: TraceTask): TraceTask | null {
  if (task.bracketing !== null) {
    const bracketing = task.bracketing.length === 0 ? null : task.bracketing.slice(0, -1);
    return { ...task, bracketing };
  }
  if (task.adjustments.length > 0) return { ...task, adjustments: task.adjustments.slice(0, -1) };
  if (task.taps.length === 0) return null;
  return { ...task, taps: task.taps.slice(0, -1), found: null, failed: null };
}

/** Whether a point of this fragment's outlines was put there by hand. */
export const isCorrected = ({ adjustments }: TraceTask, fragment: Correction['fragment']): boolean =>
  adjustments.some((one) => one.kind === 'correction' && one.correction.fragment === fragment);

/** The fragment whose tapped line the middle of a bracket lies nearer to. */
function fragmentNear(
  [base, proximalEnd, distalEnd, headEnd]: readonly FilmPoint[],
  one: FilmPoint,
  other: FilmPoint,
): Bracket['fragment'] {
  const middle = { column: (one.column + other.column) / 2, row: (one.row + other.row) / 2 };
  return distanceTo(middle, base!, proximalEnd!) <= distanceTo(middle, distalEnd!, headEnd!)
    ? 'proximal'
    : 'distal';
}

interface Spot {
  readonly column: number;
  readonly row: number;
}

function distanceTo(point: Spot, from: Spot, to: Spot): number {
  const [dx, dy] = [to.column - from.column, to.row - from.row];
  const length = dx * dx + dy * dy;
  const along = length === 0 ? 0 : ((point.column - from.column) * dx + (point.row - from.row) * dy) / length;
  const held = Math.max(0, Math.min(1, along));
  return Math.hypot(point.column - from.column - held * dx, point.row - from.row - held * dy);
}
