import { describe, expect, it } from 'vitest';
import { MEAN_LENGTHS_MM, SEX_FACTOR } from '../../src/phantom/hand-form.ts';
import { type InventedFilmRequest, PHANTOM_RAYS } from '../../src/phantom/spec.ts';
import type { TruthAxis } from '../../src/phantom/truth.ts';
import { truthOf } from './make.ts';

const DEGREES = 180 / Math.PI;

/** Angle between two lines on the film by the law of cosines, apart from the code under test. */
function drawnAngle(p: TruthAxis, q: TruthAxis): number {
  const px = p.to.column - p.from.column;
  const py = p.to.row - p.from.row;
  const qx = q.to.column - q.from.column;
  const qy = q.to.row - q.from.row;
  return Math.acos((px * qx + py * qy) / Math.hypot(px, py) / Math.hypot(qx, qy)) * DEGREES;
}

const PARALLEL = { kind: 'parallel' } as const;

/**
 * tan²θ = tan²a + tan²b for the angle in space from those seen in two views at right angles; worked out from
 * the formula in Python 3.11, apart from this code. The first row is the published example of PMC4799231,
 * fig. 5, which prints 24° from a drawing.
 */
const TWO_VIEWS = [
  { radial: 19, dorsal: 14, spatial: 23.03126 },
  { radial: 30, dorsal: 30, spatial: 39.23152 },
  { radial: 10, dorsal: 40, spatial: 40.61065 },
  { radial: 0, dorsal: 30, spatial: 30 },
  { radial: 45, dorsal: 45, spatial: 54.73561 },
  { radial: -15, dorsal: 30, spatial: 32.47668 },
] as const;

/** tan(apparent) = tan(θ) cos(φ) for a hand turned φ out of the true lateral; same source. */
const OBLIQUITY = [
  { theta: 15, out: 10, apparent: 14.782 },
  { theta: 30, out: 30, apparent: 26.565 },
  { theta: 45, out: 45, apparent: 35.264 },
  { theta: 60, out: 30, apparent: 56.31 },
  { theta: 60, out: 60, apparent: 40.893 },
] as const;

