import { cosine, sine } from './exact-maths.ts';

/** A point or direction in millimetres. */
export type Vector = readonly [x: number, y: number, z: number];

export const add = (p: Vector, q: Vector): Vector => [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
export const subtract = (p: Vector, q: Vector): Vector => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
export const scale = (p: Vector, factor: number): Vector => [p[0] * factor, p[1] * factor, p[2] * factor];
export const dot = (p: Vector, q: Vector): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];
export const lengthOf = (p: Vector): number => Math.sqrt(dot(p, p));
export const unit = (p: Vector): Vector => scale(p, 1 / lengthOf(p));
export const cross = (p: Vector, q: Vector): Vector => [
  p[1] * q[2] - p[2] * q[1],
  p[2] * q[0] - p[0] * q[2],
  p[0] * q[1] - p[1] * q[0],
];

/**
 * A rigid placing: local (ulnar, distal, dorsal) coordinates to those of the hand. `ulnar`, `distal` and
 * `dorsal` are unit vectors at right angles; ulnar × distal = dorsal.
 */
export interface Placing {
  readonly origin: Vector;
  readonly ulnar: Vector;
  readonly distal: Vector;
  readonly dorsal: Vector;
}

export const AT_REST: Placing = {
  origin: [0, 0, 0],
  ulnar: [1, 0, 0],
  distal: [0, 1, 0],
  dorsal: [0, 0, 1],
};

export const turnOnly = (placing: Placing, p: Vector): Vector => [
  placing.ulnar[0] * p[0] + placing.distal[0] * p[1] + placing.dorsal[0] * p[2],
  placing.ulnar[1] * p[0] + placing.distal[1] * p[1] + placing.dorsal[1] * p[2],
  placing.ulnar[2] * p[0] + placing.distal[2] * p[1] + placing.dorsal[2] * p[2],
];

export const place = (placing: Placing, p: Vector): Vector => add(placing.origin, turnOnly(placing, p));

/** The placing that does `inner` first, then `outer`. */
export const compose = (outer: Placing, inner: Placing): Placing => ({
  origin: place(outer, inner.origin),
  ulnar: turnOnly(outer, inner.ulnar),
  distal: turnOnly(outer, inner.distal),
  dorsal: turnOnly(outer, inner.dorsal),
});

/** Degrees to radians for the maths of this folder. */
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Turn about the ulnar axis by degrees: positive flexes, the distal direction goes volar. */
export function flexion(degrees: number): Placing {
  const c = cosine(radians(degrees));
  const s = sine(radians(degrees));
  return { origin: [0, 0, 0], ulnar: [1, 0, 0], distal: [0, c, -s], dorsal: [0, s, c] };
}

/** Turn about the dorsal axis by degrees: positive takes the distal direction to the ulnar side. */
export function ulnarDeviation(degrees: number): Placing {
  const c = cosine(radians(degrees));
  const s = sine(radians(degrees));
  return { origin: [0, 0, 0], ulnar: [c, -s, 0], distal: [s, c, 0], dorsal: [0, 0, 1] };
}

export const shifted = (origin: Vector): Placing => ({ ...AT_REST, origin });

/** The placing with its long axis from `base` to `tip` and its dorsal side as near as may be to `dorsal`. */
export function along(base: Vector, tip: Vector, dorsal: Vector): Placing {
  const distal = unit(subtract(tip, base));
  const ulnar = unit(cross(distal, dorsal));
  return { origin: base, ulnar, distal, dorsal: cross(ulnar, distal) };
}
