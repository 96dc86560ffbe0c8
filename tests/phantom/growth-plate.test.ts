import { describe, expect, it } from 'vitest';
import { buildHand } from '../../src/phantom/hand.ts';
import type { InventedFilm } from '../../src/phantom/invent.ts';
import { type InventedFilmRequest, PHANTOM_RAYS } from '../../src/phantom/spec.ts';
import type { RayTruth } from '../../src/phantom/truth.ts';
import { alone, filmOf, SMALL, specOf, truthOf } from './make.ts';

type Ray = RayTruth['ray'];

const young = (request: InventedFilmRequest): InventedFilmRequest => ({
  ...request,
  hand: { ...request.hand, openGrowthPlates: true },
});

/**
 * Grey along a bone, from 5 mm proximal of a place to 5 mm distal of it, each value the mean over 4 mm across.
 * Without processing grey rises with what the ray has passed, so cartilage is a dip.
 */
function profileAt(film: InventedFilm, at: { column: number; row: number }, axis: RayTruth['distalAxis']) {
  const [dx, dy] = [axis.to.column - axis.from.column, axis.to.row - axis.from.row];
  const length = Math.hypot(dx, dy);
  const perMm = 1 / film.truth.pitchMm;
  const [ux, uy] = [(dx / length) * perMm, (dy / length) * perMm];
  return Array.from({ length: 101 }, (_, i) => {
    const mm = -5 + i * 0.1;
    let sum = 0;
    for (let k = -20; k <= 20; k += 1) {
      const column = at.column + mm * ux - k * 0.1 * uy;
      const row = at.row + mm * uy + k * 0.1 * ux;
      sum += film.pixels[Math.floor(row) * film.columns + Math.floor(column)]! / 41;
    }
    return { mm, grey: sum };
  });
}

const ofRay = (rays: readonly RayTruth[], ray: Ray): RayTruth => rays.find((one) => one.ray === ray)!;
/** From the middle of the base to that of the head. */
const lengthOf = ({ base, headCentre }: RayTruth) => ({ from: base, to: headCentre });
const mean = (values: readonly { grey: number }[]) =>
  values.reduce((sum, { grey }) => sum + grey, 0) / values.length;

/** Where the profile is least within 2 mm of the place, and how deep below the bone on either side. */
function dip(profile: ReturnType<typeof profileAt>) {
  const near = profile.filter(({ mm }) => Math.abs(mm) <= 2);
  const least = near.reduce((p, q) => (q.grey < p.grey ? q : p));
  const beside = (from: number, to: number) => mean(profile.filter(({ mm }) => mm >= from && mm <= to));
  const bone = Math.min(beside(-4, -1.5), beside(1.5, 4));
  // The grey scale flattens with density: half of the bone's attenuation is about seven tenths of its grey.
  const low = near.filter(({ grey }) => grey < 0.7 * bone);
  return { mm: least.mm, depth: 1 - least.grey / bone, widthMm: 0.1 * low.length };
}

