import { describe, expect, it } from 'vitest';
import {
  isComplete,
  isCorrected,
  newTrace,
  type TraceTask,
  tapWanted,
  withCorrection,
  withoutLast,
  withTap,
} from '../../../src/app/tracing/trace-task.ts';
import { recordId } from '../../../src/case/document.ts';
import { filmPoint } from '../../../src/geometry/units.ts';

/** A bone that stands upright: base at row 900, broken at 600, head's end at 300. */
const TAPS = [filmPoint(100, 900), filmPoint(100, 610), filmPoint(100, 590), filmPoint(100, 300)] as const;

const tapped = (task: TraceTask, ...points: readonly (typeof TAPS)[number][]): TraceTask =>
  points.reduce(withTap, task);
const complete = tapped(newTrace(recordId('film')), ...TAPS);

describe('the four taps', () => {
  it('are asked for one after another, each by its place', () => {
    let task = newTrace(recordId('film'));
    const asked = TAPS.map((tap) => {
      const wanted = tapWanted(task);
      expect(isComplete(task)).toBe(false);
      task = withTap(task, tap);
      return wanted;
    });
    expect(asked).toEqual([
      expect.stringContaining('base'),
      expect.stringMatching(/broken end .* nearer the wrist/),
      expect.stringMatching(/broken end .* nearer the knuckle/),
      expect.stringContaining('head'),
    ]);
    expect(tapWanted(task)).toBeNull();
    expect(isComplete(task)).toBe(true);
    expect(task.taps).toEqual(TAPS);
  });

  it('are no more than four', () => {
    expect(withTap(complete, filmPoint(1, 1))).toEqual(complete);
  });

  it('are taken back one by one, with what was found by them', () => {
    const before = withoutLast({ ...complete, failed: 'No outlines were found.' });
    expect(before).toMatchObject({ taps: TAPS.slice(0, 3), found: null, failed: null });
    expect(withoutLast(newTrace(recordId('film')))).toBeNull();
  });
});

describe('a bracket', () => {
  // By the drawing above: rows over 600 are the proximal fragment's, those under 600 the distal one's.
  it.each([
    { row: 800, fragment: 'proximal' },
    { row: 612, fragment: 'proximal' },
    { row: 588, fragment: 'distal' },
    { row: 200, fragment: 'distal' },
  ])('at row $row belongs to the $fragment fragment', ({ row, fragment }) => {
    const asked = { ...complete, bracketing: [] };
    expect(tapWanted(asked)).toContain('one side');
    const half = withTap(asked, filmPoint(60, row));
    expect(tapWanted(half)).toContain('the other side');
    expect(isComplete(half)).toBe(false);
    const both = withTap(half, filmPoint(140, row));
    expect(both.adjustments).toEqual([
      { kind: 'bracket', bracket: { fragment, one: filmPoint(60, row), other: filmPoint(140, row) } },
    ]);
    expect(isComplete(both)).toBe(true);
    expect(withoutLast(both)).toEqual(complete);
  });
});

describe('a correction', () => {
  const first = { fragment: 'proximal', side: 'one', at: filmPoint(70, 700) } as const;

  it('makes its own fragment a corrected one, and no other', () => {
    const task = withCorrection(complete, first, null);
    expect([isCorrected(task, 'proximal'), isCorrected(task, 'distal')]).toEqual([true, false]);
    expect(isCorrected(complete, 'proximal')).toBe(false);
  });

  it('takes the place of the one it moves, and stands beside others', () => {
    const other = { ...first, at: filmPoint(72, 800) };
    const task = withCorrection(withCorrection(complete, first, null), other, null);
    expect(task.adjustments).toHaveLength(2);
    const again = { ...first, at: filmPoint(75, 702) };
    expect(withCorrection(task, again, first.at).adjustments).toEqual([
      { kind: 'correction', correction: other },
      { kind: 'correction', correction: again },
    ]);
  });
});
