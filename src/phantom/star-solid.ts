import { cosine, sine } from './exact-maths.ts';
import type { RingMesh } from './ring-mesh.ts';
import { dot, unit, type Vector } from './vector.ts';

/**
 * A rounded solid seen from its centre: the meeting of flat faces, edges rounded off, with hollows pressed
 * into it. Carpals, sesamoids, chips, balls, discs and nails are made of these.
 */
export interface StarSolid {
  /** 0: exactly its faces; another number: one of many slightly uneven forms. */
  readonly lumps: number;
  /** Direction of each face and its distance from the centre, mm. At least six, all round. */
  readonly faces: readonly { readonly towards: Vector; readonly distance: number }[];
  /** Hollows: direction, depth as a share of the distance, and width as a cosine fall-off. */
  readonly hollows: readonly { readonly towards: Vector; readonly depth: number; readonly width: number }[];
}

/** Half extents in the six directions, then cut-off corners as further faces. */
export function boxSolid(
  half: {
    readonly ulnar: number;
    readonly radial: number;
    readonly distal: number;
    readonly proximal: number;
    readonly dorsal: number;
    readonly volar: number;
  },
  corners: readonly (readonly [towards: Vector, distance: number])[] = [],
  hollows: readonly (readonly [towards: Vector, depth: number, width: number])[] = [],
): StarSolid {
  const faces: { towards: Vector; distance: number }[] = [
    { towards: [1, 0, 0], distance: half.ulnar },
    { towards: [-1, 0, 0], distance: half.radial },
    { towards: [0, 1, 0], distance: half.distal },
    { towards: [0, -1, 0], distance: half.proximal },
    { towards: [0, 0, 1], distance: half.dorsal },
    { towards: [0, 0, -1], distance: half.volar },
  ];
  for (const [towards, distance] of corners) faces.push({ towards: unit(towards), distance });
  return {
    lumps: 0,
    faces,
    hollows: hollows.map(([towards, depth, width]) => ({ towards: unit(towards), depth, width })),
  };
}

/** Six faces whose rounded meeting is close to an ellipsoid or a sphere. */
export const roundSolid = (ulnar: number, distal: number, dorsal: number): StarSolid =>
  boxSolid({ ulnar, radial: ulnar, distal, proximal: distal, dorsal, volar: dorsal });

/**
 * Surface of a star solid, faces moved inwards by `inset`.
 *
 * @param roundness - faces join as a power mean: `ball`, of the second power, makes an exact ellipsoid of six
 *   faces; `soft`, of the fourth, a pebble with flat sides; `firm`, of the eighth, narrower edges.
 */
export function starMesh(
  solid: StarSolid,
  inset: number,
  roundness: 'ball' | 'soft' | 'firm',
  around: number,
): RingMesh {
  const columns = around;
  const rows = Math.max(8, Math.round(around * 0.6));
  const points = new Float64Array(rows * columns * 3);
  let at = 0;
  for (let i = 0; i < rows; i += 1) {
    const polar = (Math.PI * i) / (rows - 1);
    const y = i === 0 ? -1 : i === rows - 1 ? 1 : -cosine(polar);
    const ring = i === 0 || i === rows - 1 ? 0 : sine(polar);
    for (let j = 0; j < columns; j += 1) {
      const theta = (2 * Math.PI * j) / columns;
      const direction: Vector = [ring * cosine(theta), y, ring * sine(theta)];
      const r = radius(solid, inset, roundness, direction);
      points[at] = direction[0] * r;
      points[at + 1] = direction[1] * r;
      points[at + 2] = direction[2] * r;
      at += 3;
    }
  }
  return { rows, columns, points };
}

function radius(solid: StarSolid, inset: number, roundness: 'ball' | 'soft' | 'firm', d: Vector): number {
  let sum = 0;
  for (const { towards, distance } of solid.faces) {
    const share = dot(towards, d) / Math.max(0.2, distance - inset);
    if (share <= 0) continue;
    const square = share * share;
    sum += roundness === 'ball' ? square : square * square * (roundness === 'soft' ? 1 : square * square);
  }
  let r =
    roundness === 'ball'
      ? 1 / Math.sqrt(sum)
      : roundness === 'soft'
        ? 1 / Math.sqrt(Math.sqrt(sum))
        : 1 / Math.sqrt(Math.sqrt(Math.sqrt(sum)));
  // No two bones are quite regular.
  if (solid.lumps !== 0) {
    const wave = (p: Vector, phase: number): number => sine(dot(p, d) + phase + solid.lumps * 2.3);
    const broad = wave([3.1, 1.2, -1.7], 0) + wave([-1.4, 3.7, 2.1], 2) + wave([2.2, -2.6, 3.9], 4);
    const narrow = wave([7.3, -5.1, 4.4], 1) + wave([-4.8, -6.2, 7.9], 3);
    r *= 1 + 0.028 * broad + 0.012 * narrow;
  }
  for (const hollow of solid.hollows) {
    const facing = dot(hollow.towards, d);
    const t = (facing - 1 + hollow.width) / hollow.width;
    if (t > 0) r *= 1 - hollow.depth * t * t * (3 - 2 * t);
  }
  return r;
}
