import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import { type Camera, magnificationAt, project } from './camera.ts';
import { arcTangent2 } from './exact-maths.ts';
import type { PhantomSceneExtras } from './extras.ts';
import { apexAngles, type BoneAxis, fragmentAxes, headCentre, movedDistalAxis } from './fracture.ts';
import { plateMiddle } from './growth-plate.ts';
import type { Hand } from './hand.ts';
import { gridTruth } from './marker-grid.ts';
import type { RayBone } from './ray-bone.ts';
import type { InventedFilmSpec } from './spec.ts';
import type {
  FilmDirection,
  FilmTruth,
  FractureTruth,
  KnownObjectTruth,
  RayTruth,
  TruthAxis,
} from './truth.ts';
import { centrePoint } from './tube.ts';
import { cross, dot, lengthOf, place, scale, subtract, unit, type Vector } from './vector.ts';

const DEGREES = 180 / Math.PI;

/** An unbroken bone is read as if its neck were broken here. */
const NORMAL_LEVEL = 0.75;

const angleBetween = (p: Vector, q: Vector): number =>
  arcTangent2(lengthOf(cross(p, q)), dot(p, q)) * DEGREES;

const directionOf = (axis: BoneAxis): Vector => unit(subtract(axis.to, axis.from));

function projectedAngle(p: TruthAxis, q: TruthAxis): number {
  const px = p.to.column - p.from.column;
  const py = p.to.row - p.from.row;
  const qx = q.to.column - q.from.column;
  const qy = q.to.row - q.from.row;
  return Math.abs(arcTangent2(px * qy - py * qx, px * qx + py * qy)) * DEGREES;
}

/** Where two lines cross; null if they are within 1° of parallel. */
function crossing(p: TruthAxis, q: TruthAxis): FilmPoint | null {
  const px = p.to.column - p.from.column;
  const py = p.to.row - p.from.row;
  const qx = q.to.column - q.from.column;
  const qy = q.to.row - q.from.row;
  const area = px * qy - py * qx;
  const size = Math.sqrt((px * px + py * py) * (qx * qx + qy * qy));
  if (Math.abs(area) < 0.01745 * size) return null;
  const t = ((q.from.column - p.from.column) * qy - (q.from.row - p.from.row) * qx) / area;
  return filmPoint(p.from.column + t * px, p.from.row + t * py);
}

/** A direction of the bone as it lies in the film's plane, length 1 if it lies there wholly. */
function filmDirection(camera: Camera, direction: Vector): FilmDirection {
  return { columns: dot(camera.right, direction), rows: -dot(camera.up, direction) };
}

const projectAxis = (camera: Camera, bone: RayBone, axis: BoneAxis): TruthAxis => ({
  from: project(camera, place(bone.placing, axis.from)),
  to: project(camera, place(bone.placing, axis.to)),
});

function axesOf(bone: RayBone): { proximal: BoneAxis; distal: BoneAxis; axesBy: RayTruth['axesBy'] } {
  const { broken, tube, headRadius } = bone;
  if (broken !== null) {
    return { proximal: broken.proximalAxis, distal: movedDistalAxis(broken), axesBy: broken.axesBy };
  }
  const parted = NORMAL_LEVEL * tube.lengthMm;
  const axes = fragmentAxes(tube, headRadius, parted, parted);
  return { proximal: axes.proximalAxis, distal: axes.distalAxis, axesBy: axes.axesBy };
}

/** Where a growth plate lies: beyond the break it has moved with the fragment. */
function plateTruth(
  { tube, plate, broken, placing }: RayBone,
  camera: Camera,
): Pick<RayTruth, 'growthPlate'> {
  if (plate === null) return {};
  const { end, thicknessMm, placeMm } = plate;
  const there = plateMiddle(tube, plate);
  const now = broken !== null && placeMm > broken.placeMm ? place(broken.motion, there) : there;
  return { growthPlate: { end, middle: project(camera, place(placing, now)), thicknessMm } };
}

