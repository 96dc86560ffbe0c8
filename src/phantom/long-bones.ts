import { exponential, sine } from './exact-maths.ts';
import type { PhantomRay } from './spec.ts';
import type { Tube } from './tube.ts';
import { shapeTube, type TubePlan } from './tube-shape.ts';

/** Widths and bends of one hand's metacarpal, in mm and degrees; see docs/invented-films.md for where from. */
export interface MetacarpalBuild {
  readonly lengthMm: number;
  /** Outer half widths at the base and at the middle of the shaft: ulnar, dorsal. */
  readonly base: readonly [number, number];
  readonly shaft: readonly [number, number];
  readonly headRadius: number;
  readonly headUlnarRadius: number;
  /** Thickness of the cortex in the middle of the shaft. */
  readonly cortex: number;
  /** Apex-dorsal bend of the shaft and volar tilt of the neck. */
  readonly bowDegrees: number;
  readonly neckTiltDegrees: number;
  /** Slant of the joint surface of the base, mm from its middle to its ulnar edge. */
  readonly baseSlant: number;
}

/** A smooth dish: 1 in the middle, 0 at the rim and beyond. */
const dish = (a: number, b: number, halfUlnar: number, halfDorsal: number): number => {
  const q = (a * a) / (halfUlnar * halfUlnar) + (b * b) / (halfDorsal * halfDorsal);
  return q < 1 ? (1 - q) * (1 - q) : 0;
};

const fade = (distance: number, over: number): number => {
  const t = 1 - distance / over;
  return t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);
};

/** A metacarpal from its measures in mm, base at 0 and head at its length along its own axis. */
export function metacarpal(build: MetacarpalBuild, ray: PhantomRay): Tube {
  const { lengthMm: l, base, shaft, headRadius, headUlnarRadius, cortex } = build;
  const neck = 1 - (2.2 * headRadius) / l;
  const headCentre = 1 - headRadius / l;
  const thumb = ray === 'thumb';
  const neckUlnar = Math.max(shaft[0] * 1.12, headUlnarRadius * 0.72);
  const neckDorsal = shaft[1] * 1.1;
  const plan: TubePlan = {
    lengthMm: l,
    halfUlnar: [
      [0, base[0] * 0.95],
      [0.05, base[0]],
      [0.13, base[0] * 0.86],
      [0.27, shaft[0] * 1.12],
      [0.42, shaft[0]],
      [0.58, shaft[0] * 1.01],
      [neck, neckUlnar],
      // The tubercles for the collateral ligaments are the widest place, just behind the head's middle.
      [headCentre - (0.35 * headRadius) / l, headUlnarRadius],
      [headCentre, headUlnarRadius * 0.96],
      [1, headUlnarRadius * 0.95],
    ],
    halfDorsal: [
      [0, base[1] * 0.95],
      [0.05, base[1]],
      [0.13, base[1] * 0.83],
      [0.27, shaft[1] * 1.07],
      [0.45, shaft[1]],
      [0.6, shaft[1] * 0.98],
      [neck, neckDorsal],
      [1, neckDorsal * 1.05],
    ],
    cortex: [
      [0, 0.75],
      [0.06, 0.5],
      [0.16, 0.8],
      [0.3, cortex * 0.85],
      [0.48, cortex],
      [0.62, cortex * 0.8],
      [neck, 0.75],
      [headCentre, 0.42],
      [1, 0.5],
    ],
    cancellous: [
      [0, 0.34],
      [0.1, 0.25],
      [0.22, 0.14],
      [0.38, 0.03],
      [0.6, 0.03],
      [0.74, 0.13],
      [headCentre, 0.25],
      [1, 0.31],
    ],
    squareness: [
      [0, 3.2],
      [0.12, 2.6],
      [0.3, 2.1],
      [0.7, 2],
      [headCentre, 2.3],
      [1, 2.3],
    ],
    triangle: [
      [0, 0.03],
      [0.2, 0.05],
      [0.45, thumb ? 0.02 : 0.07],
      [0.7, 0.05],
      [headCentre - 0.08, 0],
      [1, 0],
    ],
    volarTurn: [
      [0, 0],
      [0.1, 0],
      [0.45, build.bowDegrees * 0.5],
      [0.74, build.bowDegrees],
      [headCentre - 0.03, build.bowDegrees + build.neckTiltDegrees],
      [1, build.bowDegrees + build.neckTiltDegrees],
    ],
    sideways: [
      [0, 0],
      [0.5, ray === 'small' ? 0.7 : ray === 'index' ? -0.5 : 0],
      [headCentre, 0],
      [1, 0],
    ],
    baseRounding: 1.6,
    head: { kind: 'ball', radius: headRadius },
    endShape: (s, a, b) => {
      const near = fade(s, 7);
      if (near === 0) return 0;
      const saddle = thumb ? (1.4 * a * a) / (base[0] * base[0]) : 0;
      const hollowMm = ray === 'index' ? 2.1 : ray === 'middle' ? 0.6 : 1;
      // The middle metacarpal's dorsal radial corner juts proximally.
      const styloid =
        ray === 'middle' ? -2.2 * exponential(-((a + 5) * (a + 5) + (b - 5) * (b - 5)) / 16) : 0;
      return (
        near * (hollowMm * dish(a, b, base[0], base[1]) + (build.baseSlant * a) / base[0] - saddle + styloid)
      );
    },
  };
  return shapeTube(plan);
}

