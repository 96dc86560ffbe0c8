import {
  type BonePart,
  callusPart,
  chipParts,
  nailPart,
  type SkinSegment,
  sesamoidPart,
  starPart,
} from './bone-part.ts';
import { CARPALS } from './carpals.ts';
import { forearmBones } from './forearm.ts';
import { breakBone, headCentre } from './fracture.ts';
import { grownParts } from './grown-parts.ts';
import { type GrowthPlate, growthPlate } from './growth-plate.ts';
import { drawHandForm, type HandForm } from './hand-form.ts';
import { type HandPose, handPose, METACARPAL_PLACES } from './hand-pose.ts';
import { distalPhalanx, metacarpal, phalanx } from './long-bones.ts';
import { seededRandom } from './random.ts';
import type { RayBone } from './ray-bone.ts';
import { fingerSkin, palmSkin } from './skin.ts';
import { type InventedFilmSpec, PHANTOM_RAYS, type PhantomRay } from './spec.ts';
import { type Tube, WHOLE } from './tube.ts';
import {
  add,
  along,
  compose,
  cross,
  flexion,
  type Placing,
  place,
  scale,
  shifted,
  turnOnly,
  ulnarDeviation,
  unit,
  type Vector,
} from './vector.ts';

/** Everything of one invented hand that a film could show, in the hand's own coordinates. */
export interface Hand {
  readonly form: HandForm;
  readonly rays: readonly RayBone[];
  readonly parts: readonly BonePart[];
  readonly skin: readonly SkinSegment[];
}

/** The power mean of faces rounds a carpal's corners off; this gives it back its breadth. */
const CARPAL_SIZE = 1.07;

/** Cartilage of both bones of a finger joint together, mm. */
const JOINT_SPACE = 1.5;

/** Builds the hand a spec and a seed describe. */
export function buildHand(spec: InventedFilmSpec, filmSeed: number): Hand {
  const form = drawHandForm(spec.hand, seededRandom(filmSeed, 'form'));
  const pose = handPose(spec);
  const rays = PHANTOM_RAYS.map((ray) => rayBone(ray, spec, form, pose, filmSeed));
  const parts: BonePart[] = [];
  const skin: SkinSegment[] = [];
  for (const bone of rays) {
    parts.push(...metacarpalParts(bone, filmSeed));
    const finger = fingerParts(bone, spec, form, pose, filmSeed);
    parts.push(...finger.parts);
    skin.push(...finger.skin);
  }
  const { scale: size } = form;
  CARPALS.forEach(({ name, placing, solid, roundness }, i) => {
    const there = { ...placing, origin: scale(placing.origin, size) };
    parts.push(starPart(name, there, solid, roundness, CARPAL_SIZE * size, filmSeed + i));
  });
  for (const { name, tube, placing, plateFromHeadMm, halfWidthMm } of forearmBones(
    spec.hand.boneDensity,
    size,
  )) {
    const plate = plateIf(spec, filmSeed, name, tube, 'head', plateFromHeadMm, halfWidthMm);
    parts.push(...grownParts(name, null, placing, tube, WHOLE, plate, filmSeed));
  }
  skin.push(...palmSkin(rays, size));
  const { onlyRay } = spec.extras;
  if (onlyRay === null) return { form, rays, parts, skin };
  const kept = parts.filter((part) => part.ray === onlyRay && part.name.startsWith('metacarpal'));
  return { form, rays, parts: kept, skin: [] };
}

/** A bone's growth plate in a hand that has them; drawn from a stream of its own, so that nothing else moves. */
const plateIf = (
  spec: InventedFilmSpec,
  filmSeed: number,
  name: string,
  tube: Tube,
  end: GrowthPlate['end'],
  fromEndMm: number,
  halfWidthMm: number,
): GrowthPlate | null =>
  spec.hand.openGrowthPlates === true
    ? growthPlate(tube, end, fromEndMm, halfWidthMm, seededRandom(filmSeed, `plate of ${name}`))
    : null;

function rayBone(
  ray: PhantomRay,
  spec: InventedFilmSpec,
  form: HandForm,
  pose: HandPose,
  filmSeed: number,
): RayBone {
  const build = form.metacarpals[ray];
  const tube = metacarpal(build, ray);
  const where = METACARPAL_PLACES[ray];
  const base = scale(where.base, form.scale);
  const towards = ray === 'thumb' ? pose.thumb : where.towards;
  const dorsal = ray === 'thumb' ? pose.thumbDorsal : where.dorsal;
  const fracture = spec.fractures.find((candidate) => candidate.ray === ray);
  const name = `metacarpal ${ray}`;
  return {
    ray,
    tube,
    headRadius: build.headRadius,
    placing: along(base, add(base, towards), dorsal),
    broken:
      fracture === undefined
        ? null
        : breakBone(tube, build.headRadius, fracture, seededRandom(filmSeed, `break of ${ray}`)),
    // Common anatomy, no source: a metacarpal grows at its head, the thumb's, like a phalanx, at its base.
    plate:
      ray === 'thumb'
        ? plateIf(spec, filmSeed, name, tube, 'base', 0.72 * build.base[0], build.base[0])
        : plateIf(spec, filmSeed, name, tube, 'head', 1.3 * build.headRadius, build.headUlnarRadius),
  };
}

