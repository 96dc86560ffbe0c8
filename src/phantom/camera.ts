import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import { cosine, sine } from './exact-maths.ts';
import type { InventedFilmSpec } from './spec.ts';
import { radians, type Vector } from './vector.ts';

/**
 * From the hand to the film. Hand: x ulnar, y distal, z dorsal, mm. Turned hand: X to the right of the film,
 * Y up, Z from the detector towards the tube; the detector lies at Z = 0 and the tube above the film's centre.
 */
export interface Camera {
  /** Rows of the turning matrix, mirrored for a left hand. */
  readonly right: Vector;
  readonly up: Vector;
  readonly towardsTube: Vector;
  readonly shift: Vector;
  /** Null in a parallel beam. */
  readonly sourceMm: number | null;
  readonly pitchMm: number;
  readonly columns: number;
  readonly rows: number;
  /** Film coordinates of the point under the tube. */
  readonly centreColumn: number;
  readonly centreRow: number;
  /** -1 for a left hand: surfaces are then turned inside out by the mirror. */
  readonly handedness: 1 | -1;
}

export const turned = (camera: Camera, p: Vector): Vector => [
  camera.right[0] * p[0] + camera.right[1] * p[1] + camera.right[2] * p[2] + camera.shift[0],
  camera.up[0] * p[0] + camera.up[1] * p[1] + camera.up[2] * p[2] + camera.shift[1],
  camera.towardsTube[0] * p[0] +
    camera.towardsTube[1] * p[1] +
    camera.towardsTube[2] * p[2] +
    camera.shift[2],
];

/** How much larger a thing at this point of the hand is drawn than it is. */
export function magnificationAt(camera: Camera, p: Vector): number {
  if (camera.sourceMm === null) return 1;
  return camera.sourceMm / (camera.sourceMm - turned(camera, p)[2]);
}

/** Where a point of the hand falls on the film. */
export function project(camera: Camera, p: Vector): FilmPoint {
  const [x, y] = turned(camera, p);
  const m = magnificationAt(camera, p) / camera.pitchMm;
  return filmPoint(camera.centreColumn + x * m, camera.centreRow - y * m);
}

/** The turning alone; `framed` puts the hand on the film. */
export function turning(spec: InventedFilmSpec): Pick<Camera, 'right' | 'up' | 'towardsTube' | 'handedness'> {
  const { turnDegrees, leanDegrees, inPlaneDegrees } = spec.view;
  const handedness = spec.hand.side === 'left' ? -1 : 1;
  const [ct, st] = [cosine(radians(turnDegrees)), sine(radians(turnDegrees))];
  const [cl, sl] = [cosine(radians(leanDegrees)), sine(radians(leanDegrees))];
  const [ci, si] = [cosine(radians(inPlaneDegrees)), sine(radians(inPlaneDegrees))];
  const across: Vector = [ct * handedness, 0, st * handedness];
  const upright: Vector = [sl * st, cl, -sl * ct];
  const towardsTube: Vector = [-cl * st, sl, cl * ct];
  const blend = (p: Vector, q: Vector, cp: number, cq: number): Vector => [
    p[0] * cp + q[0] * cq,
    p[1] * cp + q[1] * cq,
    p[2] * cp + q[2] * cq,
  ];
  return {
    right: blend(across, upright, ci, si),
    up: blend(across, upright, -si, ci),
    towardsTube,
    handedness,
  };
}

/**
 * Places the turned hand over the film.
 *
 * @param middle - Point of the hand that goes to the film's centre.
 * @param lowest - Least distance towards the tube of anything in the hand, before the shift.
 * @param shrink - The film is this many times coarser than the spec says, for a preview.
 */
export function framed(
  spec: InventedFilmSpec,
  middle: { readonly right: number; readonly up: number },
  lowest: number,
  shrink: number,
): Camera {
  const { beam, film } = spec;
  const gap = beam.kind === 'cone' ? beam.gapToDetectorMm : 0;
  const columns = Math.round(film.columns / shrink);
  const rows = Math.round(film.rows / shrink);
  return {
    ...turning(spec),
    shift: [-middle.right, -middle.up, gap - lowest],
    sourceMm: beam.kind === 'cone' ? beam.sourceToDetectorMm : null,
    pitchMm: film.pitchMm * shrink,
    columns,
    rows,
    centreColumn: columns / 2,
    centreRow: rows / 2,
  };
}

/** The same view on a film whose pixels are `step` times as wide and high. */
export const coarser = (camera: Camera, step: number): Camera => ({
  ...camera,
  pitchMm: camera.pitchMm * step,
  columns: Math.ceil(camera.columns / step),
  rows: Math.ceil(camera.rows / step),
  centreColumn: camera.centreColumn / step,
  centreRow: camera.centreRow / step,
});
