import type { InventedFilmSpec, PhantomRay } from './spec.ts';
import type { Vector } from './vector.ts';

/** Joint angles of a finger in degrees: knuckle, middle and end joint; `spread` towards the ulnar side. */
interface FingerPose {
  readonly flexion: readonly number[];
  readonly spread: number;
}

export interface HandPose {
  readonly fingers: Readonly<Record<PhantomRay, FingerPose>>;
  /** Direction of the thumb's metacarpal and of its dorsal side. */
  readonly thumb: Vector;
  readonly thumbDorsal: Vector;
}

const POSES: Readonly<Record<'flat' | 'fan' | 'half-flexed', HandPose>> = {
  flat: {
    fingers: {
      thumb: { flexion: [10, 8], spread: 0 },
      index: { flexion: [1, 4, 3], spread: 3.5 },
      middle: { flexion: [0, 4, 3], spread: 0 },
      ring: { flexion: [0, 4, 3], spread: -1 },
      small: { flexion: [0, 5, 3], spread: 4 },
    },
    thumb: [-0.64, 0.73, -0.13],
    thumbDorsal: [-0.62, -0.3, 0.62],
  },
  // The lateral with the fingers fanned: each a little more bent than the next, so that they do not hide
  // one another.
  fan: {
    fingers: {
      thumb: { flexion: [14, 16], spread: 0 },
      index: { flexion: [36, 40, 22], spread: 1 },
      middle: { flexion: [22, 24, 12], spread: 0 },
      ring: { flexion: [9, 12, 6], spread: -1 },
      small: { flexion: [-4, 8, 4], spread: -2 },
    },
    thumb: [-0.22, 0.46, -0.86],
    thumbDorsal: [-0.9, -0.2, 0.25],
  },
  'half-flexed': {
    fingers: {
      thumb: { flexion: [18, 20], spread: 0 },
      index: { flexion: [48, 30, 16], spread: 0 },
      middle: { flexion: [50, 32, 16], spread: 0 },
      ring: { flexion: [50, 34, 18], spread: 0 },
      small: { flexion: [48, 34, 18], spread: 0 },
    },
    thumb: [-0.46, 0.66, -0.6],
    thumbDorsal: [-0.8, -0.2, 0.35],
  },
};

/** How the fingers are held: as the spec says, else fanned out where the hand is turned by 25 to 155°, and flat otherwise. */
export function handPose(spec: InventedFilmSpec): HandPose {
  const turn = Math.abs(spec.view.turnDegrees);
  const usual = turn > 25 && turn < 155 ? 'fan' : 'flat';
  return POSES[spec.hand.pose ?? usual];
}

/**
 * Where the metacarpals stand in a mean hand: base and head end from the base of the middle one, and how far
 * their dorsal sides lean to the ulnar side. The heads' places follow Buchholz, Ergonomics 1992;35:261 as
 * quoted in later work; the arch is from memory. The thumb's end comes from its pose.
 */
export const METACARPAL_PLACES: Readonly<
  Record<PhantomRay, { readonly base: Vector; readonly towards: Vector; readonly dorsal: Vector }>
> = {
  thumb: { base: [-24, -2.2, -11], towards: [0, 1, 0], dorsal: [0, 0, 1] },
  index: { base: [-12.2, -1.4, -0.8], towards: [-8.8, 67.5, -0.6], dorsal: [-0.12, 0, 1] },
  middle: { base: [0, 0, 0], towards: [0.6, 64.6, 0], dorsal: [0, 0, 1] },
  ring: { base: [10.6, -1.6, -1.6], towards: [6.8, 57.6, -1.2], dorsal: [0.14, 0, 1] },
  small: { base: [19.6, -4.2, -4.4], towards: [11.6, 52.3, -2.6], dorsal: [0.2, 0, 1] },
};
