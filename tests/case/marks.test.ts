import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarkShape } from '../../src/case/document.ts';
import {
  addCortexPoint,
  addLevel,
  addRimPoint,
  controlPoints,
  corrected,
  movePoint,
  shiftShape,
} from '../../src/case/marks.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { arbitraryPoint, arbitraryShape } from './arbitrary.ts';
import { free, mark } from './samples.ts';

const at = filmPoint;
const named = (role: 'proximal-axis' | 'distal-axis' | 'length' | 'dorsal-side', shape: MarkShape) =>
  controlPoints({ role, shape }).map((point) => point.name);

const canal: MarkShape = {
  construction: 'canal',
  levels: [
    { one: at(0, 0), other: at(10, 0) },
    { one: at(0, 100), other: at(10, 100) },
  ],
};
const head: MarkShape = {
  construction: 'head',
  rim: [at(0, 5), at(5, 0), at(10, 5)],
  brokenEnd: at(5, 60),
};

describe('control points', () => {
  it('are named for a person', () => {
    expect(named('proximal-axis', free([0, 0], [0, 9]))).toEqual([
      'proximal axis, end 1',
      'proximal axis, end 2',
    ]);
    expect(named('distal-axis', head)).toEqual([
      'distal axis, head rim 1',
      'distal axis, head rim 2',
      'distal axis, head rim 3',
      'distal axis, middle of the broken end',
    ]);
    expect(named('proximal-axis', canal)[3]).toBe('proximal axis, level 2, other inner cortex');
    expect(named('length', { construction: 'segment', from: at(0, 0), to: at(0, 9) })).toEqual([
      'length of the bone, base',
      'length of the bone, head',
    ]);
    expect(named('dorsal-side', { construction: 'point', at: at(1, 2) })).toEqual(['dorsal side']);
  });

  it('have keys that are unique, and stay when a point moves', () => {
    fc.assert(
      fc.property(arbitraryShape, arbitraryPoint, fc.nat(), (shape, to, pick) => {
        const before = controlPoints({ role: 'distal-axis', shape });
        expect(new Set(before.map((point) => point.key)).size).toBe(before.length);
        const { key } = before[pick % before.length]!;
        const after = controlPoints({ role: 'distal-axis', shape: movePoint(shape, key, to) });
        expect(after).toEqual(before.map((point) => (point.key === key ? { ...point, at: to } : point)));
      }),
    );
  });

  it('shift all together', () => {
    fc.assert(
      fc.property(arbitraryShape, (shape) => {
        const shifted = controlPoints({ role: 'distal-axis', shape: shiftShape(shape, 3, -7) });
        expect(shifted.map((point) => point.at)).toEqual(
          controlPoints({ role: 'distal-axis', shape }).map((point) =>
            at(point.at.column + 3, point.at.row - 7),
          ),
        );
      }),
    );
  });

  it('refuse a key that the shape does not have', () => {
    expect(() => movePoint(free([0, 0], [0, 9]), 'rim-1', at(0, 0))).toThrow(RangeError);
  });
});

describe('adding and removing', () => {
  it('puts a level where it belongs along the bone', () => {
    const rows = (shape: MarkShape) =>
      shape.construction === 'canal' ? shape.levels.map((level) => level.one.row) : [];
    expect(rows(addLevel(canal, at(0, 40), at(10, 42)))).toEqual([0, 40, 100]);
    expect(rows(addLevel(canal, at(0, -20), at(10, -20)))).toEqual([-20, 0, 100]);
    expect(rows(addLevel(canal, at(0, 130), at(10, 130)))).toEqual([0, 100, 130]);
  });

  it('puts a cortex point in order, and a rim point last', () => {
    const cortex: MarkShape = { construction: 'dorsal-cortex', points: [at(0, 90), at(0, 10)] };
    expect(addCortexPoint(cortex, at(1, 50))).toMatchObject({
      points: [at(0, 90), at(1, 50), at(0, 10)],
    });
    expect(addRimPoint(head, at(8, 8))).toMatchObject({ rim: [...head.rim, at(8, 8)] });
  });
});

describe('a correction by hand', () => {
  it('turns a traced mark into a corrected one and drops what the tracer said', () => {
    const traced = {
      ...mark('mark-1', 'film-a', 'proximal-axis', canal),
      provenance: 'traced' as const,
      tracing: { directionUncertaintyDegrees: 1.2, basis: 'invented' },
    };
    const moved = corrected(traced, movePoint(canal, 'level-1-one', at(1, 0)));
    expect(moved.provenance).toBe('traced-and-corrected');
    expect(moved).not.toHaveProperty('tracing');
    expect(corrected(mark('m', 'film-a', 'proximal-axis', canal), canal).provenance).toBe('placed');
  });
});
