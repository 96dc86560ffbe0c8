import { exponential } from './exact-maths.ts';
import type { Tube } from './tube.ts';
import { shapeTube, sized, type TubePlan } from './tube-shape.ts';
import { along, type Placing, scale } from './vector.ts';

/** Distal ends of radius and ulna, a mean adult's in mm, from memory; local distal is towards the hand. */
export interface ForearmBone {
  readonly name: 'radius' | 'ulna';
  readonly tube: Tube;
  readonly placing: Placing;
  /** Where a growth plate lies while it is open, and the bone's half width there, mm; from memory. */
  readonly plateFromHeadMm: number;
  readonly halfWidthMm: number;
}

/** So long that no film shows their near ends. */
const LENGTH = 190;

const radius = (density: number): TubePlan => ({
  lengthMm: LENGTH,
  halfUlnar: [
    [0, 7],
    [0.75, 7.6],
    [0.86, 10.5],
    [0.93, 14.2],
    [0.975, 15.8],
    [1, 15],
  ],
  halfDorsal: [
    [0, 5.9],
    [0.75, 6],
    [0.86, 7.6],
    [0.94, 10],
    [0.98, 10.6],
    [1, 10.6],
  ],
  cortex: [
    [0, 3.1 * density],
    [0.75, 2.6 * density],
    [0.85, 1.4 * density],
    [0.92, 0.75],
    [0.98, 0.6],
    [1, 1],
  ],
  cancellous: [
    [0, 0.03],
    [0.775, 0.05],
    [0.875, 0.13],
    [0.95, 0.22],
    [1, 0.34],
  ],
  squareness: [
    [0, 2.1],
    [0.85, 2.4],
    [1, 2.8],
  ],
  triangle: [
    [0, 0.05],
    [0.9, 0.03],
    [1, 0],
  ],
  volarTurn: [
    [0, 0],
    [0.8, 0],
    [1, -5],
  ],
  sideways: [
    [0, 1.5],
    [0.8, 0.5],
    [1, -1],
  ],
  baseRounding: 0.5,
  head: { kind: 'roller', radius: 10.6, rounding: 2.4 },
  endShape: (s, a, b) => {
    const near = Math.max(0, 1 - (LENGTH - s) / 16);
    if (near === 0) return 0;
    const ease = near * near * (3 - 2 * near);
    // Radial styloid, ulnar inclination, volar tilt, and the two hollows for scaphoid and lunate.
    const slope = -0.33 * a + 0.16 * b;
    const cup = -2.6 * exponential(-((a - 1) * (a - 1)) / 90 - (b * b) / 55);
    const flattening = 4.6 * (1 - exponential(-(b * b) / 40));
    return ease * (slope + cup + flattening - 0.4);
  },
});

const ulna = (density: number): TubePlan => ({
  lengthMm: LENGTH - 3,
  halfUlnar: [
    [0, 6.2],
    [0.775, 5.6],
    [0.9, 6.2],
    [0.96, 8.4],
    [1, 8],
  ],
  halfDorsal: [
    [0, 6],
    [0.775, 5.4],
    [0.9, 5.9],
    [0.96, 7.6],
    [1, 7.2],
  ],
  cortex: [
    [0, 2.7 * density],
    [0.8, 2.2 * density],
    [0.9, 1.3 * density],
    [0.965, 0.7],
    [1, 0.9],
  ],
  cancellous: [
    [0, 0.03],
    [0.8, 0.05],
    [0.925, 0.18],
    [1, 0.32],
  ],
  squareness: [
    [0, 2],
    [1, 2.3],
  ],
  triangle: [
    [0, 0.04],
    [1, 0],
  ],
  volarTurn: [
    [0, 0],
    [1, 2],
  ],
  sideways: [
    [0, 1],
    [1, 0],
  ],
  baseRounding: 0.5,
  head: { kind: 'roller', radius: 7.2, rounding: 2 },
  endShape: (s, a, b) => {
    const near = Math.max(0, 1 - (LENGTH - 3 - s) / 8);
    const flattening = 2.6 * (1 - exponential(-(b * b) / 22));
    const styloid = 5.2 * exponential(-((a - 5) * (a - 5)) / 7 - ((b - 1) * (b - 1)) / 9);
    return near * near * (flattening + styloid - 0.6);
  },
});

/**
 * @param density - Cortex thickness as a share of a healthy adult's.
 * @param size - Of the hand, as a share of the mean.
 */
export const forearmBones = (density: number, size: number): readonly ForearmBone[] => [
  {
    name: 'radius',
    tube: shapeTube(sized(radius(density), size)),
    placing: along(scale([-6, -32.4 - LENGTH, -2], size), scale([-8, -32.4, -1.6], size), [0, 0, 1]),
    plateFromHeadMm: 9.5 * size,
    halfWidthMm: 14.5 * size,
  },
  {
    name: 'ulna',
    tube: shapeTube(sized(ulna(density), size)),
    placing: along(scale([23, -35.4 - LENGTH, -1], size), scale([16.5, -35.4, 0.5], size), [0, 0, 1]),
    plateFromHeadMm: 6.5 * size,
    halfWidthMm: 8.3 * size,
  },
];