describe('open growth plates', () => {
  // In the PA view, in which a hand's growth is looked at (common practice, no source); the small finger's bone
  // and the thumb's turned a little, so that they lie level with the film.
  it.each([
    ['index', 'head', 0],
    ['middle', 'head', 0],
    ['ring', 'head', 0],
    ['small', 'head', -13],
    ['thumb', 'base', 8],
  ] as const)(
    'are a lucent band across the %s metacarpal at its %s, where the truth says',
    (ray, end, turn) => {
      // Which end grows: common practice, no source.
      const film = filmOf(young(alone(ray, turn)), 3);
      const truth = ofRay(film.truth.rays, ray);
      const plate = truth.growthPlate!;
      expect(plate.end).toBe(end);
      const [far, near] = end === 'head' ? [truth.base, truth.headCentre] : [truth.headCentre, truth.base];
      const distance = (p: { column: number; row: number }) =>
        Math.hypot(p.column - plate.middle.column, p.row - plate.middle.row);
      expect(distance(near)).toBeLessThan(0.3 * distance(far));
      // A plate lies across the whole bone: common anatomy, no source.
      const axis = lengthOf(truth);
      const open = dip(profileAt(film, plate.middle, axis));
      expect(open.depth).toBeGreaterThan(0.5);
      expect(Math.abs(open.mm)).toBeLessThan(0.7);
      // Asked for: a band of about 1 to 1.5 mm; its waves blur it a little.
      expect(open.widthMm).toBeGreaterThan(0.7);
      expect(open.widthMm).toBeLessThan(2);
      // The same place of the same bone in a grown hand.
      const grown = dip(profileAt(filmOf(alone(ray, turn), 3), plate.middle, axis));
      expect(grown.depth).toBeLessThan(0.07);
    },
  );

  it('have a dense line on both sides', () => {
    const film = filmOf(young(alone('middle', 90)), 3);
    const truth = ofRay(film.truth.rays, 'middle');
    const profile = profileAt(film, truth.growthPlate!.middle, lengthOf(truth));
    const greatest = (from: number, to: number) =>
      Math.max(...profile.filter(({ mm }) => mm >= from && mm <= to).map(({ grey }) => grey));
    expect(greatest(-1.8, -0.5)).toBeGreaterThan(1.05 * greatest(-4.5, -2.5));
    expect(greatest(0.5, 1.8)).toBeGreaterThan(1.05 * greatest(2.5, 4.5));
  });

  it('lie in every long bone of the hand and in the forearm', () => {
    const partNames = (openGrowthPlates: boolean) =>
      buildHand(specOf({ hand: { openGrowthPlates } }), 1).parts.map(({ name }) => name);
    const ends = partNames(true).filter((name) => name.endsWith('epiphysis'));
    // Five metacarpals, fourteen phalanges, radius and ulna: common anatomy.
    expect(ends).toHaveLength(5 + 14 + 2);
    expect(ends).toContain('radius epiphysis');
    expect(partNames(false).some((name) => name.endsWith('epiphysis'))).toBe(false);
  });

  it('move no bone and change no angle', () => {
    const request: InventedFilmRequest = {
      fractures: [
        { ray: 'small', region: 'neck', apexDorsalDegrees: 40 },
        { ray: 'thumb', region: 'base', apexDorsalDegrees: 20 },
      ],
    };
    const grown = truthOf(request, 8);
    const { spec, rays, ...open } = truthOf(young(request), 8);
    const { spec: _, rays: grownRays, ...rest } = grown;
    expect(open).toEqual(rest);
    expect(spec.hand.openGrowthPlates).toBe(true);
    expect(rays.map(({ growthPlate, ...ray }) => ray)).toEqual(grownRays);
    expect(rays.every(({ growthPlate }) => growthPlate !== undefined)).toBe(true);
  });

  it('go with the fragment they lie in', () => {
    const broken = (shorteningMm: number, region: 'neck' | 'base') =>
      ofRay(
        truthOf(
          young({
            fractures: [{ ray: 'ring', region, angleMeaning: 'fragment-turn', gapMm: 0, shorteningMm }],
            beam: { kind: 'parallel' },
          }),
          8,
        ).rays,
        'ring',
      );
    // Seen from the front a finger's shaft lies in the film's plane within a few degrees: 4 mm stay 4 mm.
    for (const region of ['neck', 'base'] as const) {
      const [before, after] = [broken(0, region), broken(4, region)];
      const shift = (p: { column: number; row: number }, q: { column: number; row: number }) =>
        Math.hypot(p.column - q.column, p.row - q.row) * 0.125;
      expect(Math.abs(shift(before.growthPlate!.middle, after.growthPlate!.middle) - 4)).toBeLessThan(0.15);
    }
  });

  it('draw with every break, also one through the plate', () => {
    for (const [i, region] of (['head', 'neck', 'base'] as const).entries()) {
      const fractures = PHANTOM_RAYS.map((ray) => ({
        ray,
        region,
        apexDorsalDegrees: 25,
        fragments: i % 2 === 0 ? ('butterfly' as const) : ('comminuted' as const),
      }));
      const request = { fractures, film: SMALL, extras: { marker: false } };
      const [open, grown] = [filmOf(young(request), i), filmOf(request, i)];
      const sum = ({ pixels }: InventedFilm) => pixels.reduce((p, q) => p + q, 0);
      // Cartilage instead of a little bone: another film, and hardly another sum.
      expect(open.pixels).not.toEqual(grown.pixels);
      expect(Math.abs(sum(open) / sum(grown) - 1)).toBeLessThan(0.02);
    }
  });
});