function metacarpalParts(bone: RayBone, filmSeed: number): BonePart[] {
  const { ray, tube, placing, broken, plate } = bone;
  const name = `metacarpal ${ray}`;
  if (broken === null) return grownParts(name, ray, placing, tube, WHOLE, plate, filmSeed);
  const proximal = { from: null, to: broken.proximalSurface };
  const distal = { from: broken.distalSurface, to: null };
  const moved = compose(placing, broken.motion);
  const parts = [
    ...grownParts(`${name} proximal fragment`, ray, placing, tube, proximal, plate, filmSeed),
    ...grownParts(`${name} distal fragment`, ray, moved, tube, distal, plate, filmSeed),
  ];
  if (broken.wedgeSurface !== null) {
    const wedge = { from: broken.proximalSurface, to: broken.wedgeSurface };
    const away = compose(placing, shifted([0.4, -0.3, -1.3]));
    parts.push(...grownParts(`${name} third fragment`, ray, away, tube, wedge, plate, filmSeed));
  }
  parts.push(...chipParts(bone, seededRandom(filmSeed, `chips of ${ray}`)));
  const callus = callusPart(bone);
  if (callus !== null) parts.push(callus);
  return parts;
}

/** The phalanges of one finger, hung joint by joint from the head of its metacarpal, with their skin. */
function fingerParts(
  bone: RayBone,
  spec: InventedFilmSpec,
  form: HandForm,
  pose: HandPose,
  filmSeed: number,
): { parts: BonePart[]; skin: SkinSegment[] } {
  const { ray, broken } = bone;
  const parts: BonePart[] = [];
  const frame = broken === null ? bone.placing : compose(bone.placing, broken.motion);
  let centre = place(frame, headCentre(bone.tube, bone.headRadius));
  // The finger keeps part of its direction when the head below it tilts: the knuckle opens to the back.
  const claw = broken === null ? 0 : Math.min(32, 0.62 * broken.swingDorsalDegrees);
  let turn: Placing = { ...frame, origin: [0, 0, 0] };
  let reach = bone.headRadius;
  const joints: Vector[] = [centre];
  const { flexion: bends, spread } = pose.fingers[ray];
  form.phalanges[ray].forEach((build, i) => {
    turn = compose(turn, i === 0 ? ulnarDeviation(spread) : flexion(0));
    turn = compose(turn, flexion((bends[i] ?? 0) - (i === 0 ? claw : 0)));
    const last = i === form.phalanges[ray].length - 1;
    const origin = add(centre, scale(turn.distal, reach + JOINT_SPACE - 1));
    const placing = { ...turn, origin };
    const tube = last ? distalPhalanx(build) : phalanx(build);
    const name = `phalanx ${i + 1} ${ray}`;
    const plate = plateIf(spec, filmSeed, name, tube, 'base', 0.55 * build.base[0], build.base[0]);
    parts.push(...grownParts(name, ray, placing, tube, WHOLE, plate, filmSeed + i));
    reach = build.head[1];
    centre = place(placing, [0, build.lengthMm - (last ? 0 : reach), 0]);
    joints.push(centre);
    if (i === 0 && (ray === 'thumb' || ray === 'small')) {
      parts.push(...sesamoids(bone, frame, form.scale, filmSeed));
    }
    if (last) parts.push(nail(ray, placing, build.lengthMm, form.scale));
  });
  return { parts, skin: fingerSkin(ray, joints, turn, form.scale) };
}

function sesamoids(bone: RayBone, frame: Placing, size: number, filmSeed: number): BonePart[] {
  const head = headCentre(bone.tube, bone.headRadius);
  const sides = bone.ray === 'thumb' ? [-1, 1] : [-1];
  return sides.map((side) => {
    const radius = (bone.ray === 'thumb' ? 2.7 : 1.9) * size;
    const local = add(head, [side * 3.7 * size, 1.2, -bone.headRadius - 0.55 * radius]);
    const there = { ...frame, origin: place(frame, local) };
    return sesamoidPart(bone.ray, there, radius, filmSeed + side);
  });
}

function nail(ray: PhantomRay, placing: Placing, lengthMm: number, size: number): BonePart {
  const middle = place(placing, [0, lengthMm * 0.74, 5 * size]);
  const distal = unit(add(placing.distal, turnOnly(placing, [0, 0, -0.2])));
  const ulnar = unit(cross(distal, placing.dorsal));
  const there = { origin: middle, ulnar, distal, dorsal: cross(ulnar, distal) };
  return nailPart(ray, there, size);
}
