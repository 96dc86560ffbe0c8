import type { SkinSegment } from './bone-part.ts';
import { type Camera, magnificationAt, turned } from './camera.ts';

/**
 * Soft tissue on a coarse grid: for each node the length of the ray inside the skin, and the part of it that
 * runs through the fat under the skin.
 *
 * The skin is the smooth union of cones. At its outline the length grows like the square root of the distance
 * from the edge, which no coarse grid can follow; its square grows evenly. So the square is kept, and outside
 * the hand the distance to the skin takes its place with a minus: interpolated, it gives a sharp outline.
 */
export interface SoftTissueGrid {
  readonly columns: number;
  readonly rows: number;
  /** Length² / (8 × `ROUNDING_MM`) inside, minus the distance outside, mm. */
  readonly edge: Float32Array;
  readonly fatMm: Float32Array;
}

/** Radius of curvature for which the two halves of `edge` meet without a kink, mm. */
const ROUNDING_MM = 8;

export const skinLength = (edge: number): number => (edge <= 0 ? 0 : Math.sqrt(8 * ROUNDING_MM * edge));

/** How far two cones reach out to each other: within the palm, from finger to palm, within a finger. */
const PALM_BLEND = 9;
const WEB_BLEND = 6;
const JOINT_BLEND = 3;

/** Fat lies between these depths under the skin, mm. */
const FAT_FROM = 1.1;
const FAT_TO = 3.4;

interface PreparedSegment {
  readonly group: number;
  readonly ax: number;
  readonly ay: number;
  readonly az: number;
  readonly dx: number;
  readonly dy: number;
  readonly dz: number;
  readonly inverseSquare: number;
  readonly radius: number;
  readonly grow: number;
  readonly reach: number;
}

function prepare(segment: SkinSegment, camera: Camera): PreparedSegment {
  const [ax, ay, az] = turned(camera, segment.from);
  const [bx, by, bz] = turned(camera, segment.to);
  const [dx, dy, dz] = [bx - ax, by - ay, bz - az];
  return {
    group: segment.group,
    ax,
    ay,
    az,
    dx,
    dy,
    dz,
    inverseSquare: 1 / Math.max(1e-6, dx * dx + dy * dy + dz * dz),
    radius: segment.radiusFrom,
    grow: segment.radiusTo - segment.radiusFrom,
    reach: Math.max(segment.radiusFrom, segment.radiusTo),
  };
}

const blend = (p: number, q: number, width: number): number => {
  const h = width - Math.abs(p - q);
  return h <= 0 ? Math.min(p, q) : Math.min(p, q) - (h * h) / (4 * width);
};

/** Distance to the skin, negative inside; close to true near the surface. */
function skinDistance(near: readonly PreparedSegment[], x: number, y: number, z: number): number {
  let palm = 1e3;
  let group = 0;
  let finger = 1e3;
  let least = 1e3;
  for (const segment of near) {
    const px = x - segment.ax;
    const py = y - segment.ay;
    const pz = z - segment.az;
    let t = (px * segment.dx + py * segment.dy + pz * segment.dz) * segment.inverseSquare;
    t = Math.max(0, Math.min(1, t));
    const ex = px - t * segment.dx;
    const ey = py - t * segment.dy;
    const ez = pz - t * segment.dz;
    const distance = Math.sqrt(ex * ex + ey * ey + ez * ez) - (segment.radius + t * segment.grow);
    if (segment.group === 0) palm = blend(palm, distance, PALM_BLEND);
    else if (segment.group === group) finger = blend(finger, distance, JOINT_BLEND);
    else {
      if (group !== 0) least = Math.min(least, blend(palm, finger, WEB_BLEND));
      group = segment.group;
      finger = distance;
    }
  }
  if (group !== 0) least = Math.min(least, blend(palm, finger, WEB_BLEND));
  return Math.min(palm, least);
}

