import { describe, expect, it } from 'vitest';
import { assess } from '../../src/case/assess.ts';
import type { CaseRecord, FilmRecord, MarkRole, MarkShape } from '../../src/case/document.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { normalDeviates, RADIANS, uniformDraws } from '../geometry/support.ts';
import { caseOf, film, free, injury, mark, settings } from './samples.ts';

/**
 * Whether the stated 95 % intervals hold the truth 95 times in 100 (JCGM 101:2008, clause 7): every control point
 * of a made case is displaced at random by the placing error, the hand is turned, the magnification and the normal
 * are drawn, and each reading of the case is held against what the case was made with.
 *
 * 10 000 trials fix a share of 0.95 to 0.22 % (√(0.95 · 0.05 / 10 000)); 94 to 96 % is more than four times that.
 */
const TRIALS = 10_000;

/** 0.5 mm, the assumed placing error, on films of 0.1 mm. */
const SIGMA_PIXELS = 5;
const PIXELS_PER_MM = 10;

const deviate = normalDeviates(20_261_127);
const uniform = uniformDraws(20_261_128);
const evenly = (least: number, most: number) => least + (most - least) * uniform();

type Pair = readonly [number, number];
const { spacing: atDetector } = film('any');
const atBone = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
const tangent = (angle: number) => Math.tan(angle * RADIANS);
/** Base at row 2000, head at row 1400; the distal line leans from (1060, 1500) and meets the proximal one below. */
const crossingOf = (lean: number) => (100 * (500 - 60 / tangent(lean))) / 600;
const arctan = (ratio: number) => Math.atan(ratio) / RADIANS;

const displaced = ({ column, row }: FilmPoint): FilmPoint =>
  filmPoint(column + SIGMA_PIXELS * deviate(), row + SIGMA_PIXELS * deviate());

