import { expect } from 'vitest';
import type { AxisPoints } from '../../src/geometry/constructions.ts';
import { type PlanePoint, planePoint } from '../../src/geometry/units.ts';
import { freeAxis, normalDeviates, placed, RADIANS, simulate } from './support.ts';

/**
 * Every stated uncertainty against a seeded Monte-Carlo propagation (JCGM 101:2008, clause 7): the same
 * function, the inputs drawn from their distributions, the spread of what comes out.
 *
 * 20 000 draws fix a standard deviation to 0.5 % (1 / √(2 · 20 000)); 2 % is four times that.
 */
export const DRAWS = 20_000;
export const WITHIN = 0.02;

export const deviate = normalDeviates(20_251_125);
export const jitter = (point: PlanePoint, sigma: number): PlanePoint =>
  planePoint(point.x + sigma * deviate(), point.y + sigma * deviate());

/** For readings that carry their whole budget along: 8 000 draws fix a standard deviation to 0.8 %. */
export const FEWER = { draws: 8_000, within: 0.03 };

export function expectSpread(
  stated: number,
  draw: () => number,
  { draws = DRAWS, within = WITHIN }: { draws?: number; within?: number } = {},
): void {
  const { sd } = simulate(draws, draw);
  expect(Math.abs(sd / stated - 1), `stated ${stated}, simulated ${sd}`).toBeLessThan(within);
}

export const p = planePoint;
export const mm = { kind: 'millimetres', relativeStandardUncertainty: 0, magnification: null } as const;
export const SIGMA = 0.5;
export const half = placed(SIGMA);

export const rim = [150, 190, 230, 270].map((b) =>
  p(52 + 6.5 * Math.cos(b * RADIANS), 20 + 6.5 * Math.sin(b * RADIANS)),
);
export const shapes: Readonly<Record<string, AxisPoints>> = {
  free: freeAxis([0, 0], 40, 3),
  'cortex-pair': {
    construction: 'cortex-pair',
    levels: [0, 12, 25].map((x) => ({ one: p(x, -4), other: p(x + 1, 5) })),
  },
  canal: {
    construction: 'canal',
    levels: [0, 8, 20, 26].map((x) => ({ one: p(x, -1.5), other: p(x, 1.4) })),
  },
  'dorsal-cortex': { construction: 'dorsal-cortex', points: [p(0, -4), p(9, -4.3), p(22, -4.1), p(30, -4)] },
  head: { construction: 'head', rim, brokenEnd: p(38, 4) },
};
