import { cosine, sine } from './exact-maths.ts';
import type { RingMesh } from './ring-mesh.ts';
import { dot, unit, type Vector } from './vector.ts';

/**
 * A rounded solid seen from its centre: the meeting of flat faces, edges rounded off, with hollows pressed
 * into it. Carpals, sesamoids, chips, balls, discs and nails are made of these.
 */
export interface StarSolid {
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
 * @param roundness - `soft` rounds like a pebble (the sixth... fourth power mean of the faces), `ball` makes an
 *   exact ellipsoid of six faces, `firm` keeps flat faces with narrow edges.
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
    sum +=
      roundness === 'ball'
        ? square
        : roundness === 'soft'
          ? square * square
          : square * square * square * square;
  }
  const half = Math.sqrt(sum);
  let r =
    1 / (roundness === 'ball' ? half : roundness === 'soft' ? Math.sqrt(half) : Math.sqrt(Math.sqrt(half)));
  for (const hollow of solid.hollows) {
    const facing = dot(hollow.towards, d);
    const t = (facing - 1 + hollow.width) / hollow.width;
    if (t > 0) r *= 1 - hollow.depth * t * t * (3 - 2 * t);
  }
  return r;
}