export interface PhalanxBuild {
  readonly lengthMm: number;
  readonly base: readonly [number, number];
  readonly shaft: readonly [number, number];
  /** Half width across both condyles, and radius of the roller seen from the side. */
  readonly head: readonly [number, number];
  readonly cortex: number;
}

/** A phalanx from its measures in mm, base at 0 and head at its length along its own axis. */
export function phalanx(build: PhalanxBuild): Tube {
  const { lengthMm: l, base, shaft, head, cortex } = build;
  const headCentre = 1 - head[1] / l;
  const plan: TubePlan = {
    lengthMm: l,
    halfUlnar: [
      [0, base[0] * 0.97],
      [0.06, base[0]],
      [0.2, base[0] * 0.76],
      [0.45, shaft[0] * 1.04],
      [0.66, shaft[0]],
      [headCentre - 0.07, head[0] * 0.9],
      [headCentre, head[0]],
      [1, head[0] * 0.88],
    ],
    halfDorsal: [
      [0, base[1] * 0.97],
      [0.06, base[1]],
      [0.2, base[1] * 0.75],
      [0.45, shaft[1] * 1.05],
      [0.7, shaft[1]],
      [1, shaft[1]],
    ],
    cortex: [
      [0, 0.85],
      [0.07, 0.45],
      [0.2, 0.65],
      [0.42, cortex],
      [0.65, cortex * 0.9],
      [headCentre - 0.06, 0.55],
      [1, 0.55],
    ],
    cancellous: [
      [0, 0.36],
      [0.12, 0.25],
      [0.3, 0.13],
      [0.5, 0.07],
      [0.7, 0.12],
      [headCentre, 0.27],
      [1, 0.33],
    ],
    squareness: [
      [0, 2.5],
      [0.3, 2.15],
      [0.8, 2.2],
      [1, 2.4],
    ],
    // Flat volar side: the ridge of the triangle points dorsal, hence the sign.
    triangle: [
      [0, -0.02],
      [0.5, -0.07],
      [0.85, -0.02],
      [1, 0],
    ],
    volarTurn: [
      [0, 0],
      [0.25, 0],
      [0.8, 9],
      [1, 9],
    ],
    sideways: [
      [0, 0],
      [1, 0],
    ],
    baseRounding: 1.3,
    head: { kind: 'roller', radius: head[1], rounding: Math.min(2, head[1] * 0.55) },
    endShape: (s, a, b) => {
      const cup = fade(s, 5) * 1.15 * dish(a, b, base[0], base[1]);
      const groove = fade(l - s, 4.5) * 0.95 * exponential(-(a * a) / (0.14 * head[0] * head[0]));
      return cup - groove;
    },
  };
  return shapeTube(plan);
}

/** The last bone of a finger: a broad base, a waist, and a spade-shaped tuft. */
export function distalPhalanx(build: PhalanxBuild): Tube {
  const { lengthMm: l, base, shaft, head, cortex } = build;
  const plan: TubePlan = {
    lengthMm: l,
    halfUlnar: [
      [0, base[0] * 0.97],
      [0.1, base[0]],
      [0.3, base[0] * 0.66],
      [0.58, shaft[0]],
      [0.72, shaft[0] * 1.12],
      [0.84, head[0]],
      [0.93, head[0] * 0.96],
      [1, head[0] * 0.55],
    ],
    halfDorsal: [
      [0, base[1] * 0.97],
      [0.1, base[1]],
      [0.32, base[1] * 0.64],
      [0.6, shaft[1]],
      [0.85, head[1]],
      [1, head[1] * 0.8],
    ],
    cortex: [
      [0, 0.75],
      [0.1, 0.45],
      [0.4, cortex],
      [0.66, cortex * 0.85],
      [0.82, 0.35],
      [1, 0.3],
    ],
    cancellous: [
      [0, 0.33],
      [0.25, 0.2],
      [0.6, 0.15],
      [0.85, 0.3],
      [1, 0.3],
    ],
    squareness: [
      [0, 2.5],
      [0.5, 2.1],
      [1, 2.3],
    ],
    triangle: [
      [0, -0.03],
      [1, 0],
    ],
    volarTurn: [
      [0, 0],
      [1, 4],
    ],
    sideways: [
      [0, 0],
      [1, 0],
    ],
    baseRounding: 1.1,
    head: { kind: 'roller', radius: head[1], rounding: 1 },
    endShape: (s, a, b) => {
      const cup = fade(s, 4) * 0.9 * dish(a, b, base[0], base[1]);
      // The tuft is ragged.
      const ragged = sine(2.1 * a + 1.1 * b + l) + 0.7 * sine(4.3 * a - 1.9 * b + 2 * l);
      return cup + fade(l - s, 2.6) * 0.24 * ragged;
    },
  };
  return shapeTube(plan);
}
