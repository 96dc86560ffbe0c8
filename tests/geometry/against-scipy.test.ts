import { describe, expect } from 'vitest';
import { fitCircle } from '../../src/geometry/circle.ts';
import {
  chiSquareQuantile,
  fProbability,
  fQuantile,
  nonCentralStudentQuantile,
  normalProbability,
  normalQuantile,
  studentProbability,
  studentQuantile,
} from '../../src/geometry/distributions.ts';
import { inverse } from '../../src/geometry/film-part.ts';
import { type Corners, planeHomography } from '../../src/geometry/homography.ts';
import { fitLine } from '../../src/geometry/line.ts';
import { anova } from '../../src/geometry/statistics/anova.ts';
import { lineWithErrors } from '../../src/geometry/statistics/line-with-errors.ts';
import { regression } from '../../src/geometry/statistics/regression.ts';
import { parseSize } from '../../src/geometry/typed-size.ts';
import { filmPoint, planePoint } from '../../src/geometry/units.ts';
import { itNeeds, outputOf } from '../outside-tools.ts';
import { normalDeviates, uniformDraws, unwrap } from './support.ts';

/** One question to SciPy, what we answer, and how far apart the two may lie, as a share of 1 or of SciPy's answer. */
interface Question {
  readonly ask: string;
  readonly given: readonly unknown[];
  readonly ours: readonly number[];
  readonly within: number;
}

function expectAsScipy(questions: readonly Question[]): void {
  const asked = JSON.stringify(questions.map(({ ask, given }) => ({ ask, given })));
  const { answers } = JSON.parse(outputOf('scipy', ['tests/geometry/against-scipy.py'], asked)) as {
    readonly answers: readonly (readonly number[])[];
  };
  expect(answers).toHaveLength(questions.length);
  const apart = questions.flatMap(({ ask, given, ours, within }, index) => {
    const theirs = answers[index] ?? [];
    if (ours.length !== theirs.length)
      throw new Error(`${ask}: ${ours.length} numbers against ${theirs.length}`);
    return ours.flatMap((mine, i) => {
      const other = theirs[i] ?? Number.NaN;
      return Math.abs(mine - other) <= within * Math.max(1, Math.abs(other))
        ? []
        : [`${ask}(${JSON.stringify(given)}): ${mine}, SciPy ${other}`];
    });
  });
  expect(apart).toEqual([]);
}

const uniform = uniformDraws(61);
const deviate = normalDeviates(62);
const between = (least: number, most: number) => least + (most - least) * uniform();
const times = <Value>(count: number, make: () => Value): readonly Value[] =>
  Array.from({ length: count }, () => make());
/** From 1 to a thousand, as many small ones as large ones. */
const freedom = () => 10 ** between(0, 3);
/** From one in a thousand to 999, with the ends used here. */
const probability = () => [0.025, 0.975, 0.95, between(0.001, 0.999)][Math.floor(4 * uniform())] ?? 0.5;

