import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { type Camera, magnificationAt, project } from '../../src/phantom/camera.ts';
import { headCentre } from '../../src/phantom/fracture.ts';
import { framing } from '../../src/phantom/framing.ts';
import { buildHand } from '../../src/phantom/hand.ts';
import { expose, renderRows } from '../../src/phantom/render.ts';
import type { InventedFilmSpec, PhantomRay } from '../../src/phantom/spec.ts';
import type { TruthAxis } from '../../src/phantom/truth.ts';
import { truthOf } from '../../src/phantom/truth-of.ts';
import { centrePoint, tubeMesh, WHOLE } from '../../src/phantom/tube.ts';
import { compose, type Placing, place, type Vector } from '../../src/phantom/vector.ts';

type RayBone = ReturnType<typeof buildHand>['rays'][number];

/** Two points on the outlines of a bone, either side of it. */
export interface OutlinePair {
  readonly one: FilmPoint;
  readonly other: FilmPoint;
}

/** A piece of an invented film round one broken metacarpal; every point is in the piece's own pixels. */
export interface InventedCrop {
  readonly columns: number;
  readonly rows: number;
  readonly pixels: Uint16Array;
  readonly bitsStored: number;
  readonly pitchMm: number;
  readonly ray: PhantomRay;
  readonly base: FilmPoint;
  readonly proximalEnd: FilmPoint;
  readonly distalEnd: FilmPoint;
  /** Where the head ends: the most distal point of the fragment. */
  readonly headEnd: FilmPoint;
  readonly headCentre: FilmPoint;
  readonly headRadiusMm: number;
  readonly proximalAxis: TruthAxis;
  readonly distalAxis: TruthAxis;
  /** Turn from the proximal to the distal axis, clockwise as displayed, degrees. */
  readonly turnDegrees: number;
  /** Outlines at the ends of the stretches that brackets are put at: two levels to a fragment. */
  readonly proximalOutlines: readonly OutlinePair[];
  readonly distalOutlines: readonly OutlinePair[];
}

const MARGIN_MM = 15;

const turnOf = (p: TruthAxis, q: TruthAxis): number => {
  const px = p.to.column - p.from.column;
  const py = p.to.row - p.from.row;
  const qx = q.to.column - q.from.column;
  const qy = q.to.row - q.from.row;
  return (Math.atan2(px * qy - py * qx, px * qx + py * qy) * 180) / Math.PI;
};

/** Outline points of the bone square to its course at one place along it. */
function outlinesAt(
  bone: RayBone,
  frame: Placing,
  placeMm: number,
  axis: TruthAxis,
  camera: Camera,
): OutlinePair {
  const mesh = tubeMesh(bone.tube, 'outer', WHOLE, { alongMm: 0.4, around: 64 });
  const at = project(camera, place(frame, centrePoint(bone.tube, placeMm)));
  const dx = axis.to.column - axis.from.column;
  const dy = axis.to.row - axis.from.row;
  const size = Math.hypot(dx, dy);
  const near = 0.6 / camera.pitchMm;
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  const points = mesh?.points ?? new Float64Array();
  for (let i = 0; i < points.length; i += 3) {
    const local: Vector = [points[i] ?? 0, points[i + 1] ?? 0, points[i + 2] ?? 0];
    const q = project(camera, place(frame, local));
    const along = ((q.column - at.column) * dx + (q.row - at.row) * dy) / size;
    if (Math.abs(along) > near) continue;
    const across = ((q.row - at.row) * dx - (q.column - at.column) * dy) / size;
    least = Math.min(least, across);
    most = Math.max(most, across);
  }
  const aside = (across: number): FilmPoint =>
    filmPoint(at.column - (dy / size) * across, at.row + (dx / size) * across);
  return { one: aside(least), other: aside(most) };
}

/**
 * Draws only the neighbourhood of one broken bone of an invented film.
 *
 * Scatter and the evening-out of density reach farther than the margin; at the rim of the piece they are
 * those of a film that ends there.
 */
export function inventCrop(spec: InventedFilmSpec, filmSeed: number, ray: PhantomRay): InventedCrop {
  const hand = buildHand(spec, filmSeed);
  const { camera, extras } = framing(spec, hand, 1);
  const bone = hand.rays.find((candidate) => candidate.ray === ray);
  if (bone === undefined || bone.broken === null) throw new RangeError(`The ${ray} ray is not broken.`);
  const { broken, tube, headRadius, placing } = bone;
  const moved = compose(placing, broken.motion);
  const corners = [
    place(placing, centrePoint(tube, 0)),
    place(placing, centrePoint(tube, broken.placeMm)),
    place(moved, centrePoint(tube, broken.placeMm)),
    place(moved, centrePoint(tube, tube.lengthMm)),
  ].map((point) => project(camera, point));
  const margin = MARGIN_MM / camera.pitchMm;
  const left = Math.floor(Math.min(...corners.map(({ column }) => column)) - margin);
  const top = Math.floor(Math.min(...corners.map(({ row }) => row)) - margin);
  const columns = Math.ceil(Math.max(...corners.map(({ column }) => column)) + margin) - left;
  const rows = Math.ceil(Math.max(...corners.map(({ row }) => row)) + margin) - top;
  const cropped: Camera = {
    ...camera,
    columns,
    rows,
    centreColumn: camera.centreColumn - left,
    centreRow: camera.centreRow - top,
  };
  const truth = truthOf(spec, filmSeed, hand, cropped, extras);
  const rayTruth = truth.rays.find((candidate) => candidate.ray === ray);
  const fracture = truth.fractures.find((candidate) => candidate.ray === ray);
  if (rayTruth === undefined || fracture === undefined) throw new RangeError(`No truth of the ${ray} ray.`);
  const exposure = expose(spec, filmSeed, hand, cropped, extras);
  const l = tube.lengthMm;
  const { placeMm } = broken;
  const proximalAt = [0.24 * l, placeMm - 4];
  const neck = broken.axesBy === 'shaft-and-head-centre';
  const distalAt = neck ? [placeMm + 2, placeMm + 4] : [placeMm + 4, 0.8 * l];
  const centre = place(moved, headCentre(tube, headRadius));
  return {
    columns,
    rows,
    pixels: renderRows(exposure, 0, rows),
    bitsStored: spec.film.bitsStored,
    pitchMm: camera.pitchMm,
    ray,
    base: rayTruth.base,
    proximalEnd: fracture.proximalBrokenEnd,
    distalEnd: fracture.distalBrokenEnd,
    headEnd: project(cropped, place(moved, centrePoint(tube, l))),
    headCentre: rayTruth.headCentre,
    headRadiusMm: headRadius * magnificationAt(cropped, centre),
    proximalAxis: rayTruth.proximalAxis,
    distalAxis: rayTruth.distalAxis,
    turnDegrees: turnOf(rayTruth.proximalAxis, rayTruth.distalAxis),
    proximalOutlines: proximalAt.map((at) => outlinesAt(bone, placing, at, rayTruth.proximalAxis, cropped)),
    distalOutlines: distalAt.map((at) => outlinesAt(bone, moved, at, rayTruth.distalAxis, cropped)),
  };
}
