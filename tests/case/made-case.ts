import { expect } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { CaseRecord, FilmRecord, MarkRole, MarkShape } from '../../src/case/document.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { normalDeviates, RADIANS, uniformDraws } from '../geometry/support.ts';
import { caseOf, film, free, mark } from './samples.ts';

/**
 * Whether the stated 95 % intervals hold the truth 95 times in 100 (JCGM 101:2008, clause 7): every control point
 * of a made case is displaced at random by the placing error, the hand is turned, the magnification and the normal
 * are drawn, and each reading of the case is held against what the case was made with.
 *
 * 10 000 trials fix a share of 0.95 to 0.22 % (√(0.95 · 0.05 / 10 000)); 94 to 96 % is more than four times that.
 */
export const TRIALS = 10_000;

/** 0.5 mm, the assumed placing error, on films of 0.1 mm. */
export const SIGMA_PIXELS = 5;
export const PIXELS_PER_MM = 10;

export const deviate = normalDeviates(20_261_127);
export const uniform = uniformDraws(20_261_128);
export const evenly = (least: number, most: number) => least + (most - least) * uniform();

export type Pair = readonly [number, number];
const { spacing: atDetector } = film('any');
export const atBone = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
export const tangent = (angle: number) => Math.tan(angle * RADIANS);
/** Base at row 2000, head at row 1400; the distal line leans from (1060, 1500) and meets the proximal one below. */
export const crossingOf = (lean: number) => (100 * (500 - 60 / tangent(lean))) / 600;
export const arctan = (ratio: number) => Math.atan(ratio) / RADIANS;

export const displaced = ({ column, row }: FilmPoint): FilmPoint =>
  filmPoint(column + SIGMA_PIXELS * deviate(), row + SIGMA_PIXELS * deviate());

/** The same shape with every control point somewhere else. */
export function misplaced(shape: MarkShape): MarkShape {
  switch (shape.construction) {
    case 'free':
    case 'segment':
      return { ...shape, from: displaced(shape.from), to: displaced(shape.to) };
    case 'point':
      return { ...shape, at: displaced(shape.at) };
    case 'dorsal-cortex':
      return { ...shape, points: shape.points.map(displaced) };
    case 'head':
      return { ...shape, rim: shape.rim.map(displaced), brokenEnd: displaced(shape.brokenEnd) };
    case 'canal':
    case 'cortex-pair':
      return {
        ...shape,
        levels: shape.levels.map(({ one, other }) => ({ one: displaced(one), other: displaced(other) })),
      };
    case 'circle':
      return { ...shape, rim: shape.rim.map(displaced) };
  }
}

export const line = (from: Pair, to: Pair): MarkShape => ({
  construction: 'segment',
  from: filmPoint(...from),
  to: filmPoint(...to),
});
export const dot = (at: Pair): MarkShape => ({ construction: 'point', at: filmPoint(...at) });

export type Drawn = Readonly<Partial<Record<MarkRole, MarkShape>>>;
export const placedOn = (filmId: string, drawn: Drawn): readonly CaseRecord[] =>
  Object.entries(drawn).map(([role, shape]) =>
    mark(`${filmId}/${role}`, filmId, role as MarkRole, misplaced(shape)),
  );

/** A point `along` and `aside` of an axis that starts at `start` and leans `lean` degrees to the right of straight up. */
export const about =
  (start: Pair, lean: number) =>
  (along: number, aside: number): Pair => [
    start[0] + along * Math.sin(lean * RADIANS) + aside * Math.cos(lean * RADIANS),
    start[1] - along * Math.cos(lean * RADIANS) + aside * Math.sin(lean * RADIANS),
  ];

/** A proximal fragment straight up, and a distal one that leans; the tapped side lies to the left. */
export const upright = about([1000, 2000], 0);
export const PROXIMAL = free(upright(0, 0), upright(400, 0));
export const bent = (lean: number, from: Pair, side: MarkRole): Drawn => {
  const leaning = about(from, lean);
  return {
    'proximal-axis': PROXIMAL,
    'distal-axis': free(leaning(0, 0), leaning(300, 0)),
    [side]: dot([400, 1700]),
  };
};

/** Made a little larger than life about the base of the bone. */
export const magnified = (drawn: Drawn, times: number): Drawn => {
  const grown = ({ column, row }: FilmPoint) =>
    filmPoint(1000 + times * (column - 1000), 2000 + times * (row - 2000));
  return Object.fromEntries(
    Object.entries(drawn).map(([role, shape]) => {
      if (shape.construction === 'point') return [role, { ...shape, at: grown(shape.at) }];
      if (shape.construction !== 'segment' && shape.construction !== 'free') throw new Error(role);
      return [role, { ...shape, from: grown(shape.from), to: grown(shape.to) }];
    }),
  );
};

/** What was counted of one reading. */
export interface Tally {
  trials: number;
  held: number;
}

/** One case with its truth, by the id of each reading. */
export interface Made {
  readonly records: readonly CaseRecord[];
  readonly truth: Readonly<Record<string, number>>;
}

export function coverage(make: () => Made): ReadonlyMap<string, Tally> {
  const tallies = new Map<string, Tally>();
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const { records, truth } = make();
    const { readings } = assess(caseOf(...records), []);
    for (const reading of readings) {
      const expected = truth[reading.id];
      if (reading.state === 'missing') {
        if (expected !== undefined) throw new Error(`${reading.id}: ${reading.lacks}`);
        continue;
      }
      if (expected === undefined) throw new Error(`${reading.id} has no truth beside it`);
      const tally = tallies.get(reading.id) ?? { trials: 0, held: 0 };
      tallies.set(reading.id, tally);
      const off = Math.abs(reading.value - expected);
      const turned = reading.unit === 'degrees' ? Math.min(off, 360 - off) : off;
      tally.trials += 1;
      if (turned <= reading.expandedUncertainty) tally.held += 1;
    }
  }
  return tallies;
}

/** Every reading of the case was read in every trial, and its interval held the truth 94 to 96 times in 100. */
export function expectCoverage(make: () => Made): void {
  const tallies = coverage(make);
  const outside = [...tallies].filter(
    ([, { trials, held }]) => trials !== TRIALS || held < 0.94 * TRIALS || held > 0.96 * TRIALS,
  );
  expect(outside).toEqual([]);
  expect([...tallies.keys()].toSorted()).toEqual(Object.keys(make().truth).toSorted());
}
