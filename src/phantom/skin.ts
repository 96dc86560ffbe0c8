import type { SkinSegment } from './bone-part.ts';
import type { RayBone } from './ray-bone.ts';
import type { PhantomRay } from './spec.ts';
import { add, type Placing, place, scale, type Vector } from './vector.ts';

/** Radii of the skin at the knuckle, the joints and the tip of a mean hand, mm; from memory. */
const FINGER_RADII: Readonly<Record<PhantomRay, readonly number[]>> = {
  thumb: [12.5, 10.8, 8.2],
  index: [11.2, 9.4, 8.2, 6.6],
  middle: [11.2, 9.6, 8.3, 6.7],
  ring: [10.6, 9, 7.9, 6.4],
  small: [9.6, 8, 7.1, 5.7],
};
const GROUPS: Readonly<Record<PhantomRay, number>> = { thumb: 1, index: 2, middle: 3, ring: 4, small: 5 };

/** Thickness of the pulp beyond the last bone; means of Buryanov & Kotiuk 2010, table I. */
const PULP_MM = 3.9;

/**
 * How far cones reach out to each other, mm; from memory of hands. The ball of the small finger stands
 * out of the palm, so little of the hollow beside it fills up.
 */
const PALM_BLEND_MM = 14;
const BALL_BLEND_MM = 6;
const JOINT_BLEND_MM = 3;

/** Up to where along the first bone of a finger the palm reaches, as a share of it; from memory. */
const WEB_SHARE = 0.34;

/**
 * Skin of one finger: a cone from joint to joint. Bone lies nearer the back than the front, so the middle of
 * each cone lies a little to the front of the joints.
 *
 * @param joints - Centre of the knuckle, of each joint, and the tip of the last bone.
 * @param end - Directions of the last phalanx.
 */
export function fingerSkin(
  ray: PhantomRay,
  joints: readonly Vector[],
  end: Placing,
  size: number,
): SkinSegment[] {
  const radii = FINGER_RADII[ray].map((radius) => radius * size);
  const front = scale(end.dorsal, -1);
  const segments: SkinSegment[] = [];
  const centres = joints.map((joint, i) => {
    const last = i === joints.length - 1;
    const forward = (last ? 0.6 : 1.5) * size;
    const back = last ? -(radii[i]! - PULP_MM) : 0;
    return add(add(joint, scale(front, forward)), scale(end.distal, back));
  });
  for (let i = 0; i + 1 < centres.length; i += 1) {
    segments.push({
      from: centres[i]!,
      to: centres[i + 1]!,
      radiusFrom: radii[i]!,
      radiusTo: radii[i + 1]!,
      group: GROUPS[ray],
      blendMm: JOINT_BLEND_MM,
    });
  }
  if (ray === 'thumb') return segments;
  // The palm goes up between the fingers as webs: counted to it, so that neighbours grow together.
  const [knuckle, joint] = [centres[0]!, centres[1]!];
  const web = add(scale(knuckle, 1 - WEB_SHARE), scale(joint, WEB_SHARE));
  const radius = 0.86 * radii[0]!;
  return [
    ...segments,
    { from: knuckle, to: web, radiusFrom: radius, radiusTo: 0.85 * radius, group: 0, blendMm: PALM_BLEND_MM },
  ];
}

/** Points beside the metacarpals, and in the hand, of a hand of this size. */
function placesIn(rays: readonly RayBone[], size: number) {
  const at = (ray: PhantomRay, share: number, forward: number, ulnar = 0): Vector => {
    const bone = rays.find((candidate) => candidate.ray === ray)!;
    return place(bone.placing, [ulnar * size, share * bone.tube.lengthMm, -forward * size]);
  };
  const point = (x: number, y: number, z: number): Vector => scale([x, y, z], size);
  return { at, point };
}

/** Something round that a film makes room for. */
export interface Ball {
  readonly centre: Vector;
  readonly radius: number;
}

/**
 * What stands for the palm where a hand is placed on a film. The skin is not asked: its shape may become more
 * like a hand's, and no bone of a film that has been invented before may move for that.
 */
