import type { MetacarpalBuild, PhalanxBuild } from './long-bones.ts';
import { boundedDeviate, type Random } from './random.ts';
import { type InventedFilmSpec, PHANTOM_RAYS, type PhantomRay } from './spec.ts';

/**
 * Mean lengths, joint to joint, of 66 right adult hands on radiographs: Buryanov & Kotiuk, Int J Morphol
 * 2010;28:755, table I, read in a later work that quotes it. [metacarpal, proximal, middle, distal], mm.
 */
export const MEAN_LENGTHS_MM: Readonly<Record<PhantomRay, readonly number[]>> = {
  thumb: [46.22, 31.57, 21.67],
  index: [68.12, 39.78, 22.38, 15.82],
  middle: [64.6, 44.63, 26.33, 17.4],
  ring: [58, 41.37, 25.65, 17.3],
  small: [53.69, 32.74, 18.11, 15.96],
};

/** Men's hands are larger than the mean of both, women's smaller; from memory, about 8 % apart. */
export const SEX_FACTOR = { male: 1.035, female: 0.96 } as const;

/** One standard deviation of a hand's overall size, and of one bone's length besides; from memory. */
const SIZE_SPREAD = 0.05;
const BONE_SPREAD = 0.02;

/** The sizes of one invented person's hand. */
export interface HandForm {
  /** Overall size as a share of the mean of all adults. */
  readonly scale: number;
  readonly metacarpals: Readonly<Record<PhantomRay, MetacarpalBuild>>;
  /** Proximal, middle and distal phalanx; two for the thumb. */
  readonly phalanges: Readonly<Record<PhantomRay, readonly PhalanxBuild[]>>;
}

interface RayNorm {
  readonly base: readonly [number, number];
  readonly shaft: readonly [number, number];
  readonly head: readonly [sagittal: number, ulnar: number];
  readonly cortex: number;
  readonly bow: number;
  readonly tilt: number;
  readonly slant: number;
  readonly phalanxWidth: number;
}

/**
 * Half widths and cortex in mm for a mean hand. Canals (twice the half width less the cortex) are set to the
 * narrowest diameters of Dunleavy, Hand 2022;17:602: ring about 2.7 mm, small about 3.9 mm. Bow and tilt make
 * the head's axis 12 to 14° from the shaft's (Rivlin, Hand 2015;10:756). The other widths are from memory.
 */
const NORMS: Readonly<Record<PhantomRay, RayNorm>> = {
  thumb: {
    base: [7.7, 7.3],
    shaft: [5.5, 4.4],
    head: [6.6, 7.4],
    cortex: 1.9,
    bow: 9,
    tilt: 7,
    slant: 0,
    phalanxWidth: 1.1,
  },
  index: {
    base: [8.5, 8.1],
    shaft: [4.35, 4.7],
    head: [7.3, 7.2],
    cortex: 2.15,
    bow: 12,
    tilt: 9,
    slant: -1.2,
    phalanxWidth: 1,
  },
  middle: {
    base: [7.2, 8.3],
    shaft: [4.3, 4.75],
    head: [7.4, 7.3],
    cortex: 2.2,
    bow: 11,
    tilt: 9,
    slant: 1,
    phalanxWidth: 1.03,
  },
  ring: {
    base: [5.9, 6.7],
    shaft: [3.45, 3.9],
    head: [6.3, 6.1],
    cortex: 2.05,
    bow: 12,
    tilt: 10.5,
    slant: 0.9,
    phalanxWidth: 0.96,
  },
  small: {
    base: [6.8, 6],
    shaft: [4, 3.85],
    head: [6, 5.9],
    cortex: 1.85,
    bow: 10,
    tilt: 9.3,
    slant: 1.8,
    phalanxWidth: 0.84,
  },
};

/** Half widths of the index finger's phalanges: base, shaft, head, and cortex, mm; from memory. */
const FINGER_WIDTHS: readonly Omit<PhalanxBuild, 'lengthMm'>[] = [
  { base: [7.3, 5.9], shaft: [4.35, 3.5], head: [5.6, 4.1], cortex: 1.45 },
  { base: [6.7, 4.8], shaft: [3.9, 3.05], head: [4.95, 3.2], cortex: 1.2 },
  { base: [5.7, 3.6], shaft: [2.5, 1.9], head: [4.2, 1.75], cortex: 0.95 },
];
const THUMB_WIDTHS: readonly Omit<PhalanxBuild, 'lengthMm'>[] = [
  { base: [7.6, 6.2], shaft: [4.6, 3.8], head: [6.2, 4.2], cortex: 1.45 },
  { base: [7.4, 4.6], shaft: [3.4, 2.5], head: [5, 2.1], cortex: 1.05 },
];

const times = (pair: readonly [number, number], factor: number): readonly [number, number] => [
  pair[0] * factor,
  pair[1] * factor,
];

/** Draws a hand: overall size by sex and spread, then each bone a little off the mean. */
export function drawHandForm(hand: InventedFilmSpec['hand'], random: Random): HandForm {
  const deviation = boundedDeviate(random, 2.5);
  const scale = SEX_FACTOR[hand.sex] * (1 + SIZE_SPREAD * (hand.sizeDeviation ?? deviation));
  const wander = (share: number): number => 1 + share * boundedDeviate(random, 2.5);
  const metacarpals = {} as Record<PhantomRay, MetacarpalBuild>;
  const phalanges = {} as Record<PhantomRay, PhalanxBuild[]>;
  for (const ray of PHANTOM_RAYS) {
    const norm = NORMS[ray];
    const lengths = MEAN_LENGTHS_MM[ray];
    const width = scale * wander(0.03);
    metacarpals[ray] = {
      lengthMm: lengths[0]! * scale * wander(BONE_SPREAD),
      base: times(norm.base, width),
      shaft: times(norm.shaft, width),
      headRadius: norm.head[0] * width,
      headUlnarRadius: norm.head[1] * width,
      cortex: norm.cortex * width * hand.boneDensity,
      bowDegrees: norm.bow + 2 * boundedDeviate(random, 2),
      neckTiltDegrees: norm.tilt + 1.5 * boundedDeviate(random, 2),
      baseSlant: norm.slant,
    };
    const widths = ray === 'thumb' ? THUMB_WIDTHS : FINGER_WIDTHS;
    const phalanxWidth = scale * (ray === 'thumb' ? 1 : norm.phalanxWidth) * wander(0.03);
    phalanges[ray] = widths.map((build, bone) => ({
      lengthMm: lengths[bone + 1]! * scale * wander(BONE_SPREAD),
      base: times(build.base, phalanxWidth),
      shaft: times(build.shaft, phalanxWidth),
      head: times(build.head, phalanxWidth),
      cortex: build.cortex * phalanxWidth * hand.boneDensity,
    }));
  }
  return { scale, metacarpals, phalanges };
}
