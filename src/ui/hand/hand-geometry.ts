import { curveCatmullRomClosed, line } from 'd3-shape';
import type { Ray, Region } from '../../tolerance/anatomy.ts';

/**
 * The drawing of a right hand seen from its back, fingers up, thumb to the left; a left hand is its
 * mirror image. Coordinates of the drawing, x to the right and y down, in a 200 × 236 frame.
 */
export const FRAME = { width: 200, height: 236 } as const;

type Spot = readonly [x: number, y: number];

interface Bone {
  readonly from: Spot;
  readonly to: Spot;
  /** Half-widths at the near end, the waist and the far end. */
  readonly halfWidths: readonly [near: number, waist: number, far: number];
}

const METACARPALS: Readonly<Record<Ray, Bone>> = {
  thumb: { from: [70, 188], to: [41, 152], halfWidths: [8, 4.6, 7] },
  index: { from: [83, 181], to: [71, 119], halfWidths: [8, 4.2, 7.4] },
  middle: { from: [98, 179], to: [97, 113], halfWidths: [7.6, 4.2, 7.4] },
  ring: { from: [112, 181], to: [119, 120], halfWidths: [6.8, 3.7, 6.6] },
  small: { from: [125, 186], to: [140, 132], halfWidths: [7, 3.6, 6.2] },
};

export const PHALANGES: readonly Bone[] = [
  { from: [38, 147], to: [21, 122], halfWidths: [6.6, 4.2, 5.4] },
  { from: [18, 118], to: [7, 100], halfWidths: [5.4, 3.4, 4] },
  { from: [70, 112], to: [62, 71], halfWidths: [7, 4.3, 5.4] },
  { from: [61, 66], to: [56, 42], halfWidths: [5.4, 3.6, 4.4] },
  { from: [55, 38], to: [52, 22], halfWidths: [4.4, 2.6, 3.2] },
  { from: [97, 106], to: [98, 60], halfWidths: [7, 4.4, 5.6] },
  { from: [98, 55], to: [98, 27], halfWidths: [5.6, 3.7, 4.5] },
  { from: [98, 23], to: [98, 6], halfWidths: [4.5, 2.7, 3.3] },
  { from: [120, 113], to: [130, 71], halfWidths: [6.5, 4, 5.2] },
  { from: [131, 66], to: [137, 40], halfWidths: [5.2, 3.4, 4.2] },
  { from: [138, 36], to: [141, 20], halfWidths: [4.2, 2.5, 3.1] },
  { from: [142, 126], to: [155, 95], halfWidths: [5.8, 3.5, 4.4] },
  { from: [157, 91], to: [163, 73], halfWidths: [4.4, 2.9, 3.6] },
  { from: [164, 69], to: [168, 55], halfWidths: [3.6, 2.2, 2.7] },
];

/** Eight carpals and the ends of the forearm bones, as ellipses: centre, radii, turn in degrees. */
export const WRIST: readonly { readonly at: Spot; readonly radii: Spot; readonly turn: number }[] = [
  { at: [75, 200], radii: [9, 8], turn: -25 },
  { at: [88, 194], radii: [7, 7], turn: 0 },
  { at: [101, 195], radii: [8, 11], turn: 4 },
  { at: [116, 197], radii: [9, 9], turn: 30 },
  { at: [82, 214], radii: [9, 12], turn: 38 },
  { at: [100, 214], radii: [9, 8], turn: 0 },
  { at: [117, 213], radii: [8, 7], turn: 20 },
  { at: [122, 209], radii: [4.5, 4.5], turn: 0 },
];

export const FOREARM: readonly Bone[] = [
  { from: [91, 252], to: [91, 228], halfWidths: [13, 13, 21] },
  { from: [121, 252], to: [122, 230], halfWidths: [8, 8, 9.5] },
];

/** Where each region begins and ends along the metacarpal, as a share of its length from the base. */
const SPAN: Readonly<Record<Region, readonly [from: number, to: number]>> = {
  base: [-0.09, 0.17],
  shaft: [0.19, 0.64],
  neck: [0.66, 0.84],
  head: [0.86, 1.1],
};

const outlineOf = line<Spot>()
  .x((spot) => spot[0])
  .y((spot) => spot[1])
  .curve(curveCatmullRomClosed.alpha(0.5));

/** Half-width of a bone at a share of its length: full ends, a narrow waist, rounded off beyond each end. */
function halfWidthAt(bone: Bone, share: number): number {
  const [near, waist, far] = bone.halfWidths;
  const end = share < 0.45 ? near : far;
  const fromWaist = Math.min(1, Math.abs(share - 0.45) / 0.5);
  const width = waist + (end - waist) * fromWaist ** 2.4;
  const beyond = Math.max(0, -share, share - 1) / 0.11;
  return width * Math.sqrt(Math.max(0, 1 - beyond ** 2));
}

/** SVG path of a bone between two shares of its length. */
export function boneOutline(bone: Bone, from = -0.1, to = 1.1): string {
  const [x0, y0] = bone.from;
  const dx = bone.to[0] - x0;
  const dy = bone.to[1] - y0;
  const length = Math.hypot(dx, dy);
  const across: Spot = [-dy / length, dx / length];
  const steps = Math.max(4, Math.round((to - from) * 14));
  const sides: [Spot[], Spot[]] = [[], []];
  for (let i = 0; i <= steps; i += 1) {
    const share = from + ((to - from) * i) / steps;
    const half = halfWidthAt(bone, share);
    sides[0].push([x0 + dx * share + across[0] * half, y0 + dy * share + across[1] * half]);
    sides[1].push([x0 + dx * share - across[0] * half, y0 + dy * share - across[1] * half]);
  }
  return outlineOf([...sides[0], ...sides[1].reverse()]) ?? '';
}

/** SVG path of one region of one metacarpal. */
export function regionOutline(ray: Ray, region: Region): string {
  const [from, to] = SPAN[region];
  return boneOutline(METACARPALS[ray], from, to);
}