export function palmBalls(rays: readonly RayBone[], size: number): Ball[] {
  const { at, point } = placesIn(rays, size);
  const ball = (centre: Vector, radius: number): Ball => ({ centre, radius: radius * size });
  return [
    ball(at('index', -0.15, 4), 12.4),
    ball(at('index', 0.9, 3.2), 10.4),
    ball(at('middle', -0.2, 4.5), 12.8),
    ball(at('middle', 0.92, 3.4), 10.4),
    ball(at('ring', -0.2, 4.5), 12.2),
    ball(at('ring', 0.92, 3.2), 9.8),
    ball(at('small', -0.1, 4.5), 12.2),
    ball(at('small', 0.9, 2.8), 9.8),
    ball(at('small', 0.55, 8, 1), 10),
    ball(at('thumb', -0.1, 1.5, 2), 13.5),
    ball(at('thumb', 0.25, 4, 6), 12.5),
    ball(at('thumb', 0.92, 1, 1), 11.6),
    ball(at('middle', 0.35, 9), 10),
    ball(point(18, -12, -11), 11.5),
    ball(point(-9.5, -14, -5), 15.5),
    ball(point(9.5, -12, -5.5), 15),
  ];
}

/**
 * Palm, ball of the thumb, edge of the hand and forearm.
 *
 * Seen from the side all of the palm lies in one line, so no two of its cones may end at the same height: the
 * ball of the small finger is a narrow ridge in front of it, highest near its base and sinking to both ends.
 */
export function palmSkin(rays: readonly RayBone[], size: number): SkinSegment[] {
  const grown =
    (blendMm: number) =>
    (from: Vector, to: Vector, radiusFrom: number, radiusTo: number): SkinSegment => ({
      from,
      to,
      radiusFrom: radiusFrom * size,
      radiusTo: radiusTo * size,
      group: 0,
      blendMm,
    });
  const segment = grown(PALM_BLEND_MM);
  const ridge = grown(BALL_BLEND_MM);
  const { at, point } = placesIn(rays, size);
  return [
    segment(at('index', -0.15, 4), at('index', 0.9, 3.2), 12.4, 10.4),
    segment(at('middle', -0.2, 4.5), at('middle', 0.92, 3.4), 12.8, 10.4),
    segment(at('ring', -0.2, 3.5), at('ring', 0.92, 2.8), 11.8, 9.8),
    segment(at('small', -0.1, 2), at('small', 0.9, 2), 12, 10),
    // Ball of the thumb, towards the palm and the wrist.
    segment(at('thumb', -0.1, 1.5, 2), at('thumb', 0.92, 1, 1), 13.5, 11.6),
    segment(at('thumb', 0.15, 4, 4), at('middle', 0.25, 3), 11.5, 6),
    segment(at('thumb', 0.12, 4, 1), point(-4, -26, -9.5), 9.5, 8),
    // Edge of the hand.
    segment(at('small', -0.35, 2, -3), at('small', 0.08, 4), 8, 8.5),
    segment(at('small', 0.08, 4), at('small', 0.7, 2), 8.5, 7.5),
    // Web between thumb and index finger.
    segment(at('thumb', 0.6, 0, 5), at('index', 0.5, 4, -3), 8, 8.5),
    // Wrist and forearm.
    segment(point(-9.5, -14, -5), point(-8.5, -42, -4), 15.5, 14.8),
    segment(point(9.5, -12, -5.5), point(9.5, -42, -3.5), 15, 14.4),
    segment(point(-8.5, -42, -4), point(-10, -250, -6), 14.8, 22),
    segment(point(9.5, -42, -3.5), point(11.5, -250, -6), 14.4, 22),
    // Ball of the small finger.
    ridge(at('small', -0.5, 4.5, -4), at('small', -0.1, 11.5, -2), 3, 5),
    ridge(at('small', -0.1, 11.5, -2), at('small', 0.2, 13.8, -2), 5, 5.5),
    ridge(at('small', 0.2, 13.8, -2), at('small', 0.48, 11, -2), 5.5, 5),
    ridge(at('small', 0.48, 11, -2), at('small', 0.9, 3, -2), 5, 3),
  ];
}
