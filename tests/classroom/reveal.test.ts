import { describe, expect, it } from 'vitest';
import { SETTINGS_ID } from '../../src/case/document.ts';
import { settingsOf } from '../../src/case/fixed-records.ts';
import { type Cause, causesOf } from '../../src/classroom/causes.ts';
import { causeWords, nextWords, verdictWords } from '../../src/classroom/reveal-words.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import type { OutlineStation } from '../../src/phantom/outlines.ts';
import { RADIANS } from '../geometry/support.ts';
import { along, aside, Learner, NECK, SHAFT } from './learner.ts';

const PITCH = 0.125;
const kinds = (causes: readonly Cause[]) => causes.map(({ kind }) => kind);

/** Placings whose error is known because it was put in: every expected angle is arctan(offset / length). */
describe('a reveal', () => {
  it('finds nothing wrong with axes that are where they truly are', () => {
    for (const request of [NECK, SHAFT]) {
      const found = new Learner(request).perfectly().tapDorsal().reveal();
      expect(found.error).toBeCloseTo(0, 6);
      expect(found.verdict).toBe('inside');
      expect(found.truth).toBeCloseTo(
        found.film.truth.rays.find(({ ray }) => ray === found.ray)!.projectedAngleDegrees,
        6,
      );
      expect(causesOf(found)).toEqual([]);
    }
  });

  it('splits the error of an angle into what each axis adds', () => {
    const learner = new Learner(SHAFT).perfectly().tapDorsal();
    const { proximalAxis: axis } = learner.bone;
    const lengthMm = PITCH * Math.hypot(axis.to.column - axis.from.column, axis.to.row - axis.from.row);
    const found = learner
      .free('proximal-axis', { from: aside(axis.from, axis, 2, PITCH), to: axis.to })
      .reveal();
    const turned = Math.atan(2 / lengthMm) / RADIANS;
    expect(Math.abs(found.error)).toBeCloseTo(turned, 6);
    expect(found.proximal.addsDegrees).toBeCloseTo(found.error, 6);
    expect(found.distal.addsDegrees).toBeCloseTo(0, 6);
    expect(Math.abs(found.proximal.fromMm)).toBeCloseTo(2, 6);
    expect(found.proximal.toMm).toBeCloseTo(0, 6);
    const [cause] = causesOf(found);
    expect(cause).toMatchObject({ kind: 'axis-tilted', fragment: 'proximal' });
    expect(cause?.adds).toBeCloseTo(found.error, 6);
  });

  it('says outside only when the error is more than the reading claimed', () => {
    const learner = new Learner(SHAFT).perfectly().tapDorsal();
    const { distalAxis: axis } = learner.bone;
    const tilted = (mm: number) =>
      learner.free('distal-axis', { from: axis.from, to: aside(axis.to, axis, mm, PITCH) }).reveal();
    for (const mm of [0.5, 1, 2, 3, 4]) {
      const found = tilted(mm);
      expect(found.verdict).toBe(
        Math.abs(found.error) <= found.reading.expandedUncertainty ? 'inside' : 'outside',
      );
      // At the edge of the 95 % interval one reading in twenty is as far off.
      if (found.verdict === 'outside') expect(found.chance).toBeLessThan(0.05);
      else expect(found.chance).toBeGreaterThanOrEqual(0.05 - 1e-9);
    }
    expect(tilted(4).verdict).toBe('outside');
    expect(verdictWords(tilted(4), [])).toMatch(/more than the/);
    const seldom = { ...tilted(4), chance: 0.0004 };
    expect(verdictWords(seldom, [])).toContain('right, fewer than one reading in a thousand would');
    const chance = { ...tilted(4), chance: 0.021 };
    expect(verdictWords(chance, [])).toContain('right, only about 21 readings in a thousand would');
  });

  it('blames a short axis, with what a millimetre does to it', () => {
    const learner = new Learner(SHAFT).perfectly();
    const { proximalAxis: axis } = learner.bone;
    const from = along(axis, 0.7);
    const found = learner.free('proximal-axis', { from, to: aside(axis.to, axis, 1, PITCH) }).reveal();
    const [cause] = causesOf(found);
    if (cause?.kind !== 'axis-too-short') throw new Error(`said ${cause?.kind}`);
    expect(cause.lengthMm).toBeLessThan(0.35 * cause.couldBeMm);
    expect(cause.degreesPerMm).toBeCloseTo(Math.atan(1 / cause.lengthMm) / RADIANS, 9);
    expect(nextWords([cause], found)).toMatch(/whole straight part/);
  });

  it('names the finger that was measured instead, even where the angle came out right', () => {
    const learner = new Learner(SHAFT).perfectly();
    const small = learner.truth.rays.find(({ ray }) => ray === 'small')!;
    const found = learner.free('proximal-axis', small.proximalAxis).reveal();
    const causes = causesOf(found);
    expect(causes[0]).toMatchObject({ kind: 'wrong-finger', fragment: 'proximal', ray: 'small' });
    if (found.verdict === 'inside') expect(verdictWords(found, causes)).toMatch(/by luck/);
    expect(kinds(causesOf(new Learner(SHAFT).perfectly().reveal()))).not.toContain('wrong-finger');
  });

  it('tells a tap on the wrong side', () => {
    const found = new Learner(SHAFT).perfectly().tapDorsal(-200).reveal();
    expect(found.value).toBeCloseTo(-found.truth, 6);
    expect(causesOf(found)[0]).toMatchObject({ kind: 'wrong-side' });
    expect(causesOf(found)[0]?.adds).toBeCloseTo(-2 * found.truth, 6);
  });

  it('does not mind which end of an axis was placed first', () => {
    const learner = new Learner(SHAFT);
    const { proximalAxis: p, distalAxis: d } = learner.bone;
    const found = learner
      .free('proximal-axis', { from: p.to, to: p.from })
      .free('distal-axis', { from: d.to, to: d.from })
      .reveal();
    expect(found.error).toBeCloseTo(0, 6);
  });
});

