import { between, type Random, seededRandom } from '../../src/phantom/random.ts';
import {
  type FractureSpec,
  type InventedFilmRequest,
  type InventedFilmSpec,
  type PhantomRay,
  parseSpec,
} from '../../src/phantom/spec.ts';

export const TRIED_VIEWS = ['pa', 'oblique', 'lateral'] as const;
export type TriedView = (typeof TRIED_VIEWS)[number];
export const SITES = ['shaft', 'neck'] as const;
export type Site = (typeof SITES)[number];

/**
 * Two ways of making films that have hands, beams, detectors and poses apart: the tracer's numbers are set on
 * the first and judged on the second.
 */
export const SETTINGS = ['calibration', 'trial'] as const;
export type Setting = (typeof SETTINGS)[number];

/** What lies round the hand: nothing was tuned on films with either. */
export const DRESSINGS = ['none', 'splint', 'cast'] as const;
export type Dressing = (typeof DRESSINGS)[number];

/** A film to be drawn: which bone is broken, where and how the hand lies. */
export interface PlannedFilm {
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  readonly ray: PhantomRay;
  readonly view: TriedView;
  readonly site: Site;
}

const RAYS: readonly PhantomRay[] = ['index', 'middle', 'ring', 'small'];

const pick = <Item>(random: Random, items: readonly Item[]): Item =>
  items[Math.floor(random() * items.length)] as Item;

const calibrationHand = (random: Random, fan: boolean): Partial<InventedFilmRequest> => ({
  hand: {
    side: pick(random, ['left', 'right']),
    sex: 'male',
    sizeDeviation: between(random, -1.5, 1.5),
    boneDensity: between(random, 0.85, 1.15),
    pose: fan ? 'fan' : 'flat',
  },
  beam: random() < 0.7 ? { kind: 'cone', sourceToDetectorMm: 1000 } : { kind: 'parallel' },
  exposure: {
    energyKev: between(random, 31, 37),
    photonsPerPixel: Math.exp(between(random, Math.log(800), Math.log(10000))),
    scatterShare: between(random, 0.05, 0.22),
    blurMm: between(random, 0.08, 0.17),
  },
});

const trialHand = (random: Random, fan: boolean): Partial<InventedFilmRequest> => ({
  hand: {
    side: pick(random, ['left', 'right']),
    sex: 'female',
    sizeDeviation: between(random, -2, 1),
    boneDensity: between(random, 0.65, 1.05),
    pose: fan ? 'half-flexed' : pick(random, ['flat', 'fan']),
  },
  beam: {
    kind: 'cone',
    sourceToDetectorMm: between(random, 900, 1300),
    gapToDetectorMm: between(random, 2, 30),
  },
  exposure: {
    energyKev: between(random, 36, 44),
    photonsPerPixel: Math.exp(between(random, Math.log(500), Math.log(5000))),
    scatterShare: between(random, 0.15, 0.35),
    blurMm: between(random, 0.14, 0.24),
  },
});

const TURNS: Readonly<Record<Setting, Readonly<Record<TriedView, readonly [number, number]>>>> = {
  calibration: { pa: [-8, 8], oblique: [30, 50], lateral: [80, 103] },
  trial: { pa: [-10, 10], oblique: [26, 55], lateral: [76, 106] },
};

/**
 * Film number `index` of a set. A third of the films each is PA, oblique and lateral, half of each with the
 * neck broken (0.66 to 0.77 of the length) and half the shaft (0.38 to 0.62). In PA films the apex-dorsal angle
 * is at most 35°: a head seen end-on has no axis there.
 */
export function plannedFilm(setting: Setting, index: number, dressing: Dressing = 'none'): PlannedFilm {
  const random = seededRandom(index, `film of the ${setting} set`);
  const view = TRIED_VIEWS[index % 3] ?? 'pa';
  const site = SITES[Math.floor(index / 3) % 2] ?? 'shaft';
  const ray = pick(random, RAYS);
  const pa = view === 'pa';
  const make = setting === 'calibration' ? calibrationHand : trialHand;
  const [leastTurn, mostTurn] = TURNS[setting][view];
  const fracture: Partial<FractureSpec> & { ray: PhantomRay; region: Site } = {
    ray,
    region: site,
    level: site === 'neck' ? between(random, 0.66, 0.77) : between(random, 0.38, 0.62),
    apexDorsalDegrees: between(random, 0, pa ? 35 : 70),
    apexRadialDegrees: pa ? between(random, -25, 25) : between(random, -10, 10),
    axialTurnDegrees: between(random, -12, 12),
    shorteningMm: between(random, 0, 3),
    translationDorsalMm: between(random, -1.5, 1.5),
    translationRadialMm: between(random, -1.5, 1.5),
    obliquityDegrees: between(random, -35, 35),
    jagMm: between(random, 0.3, 1),
    gapMm: between(random, 0.2, 0.8),
    hinge: pick(random, [-0.8, -0.3, 0.3, 0.8]),
  };
  const parsed = parseSpec({
    ...make(random, !pa),
    fractures: [fracture],
    view: {
      turnDegrees: between(random, leastTurn, mostTurn),
      leanDegrees: setting === 'trial' ? between(random, -6, 6) : between(random, -3, 3),
      inPlaneDegrees: between(random, -20, 20),
    },
    film: {
      pitchMm: between(random, 0.1, 0.15),
      detail: setting === 'trial' ? between(random, 0, 1.1) : between(random, 0.3, 0.9),
      evenness: setting === 'trial' ? between(random, 0.2, 0.7) : between(random, 0.3, 0.6),
    },
    extras: { marker: false, splint: dressing === 'splint', cast: dressing === 'cast' },
  });
  if (!parsed.ok) throw new Error(`The ${setting} film ${index} has a spec that is not valid.`);
  return { spec: parsed.value, filmSeed: Math.floor(random() * 4294967296), ray, view, site };
}
