import { lookUp } from './curve.ts';
import { between, type Random } from './random.ts';
import type { RayBone } from './ray-bone.ts';
import type { Fineness, RingMesh } from './ring-mesh.ts';
import type { PhantomRay } from './spec.ts';
import { boxSolid, roundSolid, type StarSolid, starMesh } from './star-solid.ts';
import { centrePoint, type Stretch, TABLE_PER_MM, type Tube, tubeMesh } from './tube.ts';
import { add, along, compose, type Placing, place, type Vector } from './vector.ts';

/** One solid piece of the hand as the renderer needs it. */
export interface BonePart {
  readonly name: string;
  readonly ray: PhantomRay | null;
  readonly placing: Placing;
  /** Meshes in the part's own coordinates; `inner` null for a piece without a marrow cavity. */
  readonly surfaces: (fineness: Fineness) => PartSurfaces | null;
  /** Share of cortical bone in the shell; 1 is solid. */
  readonly shellShare: number;
  /** Share of bone in the cavity: one value, or a table by `TABLE_PER_MM` along the part's distal axis. */
  readonly cancellous: number | Float64Array;
  /** Which trabecular pattern, and where in it the part lies. */
  readonly grain: 'round' | 'long';
  readonly textureSeed: number;
}

interface PartSurfaces {
  readonly outer: RingMesh;
  readonly inner: RingMesh | null;
}

/** A stretch of skin: a cone with round ends. Groups 1 to 5 are the fingers; 0 the palm and forearm. */
export interface SkinSegment {
  readonly from: Vector;
  readonly to: Vector;
  readonly radiusFrom: number;
  readonly radiusTo: number;
  readonly group: number;
  /** How far it reaches out to the others of its group, mm: where two meet, the hollow between them fills up. */
  readonly blendMm: number;
}

/** @param cavity - Stretch of the marrow cavity, where it ends before the bone does. */
export function tubePart(
  name: string,
  ray: PhantomRay | null,
  placing: Placing,
  tube: Tube,
  stretch: Stretch,
  textureSeed: number,
  cavity = stretch,
): BonePart {
  return {
    name,
    ray,
    placing,
    surfaces: (fineness) => {
      const outer = tubeMesh(tube, 'outer', stretch, fineness);
      return outer === null ? null : { outer, inner: tubeMesh(tube, 'inner', cavity, fineness) };
    },
    shellShare: 0.96,
    cancellous: tube.cancellous,
    grain: 'long',
    textureSeed,
  };
}

const scaled = (mesh: RingMesh, size: number): RingMesh => ({
  ...mesh,
  points: mesh.points.map((value) => value * size),
});

const roundFineness = (fineness: Fineness): number => Math.max(14, Math.round(fineness.around * 0.85));

/** A carpal: a thin shell full of cancellous bone. */
export function starPart(
  name: string,
  placing: Placing,
  solid: StarSolid,
  roundness: 'ball' | 'soft' | 'firm',
  size: number,
  textureSeed: number,
): BonePart {
  const uneven = { ...solid, lumps: 1 + (textureSeed % 97) };
  return {
    name,
    ray: null,
    placing,
    surfaces: (fineness) => {
      const around = roundFineness(fineness);
      return {
        outer: scaled(starMesh(uneven, 0, roundness, around), size),
        // Another unevenness within: the shell is thick where the bone bears load, thin elsewhere.
        inner: scaled(starMesh({ ...uneven, lumps: uneven.lumps + 0.55 }, 0.42, roundness, around), size),
      };
    },
    shellShare: 0.85,
    cancellous: 0.27,
    grain: 'round',
    textureSeed,
  };
}

/** A sesamoid of a ray, rounded, from its radius in mm. */
export function sesamoidPart(
  ray: PhantomRay,
  placing: Placing,
  radius: number,
  textureSeed: number,
): BonePart {
  const solid = roundSolid(radius * 0.85, radius * 1.1, radius * 0.75);
  return {
    name: `sesamoid ${ray}`,
    ray,
    placing,
    surfaces: (fineness) => {
      const around = Math.max(12, Math.round(fineness.around / 2));
      return {
        outer: starMesh(solid, 0, 'ball', around),
        inner: starMesh(solid, 0.5, 'ball', around),
      };
    },
    shellShare: 0.9,
    cancellous: 0.34,
    grain: 'round',
    textureSeed,
  };
}

/** A nail: a thin curved plate, little denser than skin. */
export function nailPart(ray: PhantomRay, placing: Placing, size: number): BonePart {
  const solid = roundSolid(4.9 * size, 5.6 * size, 0.42);
  return {
    name: `nail ${ray}`,
    ray,
    placing,
    surfaces: (fineness) => ({
      outer: starMesh(solid, 0, 'ball', Math.max(16, Math.round(fineness.around / 2))),
      inner: null,
    }),
    shellShare: 0.12,
    cancellous: 0,
    grain: 'round',
    textureSeed: 0,
  };
}

/** Loose chips of cortex round a comminuted break. */
export function chipParts(bone: RayBone, random: Random): BonePart[] {
  const { broken, tube, ray } = bone;
  if (broken === null || broken.spec.fragments !== 'comminuted') return [];
  const half = lookUp(tube.outer.halfDorsal, TABLE_PER_MM, broken.placeMm);
  return Array.from({ length: 4 }, (_, n) => {
    const across = between(random, -half, half);
    const middle = add(centrePoint(tube, broken.placeMm + between(random, -2.5, 3.5)), [
      across,
      0,
      -half * between(random, 0.5, 1.2),
    ]);
    const size = between(random, 0.9, 1.9);
    const sides = (): number => size * between(random, 0.6, 1.4);
    const solid = boxSolid(
      { ulnar: sides(), radial: sides(), distal: 1.5 * sides(), proximal: sides(), dorsal: 0.8, volar: 0.8 },
      [[[1, 1, 0.4], size]],
    );
    const lean: Vector = [between(random, -0.5, 0.5), 1, between(random, -0.5, 0.5)];
    return {
      name: `metacarpal ${ray} chip ${n + 1}`,
      ray,
      placing: compose(bone.placing, along(middle, add(middle, lean), [0, 0, 1])),
      surfaces: () => ({ outer: starMesh(solid, 0, 'firm', 16), inner: null }),
      shellShare: 0.8,
      cancellous: 0,
      grain: 'round' as const,
      textureSeed: n,
    };
  });
}

/** Callus: a cuff of faint new bone, thickest on the side away from the hinge. */
export function callusPart(bone: RayBone): BonePart | null {
  const { broken, tube } = bone;
  if (broken === null || broken.spec.callus === 0) return null;
  const { callus } = broken.spec;
  const ulnar = lookUp(tube.outer.halfUlnar, TABLE_PER_MM, broken.placeMm) + 2.4 * callus;
  const dorsal = lookUp(tube.outer.halfDorsal, TABLE_PER_MM, broken.placeMm) + 2.8 * callus;
  const solid = roundSolid(ulnar, 8 + 5 * callus, dorsal);
  const middle = place(bone.placing, centrePoint(tube, broken.placeMm));
  return {
    name: `metacarpal ${bone.ray} callus`,
    ray: bone.ray,
    placing: { ...bone.placing, origin: middle },
    surfaces: (fineness) => ({ outer: starMesh(solid, 0, 'soft', roundFineness(fineness)), inner: null }),
    shellShare: 0.16 * callus,
    cancellous: 0,
    grain: 'round',
    textureSeed: 1,
  };
}