describe('points on a cortex', () => {
  const stations = (learner: Learner): readonly OutlineStation[] =>
    learner.film.outlines.ring.filter(({ part }) => part === 'proximal');
  const LEVELS = [14, 24, 36] as const;

  it('is not blamed where it lies on the edge that was meant', () => {
    for (const construction of ['canal', 'cortex-pair'] as const) {
      const learner = new Learner(SHAFT).perfectly();
      const edges = (i: number) =>
        construction === 'canal' ? stations(learner)[i]!.inner! : stations(learner)[i]!.outer;
      const levels = LEVELS.map((i) => ({ one: edges(i)[0], other: edges(i)[1] }));
      const found = learner.place('proximal-axis', { construction, levels }).reveal();
      // The middle between the walls of the canal is not quite the middle of the bone: its cortices differ.
      expect(Math.abs(found.proximal.addsDegrees)).toBeLessThan(1.5);
      expect(kinds(causesOf(found))).not.toContain('point-off');
    }
  });

  it('is told apart by its own outline: the outer cortex taken for the wall of the canal', () => {
    const learner = new Learner(SHAFT).perfectly();
    const levels = LEVELS.map((i, k) => {
      const { inner, outer } = stations(learner)[i]!;
      return { one: inner![0], other: k === 2 ? outer[1] : inner![1] };
    });
    const found = learner.place('proximal-axis', { construction: 'canal', levels }).reveal();
    const cause = causesOf(found).find(({ kind }) => kind === 'point-off');
    if (cause?.kind !== 'point-off') throw new Error('no point was blamed');
    expect(cause.point).toMatchObject({ fragment: 'proximal', index: 5, misplaced: { on: 'outer-cortex' } });
    const { inner, outer } = stations(learner)[LEVELS[2]]!;
    const wallMm = PITCH * Math.hypot(outer[1].column - inner![1].column, outer[1].row - inner![1].row);
    expect(cause.point.offMm).toBeCloseTo(wallMm, 0);
    expect(causeWords(cause, found.side).next).toMatch(/same edge/);
  });

  it('has no edge at the broken end of a head: there the middle is meant, and nothing is said of outside or inside', () => {
    const learner = new Learner(NECK).perfectly();
    const { headCentre, headRadiusPixels: radius, distalAxis: axis } = learner.bone;
    const rim = [0, 2, 4].map((angle) =>
      filmPoint(headCentre.column + radius * Math.cos(angle), headCentre.row + radius * Math.sin(angle)),
    );
    const middle = learner.film.outlines.small.find(({ part }) => part === 'distal')!.middle;
    const brokenEnd = aside(middle, axis, 2, PITCH);
    const found = learner.place('distal-axis', { construction: 'head', rim, brokenEnd }).reveal();
    const cause = causesOf(found).find(({ kind }) => kind === 'point-off');
    if (cause?.kind !== 'point-off') throw new Error('no point was blamed');
    expect(cause.point).toMatchObject({ fragment: 'distal', index: 3, misplaced: { on: 'off-middle' } });
    expect(cause.point.offMm).toBeCloseTo(2, 6);
    const { what, next } = causeWords(cause, found.side);
    expect(what).toMatch(/2\.0.mm off, away from the middle of the broken end\./);
    expect(next).toMatch(/halfway between/);
  });

  it('compares a line along the dorsal cortex with the dorsal cortex', () => {
    const learner = new Learner(SHAFT).perfectly();
    const { dorsal } = learner.bone;
    const points = LEVELS.map((i) => {
      const [left, right] = stations(learner)[i]!.outer;
      const rightIsDorsal =
        (right.column - left.column) * dorsal.columns + (right.row - left.row) * dorsal.rows > 0;
      return rightIsDorsal ? right : left;
    });
    const found = learner.place('proximal-axis', { construction: 'dorsal-cortex', points }).reveal();
    expect(found.proximal.trueBy).toBe('dorsal-cortex');
    expect(Math.abs(found.error)).toBeLessThan(1);
    // Against the centreline the same placing would have been off by more.
    expect(Math.abs(found.value - learner.bone.projectedAngleDegrees)).toBeGreaterThan(2);
  });
});

