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
    });
  }
  return segments;
}

/** Palm, ball of the thumb, edge of the hand and forearm. */
export function palmSkin(rays: readonly RayBone[], size: number): SkinSegment[] {
  const segment = (from: Vector, to: Vector, radiusFrom: number, radiusTo: number): SkinSegment => ({
    from,
    to,
    radiusFrom: radiusFrom * size,
    radiusTo: radiusTo * size,
    group: 0,
  });
  const at = (ray: PhantomRay, share: number, forward: number, ulnar = 0): Vector => {
    const bone = rays.find((candidate) => candidate.ray === ray)!;
    return place(bone.placing, [ulnar * size, share * bone.tube.lengthMm, -forward * size]);
  };
  const point = (x: number, y: number, z: number): Vector => scale([x, y, z], size);
  return [
    segment(at('index', -0.15, 4), at('index', 0.9, 3.2), 12.4, 10.4),
    segment(at('middle', -0.2, 4.5), at('middle', 0.92, 3.4), 12.8, 10.4),
    segment(at('ring', -0.2, 4.5), at('ring', 0.92, 3.2), 12.2, 9.8),
    segment(at('small', -0.1, 4.5), at('small', 0.9, 2.8), 12.2, 9.8),
    // Ball of the thumb and ball of the small finger.
    segment(at('thumb', -0.1, 1.5, 2), at('thumb', 0.92, 1, 1), 13.5, 11.6),
    segment(at('thumb', 0.25, 4, 6), at('middle', 0.35, 9), 12.5, 10),
    segment(point(18, -12, -11), at('small', 0.55, 8, 1), 11.5, 10),
    // Web between thumb and index finger.
    segment(at('thumb', 0.6, 0, 5), at('index', 0.5, 4, -3), 8, 8.5),
    // Wrist and forearm.
    segment(point(-9.5, -14, -5), point(-8.5, -42, -4), 15.5, 14.8),
    segment(point(9.5, -12, -5.5), point(9.5, -42, -3.5), 15, 14.4),
    segment(point(-8.5, -42, -4), point(-9, -140, -5), 14.8, 18.5),
    segment(point(9.5, -42, -3.5), point(10.5, -140, -5), 14.4, 18.5),
  ];
}
