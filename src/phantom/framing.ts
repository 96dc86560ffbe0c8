import { type Camera, framed, turning } from './camera.ts';
import { MARKER_BOX, type PhantomSceneExtras } from './extras.ts';
import type { Hand } from './hand.ts';
import { type Ball, palmBalls } from './skin.ts';
import type { InventedFilmSpec } from './spec.ts';
import { centrePoint } from './tube.ts';
import { dot, place } from './vector.ts';

/** Free film beyond the fingertips, and how much of the forearm is wanted below the wrist, mm. */
const TOP_MARGIN = 8;
const FOREARM_MM = 14;

interface Extent {
  left: number;
  right: number;
  bottom: number;
  top: number;
  lowest: number;
}

function extentOf(balls: readonly Ball[], spec: InventedFilmSpec): Extent {
  const { right, up, towardsTube } = turning(spec);
  const extent = { left: 1e9, right: -1e9, bottom: 1e9, top: -1e9, lowest: 1e9 };
  for (const { centre, radius } of balls) {
    const x = dot(right, centre);
    const y = dot(up, centre);
    extent.left = Math.min(extent.left, x - radius);
    extent.right = Math.max(extent.right, x + radius);
    extent.bottom = Math.min(extent.bottom, y - radius);
    extent.top = Math.max(extent.top, y + radius);
    extent.lowest = Math.min(extent.lowest, dot(towardsTube, centre) - radius);
  }
  return extent;
}

const metacarpalBalls = (hand: Hand, only: string | null): Ball[] =>
  hand.rays
    .filter((bone) => only === null || bone.ray === only)
    .flatMap((bone) =>
      [0, 0.5, 1].map((share) => ({
        centre: place(bone.placing, centrePoint(bone.tube, share * bone.tube.lengthMm)),
        radius: 8,
      })),
    );

/** The hand without the forearm; none where single bones are drawn. */
function skinBalls({ skin, rays, form }: Hand): readonly Ball[] {
  if (skin.length === 0) return [];
  const fingers = skin
    .filter(({ group }) => group > 0)
    .flatMap((segment) => [
      { centre: segment.from, radius: segment.radiusFrom },
      { centre: segment.to, radius: segment.radiusTo },
    ]);
  return [...fingers, ...palmBalls(rays, form.scale)];
}

/** Places hand, marker and known object on the film. */
export function framing(
  spec: InventedFilmSpec,
  hand: Hand,
  shrink: number,
): { camera: Camera; extras: PhantomSceneExtras } {
  const balls = skinBalls(hand);
  const { onlyRay } = spec.extras;
  const everything = balls.length === 0 ? metacarpalBalls(hand, onlyRay) : balls;
  const all = extentOf(everything, spec);
  const height = spec.film.rows * spec.film.pitchMm;
  const width = spec.film.columns * spec.film.pitchMm;
  let middle: { right: number; up: number };
  if (spec.film.framing === 'metacarpals' || balls.length === 0) {
    const bones = extentOf(metacarpalBalls(hand, onlyRay), spec);
    middle = { right: (bones.left + bones.right) / 2, up: (bones.bottom + bones.top) / 2 };
  } else {
    // Fingertips at the top; where the film is too short for that, the wrist is kept and the tips are lost.
    const fromTop = all.top + TOP_MARGIN - height / 2;
    const fromWrist = all.bottom - FOREARM_MM + height / 2;
    const needed = all.top + TOP_MARGIN - all.bottom + FOREARM_MM;
    middle = {
      right: (all.left + all.right) / 2,
      up: height >= needed ? fromTop : Math.min(fromTop, fromWrist),
    };
  }
  const camera = framed(spec, middle, all.lowest, shrink);
  return { camera, extras: placeExtras(spec, hand, everything, middle, width, height) };
}

/** Corners of the film from the top left on; the first that the hand leaves free is taken. */
function placeExtras(
  spec: InventedFilmSpec,
  hand: Hand,
  balls: readonly Ball[],
  middle: { readonly right: number; readonly up: number },
  width: number,
  height: number,
): PhantomSceneExtras {
  const { right, up } = turning(spec);
  const taken = balls.map(({ centre, radius }) => ({
    x: dot(right, centre) - middle.right,
    y: dot(up, centre) - middle.up,
    radius,
  }));
  const freedom = (x: number, y: number): number =>
    Math.min(1e3, ...taken.map((ball) => Math.sqrt((x - ball.x) ** 2 + (y - ball.y) ** 2) - ball.radius));
  const corner = (size: number): { x: number; y: number } => {
    const x = width / 2 - 7 - size / 2;
    const y = height / 2 - 7 - size / 2;
    const places = [
      { x: -x, y },
      { x, y },
      { x, y: y - 45 },
      { x: -x, y: y - 45 },
      { x, y: -y + 40 },
      { x: -x, y: -y + 40 },
    ];
    const best = places.reduce((most, place) =>
      freedom(place.x, place.y) > freedom(most.x, most.y) + 4 ? place : most,
    );
    taken.push({ ...best, radius: size });
    return best;
  };
  const { knownObject } = spec.extras;
  const spot = knownObject === null ? null : corner(knownObject.diameterMm);
  const markerSpot = spec.extras.marker ? corner(MARKER_BOX.height) : null;
  return {
    knownObject:
      knownObject === null || spot === null
        ? null
        : {
            shape: knownObject.shape,
            diameterMm: knownObject.diameterMm,
            centre: [spot.x, spot.y, knownObject.heightMm],
          },
    marker:
      markerSpot === null
        ? null
        : {
            letter: spec.hand.side === 'left' ? 'L' : 'R',
            right: markerSpot.x - MARKER_BOX.width / 2,
            up: markerSpot.y - MARKER_BOX.height / 2,
          },
    splint: spec.extras.splint ? { size: hand.form.scale } : null,
    cast: spec.extras.cast === true ? { size: hand.form.scale } : null,
    markerGrid: spec.extras.markerGrid ?? null,
  };
}