function rayTruth(bone: RayBone, camera: Camera): RayTruth {
  const { tube, broken, headRadius, placing, ray } = bone;
  const axes = axesOf(bone);
  const proximalAxis = projectAxis(camera, bone, axes.proximal);
  const distalAxis = projectAxis(camera, bone, axes.distal);
  const moved = (p: Vector): Vector => (broken === null ? p : place(broken.motion, p));
  const head = place(placing, moved(headCentre(tube, headRadius)));
  const base = centrePoint(tube, 0);
  const tip = centrePoint(tube, tube.lengthMm);
  return {
    ray,
    base: project(camera, place(placing, base)),
    headCentre: project(camera, head),
    headRadiusMm: headRadius,
    headRadiusPixels: (headRadius * magnificationAt(camera, head)) / camera.pitchMm,
    intactLengthMm: lengthOf(subtract(tip, base)),
    lengthMm: lengthOf(subtract(moved(tip), base)),
    dorsal: filmDirection(camera, placing.dorsal),
    radial: filmDirection(camera, scale(placing.ulnar, -1)),
    proximalAxis,
    distalAxis,
    projectedAngleDegrees: projectedAngle(proximalAxis, distalAxis),
    spatialAngleDegrees: angleBetween(directionOf(axes.proximal), directionOf(axes.distal)),
    ...plateTruth(bone, camera),
    axesBy: axes.axesBy,
  };
}

function fractureTruth(bone: RayBone, truth: RayTruth, camera: Camera): FractureTruth | null {
  const { broken, tube, placing, ray } = bone;
  if (broken === null) return null;
  const axes = axesOf(bone);
  const apex = apexAngles(directionOf(axes.proximal), directionOf(axes.distal));
  const { spec } = broken;
  const distalEnd = place(broken.motion, centrePoint(tube, broken.placeMm + spec.gapMm));
  return {
    ray,
    region: spec.region,
    level: broken.level,
    proximalBrokenEnd: project(camera, place(placing, centrePoint(tube, broken.placeMm))),
    distalBrokenEnd: project(camera, place(placing, distalEnd)),
    apex: crossing(truth.proximalAxis, truth.distalAxis),
    projectedAngleDegrees: truth.projectedAngleDegrees,
    spatialAngleDegrees: truth.spatialAngleDegrees,
    apexDorsalDegrees: apex.dorsal,
    apexRadialDegrees: apex.radial,
    fragmentTurnDegrees: broken.swingDegrees,
    fragmentTurnDorsalDegrees: broken.swingDorsalDegrees,
    fragmentTurnRadialDegrees: broken.swingRadialDegrees,
    axesLessTurnDegrees: truth.spatialAngleDegrees - broken.swingDegrees,
    axialTurnDegrees: spec.axialTurnDegrees,
    shorteningAppliedMm: spec.shorteningMm,
    lengthLostMm: truth.intactLengthMm - truth.lengthMm,
    translationDorsalMm: spec.translationDorsalMm,
    translationRadialMm: spec.translationRadialMm,
  };
}

function knownObjectTruth(extras: PhantomSceneExtras, camera: Camera): KnownObjectTruth | null {
  if (extras.knownObject === null) return null;
  const { shape, diameterMm, centre } = extras.knownObject;
  const magnification = camera.sourceMm === null ? 1 : camera.sourceMm / (camera.sourceMm - centre[2]);
  const perMm = magnification / camera.pitchMm;
  return {
    shape,
    diameterMm,
    centre: filmPoint(camera.centreColumn + centre[0] * perMm, camera.centreRow - centre[1] * perMm),
    diameterPixels: diameterMm * perMm,
    magnification,
  };
}

/** What is known of a film before a single pixel is drawn. */
export function truthOf(
  spec: InventedFilmSpec,
  filmSeed: number,
  hand: Hand,
  camera: Camera,
  extras: PhantomSceneExtras,
): FilmTruth {
  const rays = hand.rays.map((bone) => rayTruth(bone, camera));
  const fractures = hand.rays.flatMap((bone, i) => fractureTruth(bone, rays[i]!, camera) ?? []);
  const chosen =
    hand.rays.find((bone) => bone.broken !== null) ??
    hand.rays.find((bone) => bone.ray === (spec.extras.onlyRay ?? 'middle'))!;
  const level = chosen.broken?.placeMm ?? chosen.tube.lengthMm / 2;
  const magnification = magnificationAt(camera, place(chosen.placing, centrePoint(chosen.tube, level)));
  const turn = Math.abs(spec.view.turnDegrees);
  return {
    invented: true,
    filmSeed,
    spec,
    columns: camera.columns,
    rows: camera.rows,
    pitchMm: camera.pitchMm,
    statedSpacingMm: spec.film.statedPlane === 'patient' ? camera.pitchMm / magnification : camera.pitchMm,
    statedPlane: spec.film.statedPlane,
    magnification,
    side: spec.hand.side,
    view: turn < 22.5 || turn > 157.5 ? 'pa' : turn > 67.5 && turn < 112.5 ? 'lateral' : 'oblique',
    rays,
    fractures,
    knownObject: knownObjectTruth(extras, camera),
    ...(extras.markerGrid === null ? {} : { markerGrid: gridTruth(extras.markerGrid, camera) }),
  };
}
