import type { FilmPoint } from '../geometry/units.ts';
import { planePoint } from '../geometry/units.ts';
import { type Group, leaderOf } from './groups.ts';
import type { HeadCircle } from './head.ts';
import type { Hypothesis } from './hypothesis.ts';
import type { Outline } from './outlines.ts';
import { acrossOnLine, type FrameLine } from './pairs.ts';
import type { Correction, FragmentName, OutlineSide } from './request.ts';
import { alongAt, fromMm, inFrame, type MmScale, outOfFrame, rowAt, toMm } from './strip.ts';
import type { OutlinePoint, TracedFragment, TracedShape, TraceFailure } from './traced.ts';

/** Levels of a cortex pair that a trace leaves behind. */
const LEVELS = 4;
/** Rows to either side that a level's width is the mean of. */
const WIDTH_ROWS = 3;
/** Rim points of a head, to either side of the axis, degrees. */
const RIM_DEGREES = [-100, -50, 0, 50, 100] as const;

/** A group of accounts as a fragment in film coordinates, with the shape that its marks take. */
export function fragmentOf(
  group: Group,
  fragment: FragmentName,
  scale: MmScale,
  corrections: readonly Correction[],
  uncertaintyDegrees: number,
): TracedFragment {
  const leader = leaderOf(group);
  const line = meanLine(group, leader);
  const outline = (side: OutlineSide): OutlinePoint[] =>
    leader.pair === null
      ? []
      : outlinePoints(
          leader,
          leader.pair[side],
          scale,
          corrections.filter((c) => c.fragment === fragment && c.side === side),
        );
  const stretch = alongRange(leader, line);
  const at = (along: number): FilmPoint =>
    fromMm(outOfFrame(leader.frame, along, acrossOnLine(line, along)), scale);
  return {
    axis: { from: at(stretch.from), to: at(stretch.to) },
    one: outline('one'),
    other: outline('other'),
    shape: leader.head === null ? levelsOf(leader, line, scale) : headOf(leader, leader.head, line, scale),
    directionUncertaintyDegrees: uncertaintyDegrees,
  };
}

/** The mean of the members' lines, by share: at the middle of the leader's, and in direction. */
function meanLine(group: Group, leader: Hypothesis): FrameLine {
  const { alongMm } = leader.line;
  let across = 0;
  let lean = 0;
  for (const { hypothesis, bell } of group.members) {
    const share = bell.share / group.share;
    across += share * acrossOnLine(hypothesis.line, alongMm);
    lean += share * Math.atan(hypothesis.line.lean);
  }
  return { alongMm, acrossMm: across, lean: Math.tan(lean) };
}

function alongRange(leader: Hypothesis, line: FrameLine): { from: number; to: number } {
  const { head, strip, stretch, frame } = leader;
  if (head !== null) return { from: 0, to: inFrame(frame, head.centre).along };
  if (strip !== null && stretch !== null) {
    return { from: alongAt(strip, stretch.first), to: alongAt(strip, stretch.last) };
  }
  return { from: Math.min(0, line.alongMm), to: frame.lengthMm };
}

function outlinePoints(
  leader: Hypothesis,
  outline: Outline,
  scale: MmScale,
  corrections: readonly Correction[],
): OutlinePoint[] {
  const { strip, stretch, frame } = leader;
  if (strip === null || stretch === null) return [];
  const points = Array.from(
    outline.across,
    (across, i): OutlinePoint => ({
      at: fromMm(outOfFrame(frame, alongAt(strip, stretch.first + i), across), scale),
      confidence: Math.max(0, Math.min(1, outline.strength[i] ?? 0)),
      corrected: false,
    }),
  );
  for (const { at } of corrections) {
    const row = Math.round(rowAt(strip, inFrame(frame, toMm(at, scale)).along)) - stretch.first;
    if (row in points) points[row] = { at, confidence: 1, corrected: true };
  }
  return points;
}

/**
 * The first corrected point that the likeliest accounts do not run through, or null. It is refused then: drawn as
 * obeyed it would mislead.
 *
 * @param leaders - The account of each fragment that is drawn.
 */
export function notObeyed(
  corrections: readonly Correction[],
  leaders: Readonly<Record<FragmentName, Hypothesis>>,
  scale: MmScale,
): TraceFailure | null {
  for (const [index, { fragment, side, at }] of corrections.entries()) {
    const { pair, strip, stretch, frame } = leaders[fragment];
    if (pair === null || strip === null || stretch === null)
      return { kind: 'correction-not-followed', index };
    const { along, across } = inFrame(frame, toMm(at, scale));
    const row = Math.round(rowAt(strip, along));
    if (row < stretch.first || row > stretch.last) {
      const [first, last] = [alongAt(strip, stretch.first), alongAt(strip, stretch.last)];
      return { kind: 'correction-out-of-reach', index, distanceMm: Math.max(first - along, along - last) };
    }
    if (pair[side].across[row - stretch.first] !== across) return { kind: 'correction-not-followed', index };
  }
  return null;
}

/** Pairs of points square to the axis and as far apart as the outlines are, so that their middles lie on the axis. */
function levelsOf(leader: Hypothesis, line: FrameLine, scale: MmScale): TracedShape {
  const { frame, strip, stretch, pair } = leader;
  const { from, to } = alongRange(leader, line);
  const size = Math.hypot(1, line.lean);
  const levels = Array.from({ length: LEVELS }, (_, k) => {
    const along = from + ((to - from) * k) / (LEVELS - 1);
    let half = 4;
    if (pair !== null && strip !== null && stretch !== null) {
      const row = Math.round(rowAt(strip, along)) - stretch.first;
      half = halfWidth(pair.one, pair.other, row) / size;
    }
    const middle = acrossOnLine(line, along);
    const aside = (distance: number): FilmPoint =>
      fromMm(outOfFrame(frame, along - (distance * line.lean) / size, middle + distance / size), scale);
    return { one: aside(-half), other: aside(half) };
  });
  return { construction: 'cortex-pair', levels };
}

function halfWidth(one: Outline, other: Outline, row: number): number {
  let sum = 0;
  let count = 0;
  for (
    let i = Math.max(0, row - WIDTH_ROWS);
    i <= Math.min(one.across.length - 1, row + WIDTH_ROWS);
    i += 1
  ) {
    sum += (other.across[i]! - one.across[i]!) / 2;
    count += 1;
  }
  return sum / Math.max(1, count);
}

/** Rim points on the circle, and a broken end from which the axis runs through the circle's centre. */
function headOf(leader: Hypothesis, head: HeadCircle, line: FrameLine, scale: MmScale): TracedShape {
  const { frame } = leader;
  const centre = inFrame(frame, head.centre);
  const run = Math.max(2, centre.along);
  const axis = Math.atan(line.lean);
  const rim = RIM_DEGREES.map((angle) => {
    const turn = axis + (angle * Math.PI) / 180;
    return fromMm(
      outOfFrame(
        frame,
        centre.along + head.radiusMm * Math.cos(turn),
        centre.across + head.radiusMm * Math.sin(turn),
      ),
      scale,
    );
  });
  const end = outOfFrame(frame, centre.along - run, centre.across - run * line.lean);
  return { construction: 'head', rim, brokenEnd: fromMm(planePoint(end.x, end.y), scale) };
}