/** Share of fat at a depth under the skin, summed from the surface: the antiderivative over depth. */
function fatBelow(distance: number): number {
  const depth = Math.max(FAT_FROM, Math.min(FAT_TO, -distance));
  return -(depth - FAT_FROM);
}

/**
 * Walks every ray of the coarse film through the skin.
 *
 * @param camera - Camera of the coarse film.
 */
export function softTissue(segments: readonly SkinSegment[], camera: Camera): SoftTissueGrid {
  // Palm first, then finger by finger: the order that `skinDistance` relies on.
  const prepared = [...segments].sort((p, q) => p.group - q.group).map((segment) => prepare(segment, camera));
  const { columns, rows, pitchMm, sourceMm } = camera;
  const edge = new Float32Array(columns * rows).fill(-20);
  const fatMm = new Float32Array(columns * rows);
  const magnification = segments.map((segment) => magnificationAt(camera, segment.from));
  const most = Math.max(1, ...magnification);
  const near: PreparedSegment[] = [];
  for (let row = 0; row < rows; row += 1) {
    const yd = (camera.centreRow - (row + 0.5)) * pitchMm;
    for (let column = 0; column < columns; column += 1) {
      const xd = (column + 0.5 - camera.centreColumn) * pitchMm;
      near.length = 0;
      let top = Number.NEGATIVE_INFINITY;
      let bottom = Number.POSITIVE_INFINITY;
      for (const segment of prepared) {
        // Clear of the cone by more than the widest blend? The ray leans by less than its own magnification.
        const slack = segment.reach + PALM_BLEND + (most - 1) * (Math.abs(xd) + Math.abs(yd));
        if (xd < Math.min(segment.ax, segment.ax + segment.dx) - slack) continue;
        if (xd > Math.max(segment.ax, segment.ax + segment.dx) + slack) continue;
        if (yd < Math.min(segment.ay, segment.ay + segment.dy) - slack) continue;
        if (yd > Math.max(segment.ay, segment.ay + segment.dy) + slack) continue;
        near.push(segment);
        top = Math.max(top, segment.az + segment.reach, segment.az + segment.dz + segment.reach);
        bottom = Math.min(bottom, segment.az - segment.reach, segment.az + segment.dz - segment.reach);
      }
      if (near.length > 0) {
        walk(near, xd, yd, sourceMm, top + 2, bottom - 2, edge, fatMm, row * columns + column);
      }
    }
  }
  return { columns, rows, edge, fatMm };
}

function walk(
  near: readonly PreparedSegment[],
  xd: number,
  yd: number,
  sourceMm: number | null,
  top: number,
  bottom: number,
  edge: Float32Array,
  fatMm: Float32Array,
  at: number,
): void {
  const lean = sourceMm === null ? 0 : 1 / sourceMm;
  let z = top;
  let distance = skinDistance(near, xd * (1 - z * lean), yd * (1 - z * lean), z);
  let least = distance;
  let inside = 0;
  let fat = 0;
  while (z > bottom) {
    const step = Math.max(0.5, Math.min(2.5, Math.abs(distance) * 0.8), distance * 0.95);
    const nextZ = z - step;
    const shrink = 1 - nextZ * lean;
    const next = skinDistance(near, xd * shrink, yd * shrink, nextZ);
    if (next < least) least = next;
    if (distance < 0 || next < 0) {
      const share =
        distance < 0 && next < 0
          ? 1
          : Math.min(distance, next) / (Math.min(distance, next) - Math.max(distance, next));
      inside += step * share;
      const change = next - distance;
      const lengthPerDepth = Math.abs(change) < 1e-4 ? null : step / change;
      if (lengthPerDepth !== null) fat += Math.abs((fatBelow(next) - fatBelow(distance)) * lengthPerDepth);
      else if (-distance > FAT_FROM && -distance < FAT_TO) fat += step;
    }
    z = nextZ;
    distance = next;
  }
  edge[at] = inside > 0 ? (inside * inside) / (8 * ROUNDING_MM) : -Math.max(0, least);
  fatMm[at] = fat;
}
