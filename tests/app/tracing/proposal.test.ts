import { describe, expect, it } from 'vitest';
import { angleWords, correctionBy, holdsOf, proposalOf } from '../../../src/app/tracing/proposal.ts';
import { filmPoint } from '../../../src/geometry/units.ts';
import type { OutlinePoint, TracedBone, TracedFragment } from '../../../src/trace/traced.ts';

const outline = (column: number, correctedAt: readonly number[] = []): readonly OutlinePoint[] =>
  Array.from({ length: 31 }, (_, i) => ({
    at: filmPoint(column, 900 - 10 * i),
    confidence: 1,
    corrected: correctedAt.includes(i),
  }));

const fragment = (correctedAt: readonly number[] = []): TracedFragment => ({
  axis: { from: filmPoint(100, 900), to: filmPoint(100, 600) },
  one: outline(60, correctedAt),
  other: outline(140),
  shape: { construction: 'cortex-pair', levels: [] },
  directionUncertaintyDegrees: 1,
});

const bone = (change: Partial<TracedBone> = {}): TracedBone => ({
  proximal: fragment(),
  distal: { ...fragment(), one: [], other: [] },
  turnDegrees: 31.2,
  interval: { from: 27.4, to: 35.1 },
  second: null,
  sure: true,
  doubts: [],
  basis: 'written for this test',
  ...change,
});

describe('the points that can be dragged', () => {
  it('are spread along each outline that was found, each with a name of its own', () => {
    const holds = holdsOf(bone());
    expect(holds.map(({ name }) => name)).toEqual([
      'proximal fragment, one cortex, point 1',
      'proximal fragment, one cortex, point 2',
      'proximal fragment, one cortex, point 3',
      'proximal fragment, other cortex, point 1',
      'proximal fragment, other cortex, point 2',
      'proximal fragment, other cortex, point 3',
    ]);
    // Sixths of 30 rows: 5, 15 and 25 rows of 10 pixels from row 900.
    expect(holds.slice(0, 3).map(({ at }) => at.row)).toEqual([850, 750, 650]);
    expect(new Set(holds.map(({ key }) => key)).size).toBe(holds.length);
  });

  it('take in every corrected point in place of the nearest spread one, or beside them', () => {
    const rows = (correctedAt: readonly number[]) =>
      holdsOf(bone({ proximal: fragment(correctedAt) }))
        .filter(({ side }) => side === 'one')
        .map(({ at, corrected }) => [(900 - at.row) / 10, corrected]);
    expect(rows([13])).toEqual([
      [5, false],
      [13, true],
      [25, false],
    ]);
    expect(rows([3, 13, 20, 29])).toEqual([
      [3, true],
      [13, true],
      [20, true],
      [29, true],
    ]);
  });

  it('make corrections; a corrected one is replaced', () => {
    const at = filmPoint(66, 750);
    expect(correctionBy(bone(), 'proximal-one-2', at)).toEqual({
      correction: { fragment: 'proximal', side: 'one', at },
      instead: null,
    });
    const again = correctionBy(bone({ proximal: fragment([13]) }), 'proximal-one-2', at);
    expect(again?.instead).toEqual(filmPoint(60, 770));
    expect(correctionBy(bone(), 'distal-one-1', at)).toBeNull();
  });
});

describe('the angle in words', () => {
  it.each([
    { turn: 31.2, from: 27.4, to: 35.1, value: '31°', interval: '27–35°' },
    { turn: -31.2, from: -35.1, to: -27.4, value: '31°', interval: '27–35°' },
    // An interval past straight: the size may be none, and at most the farther end.
    { turn: 2, from: -3.2, to: 6.1, value: '2°', interval: '0–6°' },
    { turn: -1, from: -3.2, to: 6.1, value: '1°', interval: '0–6°' },
  ])('is $value, $interval for a turn of $turn in $from to $to', ({ turn, from, to, value, interval }) => {
    expect(angleWords({ ...bone(), turnDegrees: turn, interval: { from, to } })).toEqual({ value, interval });
  });

  it('is no number on the film where the tracer is not sure', () => {
    expect(proposalOf(bone()).readout).toEqual({ value: '31°', uncertainty: '27–35°' });
    expect(proposalOf(bone({ sure: false })).readout).toEqual({ value: 'not sure', uncertainty: null });
  });
});