/** The same shape with every control point somewhere else. */
function misplaced(shape: MarkShape): MarkShape {
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

const line = (from: Pair, to: Pair): MarkShape => ({
  construction: 'segment',
  from: filmPoint(...from),
  to: filmPoint(...to),
});
const dot = (at: Pair): MarkShape => ({ construction: 'point', at: filmPoint(...at) });

type Drawn = Readonly<Partial<Record<MarkRole, MarkShape>>>;
const placedOn = (filmId: string, drawn: Drawn): readonly CaseRecord[] =>
  Object.entries(drawn).map(([role, shape]) =>
    mark(`${filmId}/${role}`, filmId, role as MarkRole, misplaced(shape)),
  );

/** A point `along` and `aside` of an axis that starts at `start` and leans `lean` degrees to the right of straight up. */
const about =
  (start: Pair, lean: number) =>
  (along: number, aside: number): Pair => [
    start[0] + along * Math.sin(lean * RADIANS) + aside * Math.cos(lean * RADIANS),
    start[1] - along * Math.cos(lean * RADIANS) + aside * Math.sin(lean * RADIANS),
  ];

/** A proximal fragment straight up, and a distal one that leans; the tapped side lies to the left. */
const upright = about([1000, 2000], 0);
const PROXIMAL = free(upright(0, 0), upright(400, 0));
const bent = (lean: number, from: Pair, side: MarkRole): Drawn => {
  const leaning = about(from, lean);
  return {
    'proximal-axis': PROXIMAL,
    'distal-axis': free(leaning(0, 0), leaning(300, 0)),
    [side]: dot([400, 1700]),
  };
};

/** Made a little larger than life about the base of the bone. */
const magnified = (drawn: Drawn, times: number): Drawn => {
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
interface Tally {
  trials: number;
  held: number;
}

/** One case with its truth, by the id of each reading. */
interface Made {
  readonly records: readonly CaseRecord[];
  readonly truth: Readonly<Record<string, number>>;
}

function coverage(make: () => Made): ReadonlyMap<string, Tally> {
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
function expectCoverage(make: () => Made): void {
  const tallies = coverage(make);
  const outside = [...tallies].filter(
    ([, { trials, held }]) => trials !== TRIALS || held < 0.94 * TRIALS || held > 0.96 * TRIALS,
  );
  expect(outside).toEqual([]);
  expect([...tallies.keys()].toSorted()).toEqual(Object.keys(make().truth).toSorted());
}

describe('the stated 95 % interval holds the truth 94 to 96 times in 100', () => {
  it('for the readings of two hands', () => {
    // A bone 10 to 30 mm above the detector, the tube 1 m away: on each film drawn anew.
    const magnification = () => evenly(1000 / 990, 1000 / 970);
    const tilt = { radial: tangent(20), dorsal: tangent(30) };
    const joint: Drawn = {
      'joint-surface': line([1000, 1000], [1200, 1000]),
      'joint-edges': line([1210, 1000], [1250, 1030]),
    };
    expectCoverage(() => {
      const turn = 90 + 5 * deviate();
      // Palm turning up, the dorsal side of the film points 180° less the turn from radial.
      const towards = (180 - turn) * RADIANS;
      const lateral = arctan(Math.cos(towards) * tilt.radial + Math.sin(towards) * tilt.dorsal);
      const normal = 15 + 5 * deviate();
      const pa = magnified(
        {
          ...bent(20, [1060, 1500], 'radial-side'),
          ...joint,
          length: line([1000, 2000], [1000, 1400]),
          'reference-length': line([1200, 2100], [1200, 1350]),
          'head-line': line([1200, 1340], [1400, 1340]),
          'head-point': dot([1000, 1400]),
          'fracture-tips': line([990, 1500], [1020, 1550]),
          'fracture-level': line([950, 1550], [1050, 1550]),
        },
        magnification(),
      );
      const sound = magnified(
        {
          ...bent(4, [1000, 1500], 'radial-side'),
          length: line([1000, 2000], [1000, 1360]),
          'reference-length': line([1200, 2100], [1200, 1350]),
          'head-line': line([1200, 1340], [1400, 1340]),
          'head-point': dot([1000, 1360]),
        },
        magnification(),
      );
      const across = (1060 - 50 * tangent(20) - 1000) / PIXELS_PER_MM;
      return {
        records: [
          injury(),
          settings(),
          film('pa', { view: 'pa' }),
          film('side', { spacing: atBone }),
          film('sound', { view: 'pa', hand: 'other' }),
          ...placedOn('pa', pa),
          ...placedOn('side', bent(lateral, [1000, 1500], 'dorsal-side')),
          ...placedOn('sound', sound),
        ],
        truth: {
          'pa/angulation': 20,
          'pa/normal': 4,
          'pa/deformity': 16,
          'pa/bend-place': crossingOf(20),
          'pa/length': 60,
          'pa/shortening-by-other-hand': 4,
          'pa/shortening-by-neighbours': 4,
          'pa/head-line-distance': 6,
          'pa/shortening-by-head-line': 4,
          'pa/shortening-by-overlap': 5,
          'pa/translation': across,
          'pa/translation-of-width': 10 * across,
          'pa/joint-step': 3,
          'pa/joint-gap': 4,
          'side/angulation': lateral,
          'side/normal': normal,
          'side/deformity': lateral - normal,
          'side/spatial-angle': arctan(Math.hypot(tilt.radial, tilt.dorsal)),
          'side/spatial-direction': Math.atan2(tilt.dorsal, tilt.radial) / RADIANS,
          'sound/angulation': 4,
          'sound/length': 64,
        },
      };
    });
  }, 240_000);

  it('for axes by every construction, a film without a scale, and photographs of the fist', () => {
    const between = about([1000, 2000], 0);
    const levels = (along: readonly number[], half: number) =>
      along.map((station) => ({
        one: filmPoint(...between(station, -half)),
        other: filmPoint(...between(station, half)),
      }));
    const leaning = about([1000, 1500], 30);
    const distal = free(leaning(0, 0), leaning(300, 0));
    const rim = [-60, -20, 30, 70].map((bearing) =>
      filmPoint(...leaning(140 + 65 * Math.cos(bearing * RADIANS), 65 * Math.sin(bearing * RADIANS))),
    );
    const side = { 'dorsal-side': dot([400, 1700]) };
    const drawn: Readonly<Record<string, Drawn>> = {
      canal: {
        'proximal-axis': { construction: 'canal', levels: levels([0, 120, 260, 400], 15) },
        'distal-axis': distal,
        ...side,
      },
      pair: {
        'proximal-axis': { construction: 'cortex-pair', levels: levels([0, 180, 380], 45) },
        'distal-axis': distal,
        ...side,
      },
      cortex: {
        'proximal-axis': {
          construction: 'dorsal-cortex',
          points: [0, 140, 280, 400].map((station) => filmPoint(...between(station, -40))),
        },
        'distal-axis': distal,
        ...side,
      },
      head: {
        'proximal-axis': PROXIMAL,
        'distal-axis': { construction: 'head', rim, brokenEnd: filmPoint(...leaning(0, 0)) },
        ...side,
      },
      // The mean length of the small metacarpal, 53.69 mm (Buryanov and Kotiuk 2010, table I), in 536.9 pixels: what
      // the placing error is guessed from.
      bare: {
        length: line([900, 2000], [900, 2000 - 536.9]),
        'joint-surface': line([1000, 1000], [1200, 1000]),
        'joint-edges': line([1210, 1000], [1250, 1030]),
      },
      // Nails of 14 mm; 60 aside in 80 up, and 50 in 120.
      fist: {
        'reference-nail': line([500, 640], [500, 500]),
        'finger-nail': line([700, 612], [784, 500]),
        'neighbour-nail': line([800, 500], [900, 500]),
        'covering-edge': dot([825, 560]),
      },
      'sound-fist': {
        'reference-nail': line([500, 640], [500, 500]),
        'finger-nail': line([300, 620], [250, 500]),
      },
    };
    const noScale = { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] } as const;
    const photograph = { shows: 'fist', view: null, viewFrom: null, spacing: atBone } as const;
    const [here, there] = [arctan(3 / 4), -arctan(5 / 12)];
    expectCoverage(() => ({
      records: [
        injury(),
        settings({ normal: 'other-hand' }),
        film('canal', { day: 1, spacing: atBone }),
        film('pair', { day: 2, spacing: atBone }),
        film('cortex', { day: 3, spacing: atBone }),
        film('head', { day: 4, spacing: atBone }),
        film('bare', { day: 5, view: 'pa', spacing: noScale }),
        film('fist', photograph),
        film('sound-fist', { ...photograph, hand: 'other' }),
        ...Object.entries(drawn).flatMap(([id, marks]) => placedOn(id, marks)),
      ],
      truth: {
        'canal/angulation': 30,
        'pair/angulation': 30,
        'cortex/angulation': 30,
        'head/angulation': 30,
        'bare/joint-step': (100 * 30) / 536.9,
        'bare/joint-gap': (100 * 40) / 536.9,
        'fist/nail-direction': here,
        'fist/nail-overlap': 25,
        'fist/nail-direction-difference': here + there,
        'sound-fist/nail-direction': there,
      },
    }));
  }, 240_000);

  it('for the head line against the published gap of 2 mm or less', () => {
    expectCoverage(() => {
      const gap = evenly(0, 2);
      return {
        records: [
          injury(),
          settings(),
          film('front', { view: 'pa', spacing: atBone }),
          ...placedOn('front', {
            length: line([1000, 2000], [1000, 1400]),
            'head-line': line([1200, 1340], [1400, 1340]),
            'head-point': dot([1000, 1400]),
          }),
        ],
        truth: {
          'front/length': 60,
          'front/head-line-distance': 6,
          'front/shortening-by-head-line': 6 - gap,
        },
      };
    });
  }, 240_000);

  it('where the placing error itself comes from few repeats', () => {
    // Ten degrees of freedom, the fewest that are used: s² = σ² χ²₁₀ / 10. With 1.96 in place of t the intervals
    // would hold about 92 times in 100.
    const found = () => {
      let squares = 0;
      for (let i = 0; i < 10; i += 1) squares += deviate() ** 2;
      return Math.sqrt(squares / 10);
    };
    // Steep enough that no estimate of the placing error leaves the place of the bend untold.
    const across = (1060 - 50 * tangent(30) - 1000) / PIXELS_PER_MM;
    expectCoverage(() => ({
      records: [
        injury(),
        settings({
          normal: 'other-hand',
          placingErrorMm: (SIGMA_PIXELS / PIXELS_PER_MM) * found(),
          placingErrorDegreesOfFreedom: 10,
        }),
        film('side', { spacing: atBone }),
        ...placedOn('side', {
          ...bent(30, [1060, 1500], 'dorsal-side'),
          length: line([1000, 2000], [1000, 1400]),
          'fracture-level': line([950, 1550], [1050, 1550]),
        }),
      ],
      truth: {
        'side/angulation': 30,
        'side/bend-place': crossingOf(30),
        'side/length': 60,
        'side/translation': across,
        'side/translation-of-width': 10 * across,
      },
    }));
  }, 240_000);
});
