import { lookUp } from './curve.ts';
import { cosine, sine } from './exact-maths.ts';
import { between, type Random } from './random.ts';
import { type BreakSurface, centrePoint, TABLE_PER_MM, type Tube } from './tube.ts';
import type { Vector } from './vector.ts';

/** The cartilage between the shaft and an end of a bone that still grows: its two faces, as places along the bone. */
export interface GrowthPlate {
  readonly end: 'base' | 'head';
  /** Middle of the plate from the base, mm along the centreline. */
  readonly placeMm: number;
  readonly thicknessMm: number;
  readonly proximalFace: BreakSurface;
  readonly distalFace: BreakSurface;
}

/** Thickness of the cartilage; from memory, judged by eye. */
const CARTILAGE_MM = [1.15, 1.45] as const;
/** How far the plate's middle bulges away from the shaft, and the height of its waves, mm; judged by eye. */
const DOME_MM = 0.45;
const WAVE_MM = 0.16;

/**
 * Draws a plate across a bone.
 *
 * @param fromEndMm - From the bone's end to the middle of the plate.
 * @param halfWidthMm - Of the bone there; the bulge ends at it.
 */
export function growthPlate(
  tube: Tube,
  end: GrowthPlate['end'],
  fromEndMm: number,
  halfWidthMm: number,
  random: Random,
): GrowthPlate {
  const placeMm = end === 'base' ? fromEndMm : tube.lengthMm - fromEndMm;
  const thicknessMm = between(random, ...CARTILAGE_MM);
  const waves = Array.from({ length: 3 }, () => {
    const heading = between(random, 0, 2 * Math.PI);
    const perMm = (2 * Math.PI) / between(random, 4, 9);
    const phase = between(random, 0, 2 * Math.PI);
    return { a: perMm * cosine(heading), b: perMm * sine(heading), phase };
  });
  // A plate lies across the whole bone's length, not across its bent neck: seen from the front it is open.
  const lean =
    lookUp(tube.slopeSine, TABLE_PER_MM, placeMm) / lookUp(tube.slopeCosine, TABLE_PER_MM, placeMm);
  const outward = end === 'base' ? -1 : 1;
  const middle: BreakSurface = (a, b) => {
    const rim = Math.min(1, (a * a + b * b) / (halfWidthMm * halfWidthMm));
    const wavy = waves.reduce((sum, wave) => sum + sine(wave.a * a + wave.b * b + wave.phase), 0);
    return placeMm + lean * b + outward * DOME_MM * (0.5 - rim) + WAVE_MM * wavy;
  };
  return {
    end,
    placeMm,
    thicknessMm,
    proximalFace: (a, b) => middle(a, b) - thicknessMm / 2,
    distalFace: (a, b) => middle(a, b) + thicknessMm / 2,
  };
}

/** Middle of the plate in the bone's own coordinates. */
export function plateMiddle(tube: Tube, { proximalFace, distalFace }: GrowthPlate): Vector {
  const s = (proximalFace(0, 0) + distalFace(0, 0)) / 2;
  return centrePoint(tube, s + (tube.endShape?.(s, 0, 0) ?? 0));
}
