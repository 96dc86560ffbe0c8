import { between, type Random } from '../phantom/random.ts';
import { type InventedFilmSpec, type PhantomRay, parseSpec } from '../phantom/spec.ts';
import { FRAMES } from './film-dials.ts';

export const LEVELS = ['first-steps', 'everyday', 'hard'] as const;
export type Level = (typeof LEVELS)[number];

export const LEVEL_FACTS: Readonly<Record<Level, { readonly name: string; readonly about: string }>> = {
  'first-steps': {
    name: 'first steps',
    about: 'A clear film in a true view, one clean break of the ring or small finger.',
  },
  everyday: {
    name: 'everyday',
    about: 'Any finger, neck or shaft, a view that is a little off, small and large angles.',
  },
  hard: {
    name: 'hard',
    about: 'Turned or oblique views, grainy films, plaster, thin bone, wedges and short levers.',
  },
};

/** Chance of a plain spec field, by level. */
interface Ranges {
  readonly rays: readonly PhantomRay[];
  readonly viewError: number;
  readonly leanError: number;
  readonly obliqueShare: number;
  readonly angle: readonly [from: number, to: number];
  readonly photons: readonly [from: number, to: number];
  readonly density: readonly [from: number, to: number];
  readonly obliquity: number;
  readonly shortening: number;
  readonly shift: number;
  readonly jag: readonly [from: number, to: number];
  readonly splintShare: number;
  readonly pieces: readonly ('two' | 'butterfly' | 'comminuted')[];
  readonly neckLevel: readonly [from: number, to: number];
}

const RANGES: Readonly<Record<Level, Ranges>> = {
  'first-steps': {
    rays: ['ring', 'small'],
    viewError: 3,
    leanError: 0,
    obliqueShare: 0,
    angle: [20, 60],
    photons: [7000, 10000],
    density: [1, 1.15],
    obliquity: 10,
    shortening: 1,
    shift: 0.5,
    jag: [0.3, 0.8],
    splintShare: 0,
    pieces: ['two'],
    neckLevel: [0.72, 0.75],
  },
  everyday: {
    rays: ['index', 'middle', 'ring', 'small'],
    viewError: 8,
    leanError: 5,
    obliqueShare: 0.2,
    angle: [5, 65],
    photons: [2500, 8000],
    density: [0.8, 1.15],
    obliquity: 35,
    shortening: 4,
    shift: 2,
    jag: [0.4, 1.2],
    splintShare: 0.1,
    pieces: ['two', 'two', 'two', 'butterfly'],
    neckLevel: [0.72, 0.77],
  },
  hard: {
    rays: ['index', 'middle', 'ring', 'small'],
    viewError: 18,
    leanError: 12,
    obliqueShare: 0.4,
    angle: [3, 70],
    photons: [600, 2500],
    density: [0.55, 0.9],
    obliquity: 50,
    shortening: 6,
    shift: 3,
    jag: [0.6, 1.8],
    splintShare: 0.5,
    pieces: ['two', 'butterfly', 'comminuted'],
    neckLevel: [0.73, 0.8],
  },
};

/** The lateral is a little supinated, which brings the ring and small fingers forward. */
const VIEW_TURNS = { pa: 0, oblique: 45, lateral: 97 } as const;

const chosen = <Value>(random: Random, values: readonly Value[]): Value =>
  values[Math.min(values.length - 1, Math.floor(random() * values.length))] as Value;

/** A sign and a size up to `most`, evenly spread. */
const either = (random: Random, most: number): number => between(random, -most, most);

/** `+ 0` turns −0, which JSON does not keep, into 0. */
const rounded = (value: number, step: number): number => Math.round(value / step) * step + 0;

/** A film of a level, drawn by chance: the same numbers from `random` give the same film. */
export function randomFilm(level: Level, random: Random): InventedFilmSpec {
  const range = RANGES[level];
  const ray = chosen(random, range.rays);
  const region = random() < 0.5 ? 'neck' : 'shaft';
  const view = random() < range.obliqueShare ? 'oblique' : random() < 0.3 ? 'pa' : 'lateral';
  const angle = rounded(between(random, ...range.angle), 1);
  const aside = either(random, 12);
  // A PA view shows the bend to the side; a large one forwards would bring the head end on.
  const seen =
    view === 'pa'
      ? {
          apexDorsalDegrees: rounded(between(random, 0, 25), 1),
          apexRadialDegrees: rounded(either(random, 30), 1),
        }
      : { apexDorsalDegrees: angle, apexRadialDegrees: rounded(aside, 1) };
  const parsed = parseSpec({
    hand: {
      side: random() < 0.5 ? 'left' : 'right',
      sex: random() < 0.5 ? 'female' : 'male',
      boneDensity: between(random, ...range.density),
    },
    fractures: [
      {
        ray,
        region,
        level: region === 'neck' ? between(random, ...range.neckLevel) : between(random, 0.4, 0.6),
        ...seen,
        axialTurnDegrees: rounded(either(random, 15), 1),
        shorteningMm: rounded(between(random, 0, range.shortening), 0.5),
        translationDorsalMm: rounded(either(random, range.shift), 0.5),
        translationRadialMm: rounded(either(random, range.shift), 0.5),
        obliquityDegrees: rounded(either(random, range.obliquity), 1),
        jagMm: between(random, ...range.jag),
        fragments: region === 'shaft' ? chosen(random, range.pieces) : 'two',
      },
    ],
    view: {
      turnDegrees: VIEW_TURNS[view] + rounded(either(random, range.viewError), 1),
      leanDegrees: rounded(either(random, range.leanError), 1),
      inPlaneDegrees: rounded(either(random, 10), 1),
    },
    exposure: { photonsPerPixel: Math.round(between(random, ...range.photons)) },
    film: { ...FRAMES.hand },
    extras: { splint: random() < range.splintShare },
  });
  if (!parsed.ok) throw new Error(`A film of the level ${level} came out invalid.`);
  return parsed.value;
}