describe('the truth of an invented film', () => {
  it.each(TWO_VIEWS)('makes $spatial° in space of $radial° and $dorsal°', ({ radial, dorsal, spatial }) => {
    const fracture = {
      ray: 'middle',
      region: 'shaft',
      apexDorsalDegrees: dorsal,
      apexRadialDegrees: radial,
    } as const;
    const pa = truthOf({ fractures: [fracture], beam: PARALLEL }, 5);
    const lateral = truthOf({ fractures: [fracture], beam: PARALLEL, view: { turnDegrees: 90 } }, 5);
    expect(pa.fractures[0]!.spatialAngleDegrees).toBeCloseTo(spatial, 4);
    expect(pa.fractures[0]!.apexDorsalDegrees).toBeCloseTo(dorsal, 6);
    expect(pa.fractures[0]!.apexRadialDegrees).toBeCloseTo(radial, 6);
    // The proximal axis leans a few degrees out of the film's plane: by the bow of the shaft.
    expect(Math.abs(pa.fractures[0]!.projectedAngleDegrees - Math.abs(radial))).toBeLessThan(3.5);
    expect(Math.abs(lateral.fractures[0]!.projectedAngleDegrees - dorsal)).toBeLessThan(0.6);
  });

  it.each(OBLIQUITY)(
    'shows $apparent° of $theta° turned $out° out of the lateral',
    ({ theta, out, apparent }) => {
      const truth = truthOf(
        {
          fractures: [{ ray: 'middle', region: 'shaft', level: 0.5, apexDorsalDegrees: theta }],
          beam: PARALLEL,
          view: { turnDegrees: 90 - out },
        },
        5,
      );
      // Exact only where the proximal axis lies in the film's plane; the shaft's bow tilts it a little.
      expect(Math.abs(truth.fractures[0]!.projectedAngleDegrees - apparent)).toBeLessThan(4.2);
      const bent = truth.fractures[0]!;
      expect(bent.spatialAngleDegrees).toBeCloseTo(theta, 6);
    },
  );

  it('states the angle that its own axes make, whatever the film', () => {
    for (let seed = 0; seed < 25; seed += 1) {
      const truth = truthOf(
        {
          hand: { side: seed % 2 === 0 ? 'left' : 'right' },
          view: { turnDegrees: seed * 5, leanDegrees: seed % 7, inPlaneDegrees: seed * 3 },
          fractures: PHANTOM_RAYS.map((ray, i) => ({
            ray,
            region: (['neck', 'shaft', 'base', 'head', 'shaft'] as const)[(seed + i) % 5]!,
            apexDorsalDegrees: (seed * 7) % 60,
            apexRadialDegrees: seed - 12,
            axialTurnDegrees: seed,
            shorteningMm: seed / 5,
          })),
        },
        seed,
      );
      expect(truth.rays).toHaveLength(5);
      expect(truth.fractures).toHaveLength(5);
      for (const ray of truth.rays) {
        expect(drawnAngle(ray.proximalAxis, ray.distalAxis)).toBeCloseTo(ray.projectedAngleDegrees, 6);
      }
      for (const fracture of truth.fractures) {
        const ray = truth.rays.find((candidate) => candidate.ray === fracture.ray)!;
        expect(fracture.projectedAngleDegrees).toBe(ray.projectedAngleDegrees);
        expect(fracture.axesLessTurnDegrees).toBeCloseTo(
          fracture.spatialAngleDegrees - fracture.fragmentTurnDegrees,
          9,
        );
        const along = (axis: TruthAxis): boolean => {
          if (fracture.apex === null) return true;
          const [px, py] = [fracture.apex.column - axis.from.column, fracture.apex.row - axis.from.row];
          const [dx, dy] = [axis.to.column - axis.from.column, axis.to.row - axis.from.row];
          return Math.abs(px * dy - py * dx) < 1e-6 * Math.hypot(px, py) * Math.hypot(dx, dy) + 1e-6;
        };
        expect(along(ray.proximalAxis) && along(ray.distalAxis)).toBe(true);
      }
    }
  });

  it('tells the turn of a fragment from the angle between axes', () => {
    const fracture = { ray: 'small', region: 'neck', apexDorsalDegrees: 30 } as const;
    const turned = truthOf({ fractures: [{ ...fracture, angleMeaning: 'fragment-turn' }] }, 8).fractures[0]!;
    expect(turned.fragmentTurnDegrees).toBeCloseTo(30, 6);
    // The neck's own tilt is there before anything breaks and adds to every reading.
    expect(turned.axesLessTurnDegrees).toBeGreaterThan(5);
    const between = truthOf({ fractures: [fracture] }, 8).fractures[0]!;
    expect(between.spatialAngleDegrees).toBeCloseTo(30, 6);
    expect(between.fragmentTurnDegrees).toBeLessThan(25);
  });

  it('shortens a bone by what is asked', () => {
    const request = (shorteningMm: number) =>
      truthOf(
        {
          fractures: [
            { ray: 'ring', region: 'shaft', angleMeaning: 'fragment-turn', gapMm: 0, shorteningMm },
          ],
        },
        3,
      );
    // The line from base to head runs within a few degrees of the shaft's axis.
    expect(request(0).fractures[0]!.lengthLostMm).toBeCloseTo(0, 9);
    expect(Math.abs(request(4).fractures[0]!.lengthLostMm - 4)).toBeLessThan(0.06);
  });

  it('draws metacarpals as long as published', () => {
    // Buryanov & Kotiuk, Int J Morphol 2010;28:755, table I: the source of MEAN_LENGTHS_MM, typed again.
    const published = { thumb: 46.22, index: 68.12, middle: 64.6, ring: 58, small: 53.69 };
    const hands = 60;
    for (const ray of PHANTOM_RAYS) expect(MEAN_LENGTHS_MM[ray][0]).toBe(published[ray]);
    const sums = { thumb: 0, index: 0, middle: 0, ring: 0, small: 0 };
    for (let seed = 0; seed < hands; seed += 1) {
      const sex = seed % 2 === 0 ? 'male' : 'female';
      for (const ray of truthOf({ hand: { sex } }, 1000 + seed).rays) sums[ray.ray] += ray.lengthMm / hands;
    }
    const both = (SEX_FACTOR.male + SEX_FACTOR.female) / 2;
    for (const ray of PHANTOM_RAYS) {
      // Three standard errors of a mean of 60 with a spread of 5.4 %, and the bow that a chord cuts off.
      expect(Math.abs(sums[ray] / (published[ray] * both) - 1)).toBeLessThan(0.028);
    }
  });

  it('bends unbroken ring and small fingers as computed tomography finds them', () => {
    // Rivlin, Hand 2015;10:756: mean angle of the head's axis to the shaft's 14° (ring) and 12° (small).
    const mean = { ring: 0, small: 0 };
    for (let seed = 0; seed < 40; seed += 1) {
      for (const ray of truthOf({}, 2000 + seed).rays) {
        if (ray.ray === 'ring' || ray.ray === 'small') mean[ray.ray] += ray.spatialAngleDegrees / 40;
      }
    }
    expect(Math.abs(mean.ring - 14)).toBeLessThan(2);
    expect(Math.abs(mean.small - 12)).toBeLessThan(2);
  });

  it('mirrors a left hand', () => {
    const request: InventedFilmRequest = {
      fractures: [{ ray: 'small', region: 'neck', apexDorsalDegrees: 40 }],
    };
    const right = truthOf({ ...request, hand: { side: 'right' }, view: { turnDegrees: 97 } }, 4);
    const left = truthOf({ ...request, hand: { side: 'left' }, view: { turnDegrees: 97 } }, 4);
    for (const [i, ray] of right.rays.entries()) {
      expect(left.rays[i]!.headCentre.column).toBeCloseTo(right.columns - ray.headCentre.column, 6);
      expect(left.rays[i]!.headCentre.row).toBeCloseTo(ray.headCentre.row, 6);
      expect(left.rays[i]!.dorsal.columns).toBeCloseTo(-ray.dorsal.columns, 9);
      expect(left.rays[i]!.projectedAngleDegrees).toBeCloseTo(ray.projectedAngleDegrees, 6);
    }
    // Seen from the radial side with the fingers up, the back of a right hand is on the viewer's right.
    expect(right.rays[4]!.dorsal.columns).toBeGreaterThan(0.8);
  });

  it('tilts an apex-dorsal head to the volar side of the film', () => {
    const at = (apexDorsalDegrees: number) =>
      truthOf(
        {
          view: { turnDegrees: 90 },
          film: { framing: 'metacarpals' },
          fractures: [{ ray: 'middle', region: 'neck', apexDorsalDegrees }],
        },
        6,
      ).rays[2]!;
    const [straight, bent] = [at(12), at(50)];
    const towardsDorsal = (bent.headCentre.column - straight.headCentre.column) * straight.dorsal.columns;
    expect(towardsDorsal).toBeLessThan(0);
  });

  it('magnifies by source-to-detector over source-to-object distance', () => {
    // 1000 mm and an object 20 mm above the detector: 1000/980 = 1.0204.
    const truth = truthOf(
      {
        extras: { knownObject: { shape: 'ball', diameterMm: 20, heightMm: 20 } },
        film: { statedPlane: 'patient' },
      },
      2,
    );
    expect(truth.knownObject!.magnification).toBeCloseTo(1.0204, 4);
    expect(truth.knownObject!.diameterPixels).toBeCloseTo((20 * 1.0204) / truth.pitchMm, 2);
    expect(truth.magnification).toBeGreaterThan(1.01);
    expect(truth.magnification).toBeLessThan(1.06);
    expect(truth.statedSpacingMm * truth.magnification).toBeCloseTo(truth.pitchMm, 12);
  });
});
