import { type Camera, turned } from './camera.ts';
import type { RingMesh } from './ring-mesh.ts';
import { type Placing, place } from './vector.ts';

/**
 * Thickness of closed surfaces along every ray, by adding for each facet the distance to the tube with the
 * sign of the side it shows: what enters is taken from what leaves, and for a closed surface, hollow or not,
 * the length inside remains. No marching, no sorting.
 */

/** Corners are rounded to 1/64 pixel, so that neighbouring facets share edges exactly and leave no gaps. */
const SUBPIXEL = 64;

/** A rectangle of pixels: first column and row, then one past the last. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** A mesh on the film: corner positions in 1/64 pixel and distance towards the tube in mm, from `depthZero`. */
export interface ProjectedMesh {
  readonly rows: number;
  readonly columns: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly depth: Float64Array;
  readonly box: PixelBox;
}

/** The corners of a mesh as the camera sees them. */
export function projectMesh(
  mesh: RingMesh,
  placing: Placing,
  camera: Camera,
  depthZero: number,
): ProjectedMesh {
  const count = mesh.rows * mesh.columns;
  const x = new Float64Array(count);
  const y = new Float64Array(count);
  const depth = new Float64Array(count);
  // The two placings as one matrix, worked out on the axes.
  const o = turned(camera, placing.origin);
  const columnOf = (axis: 0 | 1 | 2): readonly number[] => {
    const local: [number, number, number] = [0, 0, 0];
    local[axis] = 1;
    return turned(camera, place(placing, local)).map((value, k) => value - o[k as 0 | 1 | 2]);
  };
  const [ax, ay, az] = columnOf(0) as [number, number, number];
  const [bx, by, bz] = columnOf(1) as [number, number, number];
  const [cx, cy, cz] = columnOf(2) as [number, number, number];
  const { sourceMm, pitchMm } = camera;
  const { points } = mesh;
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  let top = Number.POSITIVE_INFINITY;
  let bottom = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i += 1) {
    const p = points[3 * i]!;
    const q = points[3 * i + 1]!;
    const r = points[3 * i + 2]!;
    const z = az * p + bz * q + cz * r + o[2];
    const m = (SUBPIXEL / pitchMm) * (sourceMm === null ? 1 : sourceMm / (sourceMm - z));
    const column = Math.round(SUBPIXEL * camera.centreColumn + (ax * p + bx * q + cx * r + o[0]) * m);
    const row = Math.round(SUBPIXEL * camera.centreRow - (ay * p + by * q + cy * r + o[1]) * m);
    x[i] = column;
    y[i] = row;
    depth[i] = z - depthZero;
    if (column < left) left = column;
    if (column > right) right = column;
    if (row < top) top = row;
    if (row > bottom) bottom = row;
  }
  const box = {
    left: Math.max(0, Math.floor(left / SUBPIXEL)),
    top: Math.max(0, Math.floor(top / SUBPIXEL)),
    right: Math.min(camera.columns, Math.ceil(right / SUBPIXEL) + 1),
    bottom: Math.min(camera.rows, Math.ceil(bottom / SUBPIXEL) + 1),
  };
  return { rows: mesh.rows, columns: mesh.columns, x, y, depth, box };
}

/** A piece of the film in work: values of the pixels in `box`, row by row. */
export interface PixelPatch {
  readonly box: PixelBox;
  readonly width: number;
  readonly values: Float32Array;
}

/** Adds the thickness of a mesh, in mm towards the tube, to a patch. */
export function addThickness(mesh: ProjectedMesh, handedness: 1 | -1, patch: PixelPatch): void {
  const { rows, columns } = mesh;
  for (let i = 0; i + 1 < rows; i += 1) {
    const ring = i * columns;
    for (let j = 0; j < columns; j += 1) {
      const next = j + 1 === columns ? 0 : j + 1;
      const a = ring + j;
      const b = ring + next;
      const c = a + columns;
      const d = b + columns;
      addFacet(mesh, a, b, d, handedness, patch);
      addFacet(mesh, a, d, c, handedness, patch);
    }
  }
}

function addFacet(
  mesh: ProjectedMesh,
  i0: number,
  first: number,
  second: number,
  handedness: number,
  patch: PixelPatch,
): void {
  const { x, y, depth } = mesh;
  const { box, width, values } = patch;
  const x0 = x[i0]!;
  const y0 = y[i0]!;
  let x1 = x[first]! - x0;
  let y1 = y[first]! - y0;
  let x2 = x[second]! - x0;
  let y2 = y[second]! - y0;
  let area = x1 * y2 - x2 * y1;
  if (area === 0) return;
  let i1 = first;
  let i2 = second;
  let sign = handedness;
  if (area < 0) {
    [x1, y1, x2, y2] = [x2, y2, x1, y1];
    [i1, i2] = [second, first];
    area = -area;
    sign = -handedness;
  }
  const minX = Math.min(0, x1, x2) + x0;
  const maxX = Math.max(0, x1, x2) + x0;
  const minY = Math.min(0, y1, y2) + y0;
  const maxY = Math.max(0, y1, y2) + y0;
  const half = SUBPIXEL / 2;
  const left = Math.max(box.left, Math.ceil((minX - half) / SUBPIXEL));
  const right = Math.min(box.right - 1, Math.floor((maxX - half) / SUBPIXEL));
  const top = Math.max(box.top, Math.ceil((minY - half) / SUBPIXEL));
  const bottom = Math.min(box.bottom - 1, Math.floor((maxY - half) / SUBPIXEL));
  if (left > right || top > bottom) return;
  // Edge functions are whole numbers; a pixel centre on an edge belongs to one of the two facets only.
  const bias01 = y1 < 0 || (y1 === 0 && x1 > 0) ? 0 : -1;
  const ex12 = x2 - x1;
  const ey12 = y2 - y1;
  const bias12 = ey12 < 0 || (ey12 === 0 && ex12 > 0) ? 0 : -1;
  const bias20 = -y2 < 0 || (y2 === 0 && -x2 > 0) ? 0 : -1;
  const px = left * SUBPIXEL + half - x0;
  const py = top * SUBPIXEL + half - y0;
  let row01 = x1 * py - y1 * px + bias01;
  let row12 = ex12 * (py - y1) - ey12 * (px - x1) + bias12;
  let row20 = -x2 * py + y2 * px + bias20;
  const z0 = depth[i0]!;
  const z1 = depth[i1]! - z0;
  const z2 = depth[i2]! - z0;
  const zx = (sign * (z1 * y2 - z2 * y1)) / area;
  const zy = (sign * (z2 * x1 - z1 * x2)) / area;
  const leftZ = sign * z0 + zx * px;
  const stepZ = zx * SUBPIXEL;
  const step01 = -y1 * SUBPIXEL;
  const step12 = -ey12 * SUBPIXEL;
  const step20 = y2 * SUBPIXEL;
  let base = (top - box.top) * width - box.left;
  for (let row = top; row <= bottom; row += 1) {
    let e01 = row01;
    let e12 = row12;
    let e20 = row20;
    // From the row itself, not step by step: a film drawn in bands must come out the same.
    let z = leftZ + zy * (row * SUBPIXEL + half - y0);
    for (let column = left; column <= right; column += 1) {
      if (e01 >= 0 && e12 >= 0 && e20 >= 0) values[base + column]! += z;
      e01 += step01;
      e12 += step12;
      e20 += step20;
      z += stepZ;
    }
    row01 += x1 * SUBPIXEL;
    row12 += ex12 * SUBPIXEL;
    row20 -= x2 * SUBPIXEL;
    base += width;
  }
}
