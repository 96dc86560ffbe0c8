import { type FilmPoint, filmPoint } from '../geometry/units.ts';
import { project } from './camera.ts';
import { framing } from './framing.ts';
import { buildHand } from './hand.ts';
import type { FilmPlan } from './invent.ts';
import type { RayBone } from './ray-bone.ts';
import type { PhantomRay } from './spec.ts';
import { END_RINGS, type Stretch, type Tube, tubeMesh } from './tube.ts';
import { place, type Vector } from './vector.ts';

/** One cross-section of a bone as it falls on the film. */
export interface OutlineStation {
  readonly part: 'proximal' | 'distal';
  /** Middle between the two outer edges. */
  readonly middle: FilmPoint;
  /** Edges to the left and to the right of somebody walking from the base to the head as displayed. */
  readonly outer: readonly [left: FilmPoint, right: FilmPoint];
  /** The same of the marrow cavity; null where there is none. */
  readonly inner: readonly [left: FilmPoint, right: FilmPoint] | null;
}

/** The outlines of a metacarpal on its film, from the base to the head; an unbroken bone is all `proximal`. */
export type BoneOutline = readonly OutlineStation[];

const FINENESS = { alongMm: 1, around: 36 } as const;

/** Where the edges of every metacarpal fall on a film: what a reader who saw everything would place points on. */
export function outlinesOfPlan({
  spec,
  filmSeed,
  previewScale,
}: FilmPlan): Readonly<Record<PhantomRay, BoneOutline>> {
  const hand = buildHand(spec, filmSeed);
  const { camera } = framing(spec, hand, previewScale);
  return Object.fromEntries(
    hand.rays.map((bone) => [bone.ray, boneOutline(bone, (point) => project(camera, point))]),
  ) as unknown as Record<PhantomRay, BoneOutline>;
}

type ToFilm = (point: Vector) => FilmPoint;

function boneOutline({ tube, broken, placing }: RayBone, toFilm: ToFilm): BoneOutline {
  const proximal = (p: Vector) => toFilm(place(placing, p));
  if (broken === null) return partOutline(tube, 'proximal', { from: null, to: null }, proximal);
  const distal = (p: Vector) => toFilm(place(placing, place(broken.motion, p)));
  return [
    ...partOutline(tube, 'proximal', { from: null, to: broken.proximalSurface }, proximal),
    ...partOutline(tube, 'distal', { from: broken.distalSurface, to: null }, distal),
  ];
}

function partOutline(
  tube: Tube,
  part: OutlineStation['part'],
  stretch: Stretch,
  toFilm: ToFilm,
): readonly OutlineStation[] {
  const outer = ringsOf(tube, 'outer', stretch, toFilm);
  const inner = ringsOf(tube, 'inner', stretch, toFilm);
  return outer.map((ring, index) => {
    const middle = middleOf(ring);
    const [before, after] = [outer[index - 1] ?? ring, outer[index + 1] ?? ring];
    const ahead = unitFrom(middleOf(before), middleOf(after));
    const edges = edgesOf(ring, ahead);
    const cavity = nearest(inner, middle, ahead);
    return {
      part,
      middle: midway(edges[0], edges[1]),
      outer: edges,
      inner: cavity === null ? null : edgesOf(cavity, ahead),
    };
  });
}

type Ring = readonly FilmPoint[];

/** The rings of the wall on the film; those of the two ends, which are drawn together to a point, are left out. */
function ringsOf(tube: Tube, surface: 'outer' | 'inner', stretch: Stretch, toFilm: ToFilm): readonly Ring[] {
  const mesh = tubeMesh(tube, surface, stretch, FINENESS);
  if (mesh === null) return [];
  const rings = Array.from({ length: mesh.rows }, (_, row) =>
    Array.from({ length: mesh.columns }, (_, column) => {
      const at = 3 * (row * mesh.columns + column);
      return toFilm([mesh.points[at]!, mesh.points[at + 1]!, mesh.points[at + 2]!]);
    }),
  );
  return rings.slice(END_RINGS, -END_RINGS);
}

/** The ring that lies level with a point, or null if the nearest is more than a ring's distance away. */
function nearest(rings: readonly Ring[], at: FilmPoint, ahead: Direction): Ring | null {
  let best: Ring | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings) {
    const apart = Math.abs(along(middleOf(ring), at, ahead));
    if (apart < least) [best, least] = [ring, apart];
  }
  return best !== null && least <= spread(best, ahead) + 1 ? best : null;
}

interface Direction {
  readonly columns: number;
  readonly rows: number;
}

const along = (point: FilmPoint, from: FilmPoint, { columns, rows }: Direction): number =>
  (point.column - from.column) * columns + (point.row - from.row) * rows;

/** How far a tilted ring reaches along the bone on the film. */
const spread = (ring: Ring, ahead: Direction): number =>
  Math.max(...ring.map((point) => Math.abs(along(point, middleOf(ring), ahead))));

/** The points of a ring farthest to the left and to the right of the way ahead. Rows run down. */
function edgesOf(ring: Ring, { columns, rows }: Direction): readonly [FilmPoint, FilmPoint] {
  const across = (point: FilmPoint) => columns * point.row - rows * point.column;
  let [left, right] = [ring[0]!, ring[0]!];
  for (const point of ring) {
    if (across(point) < across(left)) left = point;
    if (across(point) > across(right)) right = point;
  }
  return [left, right];
}

function middleOf(ring: Ring): FilmPoint {
  let [column, row] = [0, 0];
  for (const point of ring) {
    column += point.column / ring.length;
    row += point.row / ring.length;
  }
  return filmPoint(column, row);
}

const midway = (one: FilmPoint, other: FilmPoint): FilmPoint =>
  filmPoint((one.column + other.column) / 2, (one.row + other.row) / 2);

function unitFrom(from: FilmPoint, to: FilmPoint): Direction {
  const [columns, rows] = [to.column - from.column, to.row - from.row];
  const length = Math.hypot(columns, rows);
  return length === 0 ? { columns: 0, rows: -1 } : { columns: columns / length, rows: rows / length };
}