describe('against SciPy', () => {
  itNeeds('scipy')(
    'distributions, as jStat gives them',
    () => {
      expectAsScipy(
        times(100, (): readonly Question[] => {
          const p = probability();
          const [df, below, nc] = [freedom(), freedom(), between(0, 20)];
          const z = between(-5, 5);
          const ratio = between(0.05, 8);
          return [
            { ask: 'normal quantile', given: [p], ours: [normalQuantile(p)], within: 1e-9 },
            { ask: 'normal probability', given: [z], ours: [normalProbability(z)], within: 1e-9 },
            { ask: 't quantile', given: [p, df], ours: [studentQuantile(p, df)], within: 1e-6 },
            { ask: 't probability', given: [z, df], ours: [studentProbability(z, df)], within: 1e-7 },
            { ask: 'F quantile', given: [p, df, below], ours: [fQuantile(p, df, below)], within: 1e-5 },
            {
              ask: 'F probability',
              given: [ratio, df, below],
              ours: [fProbability(ratio, df, below)],
              within: 1e-8,
            },
            { ask: 'chi-square quantile', given: [p, df], ours: [chiSquareQuantile(p, df)], within: 1e-6 },
            {
              ask: 'non-central t quantile',
              given: [p, Math.max(2, df), nc],
              ours: [nonCentralStudentQuantile(p, Math.max(2, df), nc)],
              within: 1e-5,
            },
          ];
        }).flat(),
      );
    },
    120_000,
  );

  itNeeds('scipy')('the slant of a photograph and its inverse, as mathjs solves them', () => {
    expectAsScipy(
      times(50, (): readonly Question[] => {
        const shaken = (column: number, row: number) =>
          filmPoint(column + between(-300, 300), row + between(-300, 300));
        const corners: Corners = [shaken(500, 400), shaken(3500, 500), shaken(3400, 2600), shaken(600, 2500)];
        const ratio = between(0.5, 2);
        const map = unwrap(planeHomography(corners, ratio));
        // The eight equations as a photographed corner gives them, in pixels; solved without our scaling.
        const targets = [
          [0, 0],
          [ratio, 0],
          [ratio, 1],
          [0, 1],
        ] as const;
        const rows = corners.flatMap(({ column: c, row: r }, i) => {
          const [x, y] = targets[i] ?? [0, 0];
          return [
            [c, r, 1, 0, 0, 0, -c * x, -r * x],
            [0, 0, 0, c, r, 1, -c * y, -r * y],
          ];
        });
        return [
          { ask: 'solve', given: [rows, targets.flat()], ours: map.flat().slice(0, 8), within: 1e-9 },
          { ask: 'inverse', given: [map], ours: inverse(map).flat(), within: 1e-6 },
        ];
      }).flat(),
    );
  });

  itNeeds('scipy')('units of length, as mathjs knows them', () => {
    expectAsScipy(
      (['inch', 'foot', 'milli', 'centi'] as const).map((name): Question => {
        const typed = { inch: '1 inch', foot: '1 ft', milli: '100 mm', centi: '10 cm' }[name];
        const many = { inch: 1, foot: 1, milli: 100, centi: 10 }[name];
        return { ask: 'millimetres', given: [name], ours: [unwrap(parseSize(typed)) / many], within: 1e-12 };
      }),
    );
  });

  itNeeds('scipy')('lines and circles through points', () => {
    expectAsScipy(
      times(50, (): readonly Question[] => {
        const slope = between(-1, 1);
        const row = [0, 9, 21, 30, 44].map((x) => planePoint(x + deviate() / 3, slope * x + deviate() / 3));
        const { axis, centroid } = unwrap(fitLine(row));
        const found = (axis.to.y - axis.from.y) / (axis.to.x - axis.from.x);
        const start = between(0, 6);
        const rim = [0, 1, 2, 2.8].map((turn) =>
          planePoint(
            50 + 7 * Math.cos(start + turn) + deviate() / 5,
            20 + 7 * Math.sin(start + turn) + deviate() / 5,
          ),
        );
        const circle = unwrap(fitCircle(rim));
        const pairs = (points: typeof row) => points.map(({ x, y }) => [x, y]);
        return [
          { ask: 'line', given: [pairs(row)], ours: [found, centroid.y - found * centroid.x], within: 1e-9 },
          {
            ask: 'circle',
            given: [pairs(rim)],
            ours: [circle.centre.x, circle.centre.y, circle.radius],
            within: 1e-6,
          },
        ];
      }).flat(),
    );
  });

  itNeeds('scipy')('straight lines with errors in both coordinates', () => {
    expectAsScipy(
      times(50, (): Question => {
        const slope = between(0.5, 2);
        const points = times(12, () => {
          const [x, xUncertainty, yUncertainty] = [between(10, 70), between(0.5, 4), between(0.5, 4)];
          return {
            x: x + xUncertainty * deviate(),
            y: 3 + slope * x + yUncertainty * deviate(),
            xUncertainty,
            yUncertainty,
          };
        });
        const fit = unwrap(lineWithErrors(points));
        return {
          ask: 'errors in both',
          given: [points.map((point) => [point.x, point.y, point.xUncertainty, point.yUncertainty])],
          ours: [fit.intercept, fit.slope, fit.chiSquare / fit.degreesOfFreedom],
          // SciPy's iteration stops there.
          within: 1e-5,
        };
      }),
    );
  });

  itNeeds('scipy')('regression and the one-way analysis of variance', () => {
    expectAsScipy(
      times(50, (): readonly Question[] => {
        const points = times(12, () => ({ x: between(10, 70), y: 40 + 10 * deviate() }));
        const fit = unwrap(regression(points));
        const rows = times(6, () => {
          const middle = 40 + 8 * deviate();
          return times(4, () => middle + 3 * deviate());
        });
        const table = unwrap(anova(rows));
        return [
          {
            ask: 'straight',
            given: [points.map(({ x, y }) => [x, y])],
            ours: [
              fit.intercept,
              fit.slope,
              fit.interceptStandardError,
              fit.slopeStandardError,
              fit.slopeProbability,
            ],
            within: 1e-8,
          },
          { ask: 'ratio', given: [rows], ours: [table.oneWay.ratio, table.oneWay.probability], within: 1e-8 },
        ];
      }).flat(),
    );
  });
});