describe('what is not the reader’s fault', () => {
  it('is the oblique view: the film shows another angle than the bone has', () => {
    const oblique = { ...SHAFT, view: { turnDegrees: 45 } };
    const found = new Learner(oblique).perfectly().reveal();
    expect(found.error).toBeCloseTo(0, 6);
    const cause = causesOf(found).find(({ kind }) => kind === 'view-oblique');
    if (cause?.kind !== 'view-oblique') throw new Error('the view was not named');
    const fracture = found.film.truth.fractures[0]!;
    expect(cause.adds).toBeCloseTo(
      found.film.truth.rays[3]!.projectedAngleDegrees - fracture.apexDorsalDegrees,
      6,
    );
    expect(kinds(causesOf(new Learner(SHAFT).perfectly().reveal()))).not.toContain('view-oblique');
  });

  it('is the normal, when a deformity was asked and none was taken off', () => {
    const learner = new Learner(SHAFT, { asked: 'deformity' }).perfectly().tapDorsal();
    const settings = { ...settingsOf(learner.document), normal: 'zero' as const };
    learner.document = {
      ...learner.document,
      records: { ...learner.document.records, [SETTINGS_ID]: settings },
    };
    const found = learner.reveal();
    expect(found.error).toBeCloseTo(found.normal, 6);
    expect(causesOf(found)[0]).toMatchObject({ kind: 'normal-not-subtracted', adds: found.normal });
    // docs/invented-films.md: the bow of an unbroken bone between its fragments’ axes is there, and apex dorsal.
    expect(found.normal).toBeGreaterThan(3);
  });
});
