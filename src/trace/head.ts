import { type PlanePoint, planePoint } from '../geometry/units.ts';
import { strengthOf } from './outlines.ts';
import type { BonePicture } from './picture.ts';
import { type Frame, fromMm, inFrame, type MmScale, outOfFrame } from './strip.ts';

/** A circle that may be the outline of the head. */
export interface HeadCircle {
  readonly centre: PlanePoint;
  readonly radiusMm: number;
  /** Mean strength of the rim on its distal part; about 1 on a plain rim. */
  readonly strength: number;
}

/** The rim is looked at this far to either side of the fragment's direction; beyond it begins the neck. */
const ARC_RADIANS = (115 * Math.PI) / 180;
const RIM_POINTS = 40;
const RADII_MM = { from: 4.5, to: 9.25, step: 0.25 } as const;
/** Grid on which the slopes are worked out, mm. */
const GRID_MM = 0.25;
const GRID_REACH_MM = 17;
/** Centres are looked for this far from where the tap puts the middle of a usual head, mm. */
const SEARCH_MM = 5.5;
const USUAL_RADIUS_MM = 6.6;
const CENTRE_STEP_MM = 0.5;
/** Two circles whose centres are nearer than this are the same, mm. */
const SAME_MM = 1;

interface SlopeGrid {
  readonly frame: Frame;
  readonly size: number;
  /** Along and across of the first node, mm. */
  readonly firstAlong: number;
  readonly firstAcross: number;
  readonly along: Float32Array;
  readonly across: Float32Array;
}

/** Slopes of the smoothed picture round the head, in units of the usual slope there. */
function slopeGrid(picture: BonePicture, scale: MmScale, frame: Frame, middle: PlanePoint): SlopeGrid {
  const size = 2 * Math.round(GRID_REACH_MM / GRID_MM) + 1;
  const { along: a0, across: c0 } = inFrame(frame, middle);
  const firstAlong = a0 - GRID_REACH_MM;
  const firstAcross = c0 - GRID_REACH_MM;
  const raw = new Float32Array(size * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      const { column, row } = fromMm(
        outOfFrame(frame, firstAlong + i * GRID_MM, firstAcross + j * GRID_MM),
        scale,
      );
      const c = Math.max(0, Math.min(picture.columns - 1, Math.floor(column - picture.firstColumn)));
      const r = Math.max(0, Math.min(picture.rows - 1, Math.floor(row - picture.firstRow)));
      const value = picture.values[r * picture.columns + c]!;
      raw[i * size + j] = Number.isNaN(value) ? picture.least : value;
    }
  }
  const smooth = blurred(blurred(raw, size, 1), size, size);
  const along = new Float32Array(size * size);
  const across = new Float32Array(size * size);
  let squares = 0;
  for (let i = 1; i + 1 < size; i += 1) {
    for (let j = 1; j + 1 < size; j += 1) {
      const at = i * size + j;
      along[at] = smooth[at + size]! - smooth[at - size]!;
      across[at] = smooth[at + 1]! - smooth[at - 1]!;
      squares += along[at]! ** 2 + across[at]! ** 2;
    }
  }
  const factor = squares > 0 ? 1 / (2 * Math.sqrt(squares / (2 * size * size))) : 0;
  for (let at = 0; at < along.length; at += 1) {
    along[at]! *= factor;
    across[at]! *= factor;
  }
  return { frame, size, firstAlong, firstAcross, along, across };
}

/** Five-point Gaussian along one direction of a square grid, one node standard deviation. */
function blurred(source: Float32Array, size: number, stride: number): Float32Array {
  const result = new Float32Array(source.length);
  for (let at = 0; at < source.length; at += 1) {
    const place = stride === 1 ? at % size : Math.floor(at / size);
    if (place < 2 || place > size - 3) {
      result[at] = source[at]!;
      continue;
    }
    result[at] =
      0.4026 * source[at]! +
      0.2442 * (source[at - stride]! + source[at + stride]!) +
      0.0545 * (source[at - 2 * stride]! + source[at + 2 * stride]!);
  }
  return result;
}

const RIM = Array.from({ length: RIM_POINTS }, (_, i) => {
  const angle = ((2 * i) / (RIM_POINTS - 1) - 1) * ARC_RADIANS;
  return { along: Math.cos(angle), across: Math.sin(angle) };
});

function rimStrength(grid: SlopeGrid, along: number, across: number, radius: number, every: number): number {
  let sum = 0;
  let count = 0;
  for (let k = 0; k < RIM_POINTS; k += every) {
    const { along: ca, across: cc } = RIM[k]!;
    const i = Math.round((along + radius * ca - grid.firstAlong) / GRID_MM);
    const j = Math.round((across + radius * cc - grid.firstAcross) / GRID_MM);
    count += 1;
    if (i < 0 || j < 0 || i >= grid.size || j >= grid.size) continue;
    const at = i * grid.size + j;
    sum += strengthOf(-(grid.along[at]! * ca + grid.across[at]! * cc));
  }
  return sum / count;
}

/**
 * Circles that may be the head, the plainest first; they differ by a millimetre or more in their centres.
 *
 * @param frame - From the distal fragment's broken end to the head's end.
 */
export function findHeads(picture: BonePicture, scale: MmScale, frame: Frame, most: number): HeadCircle[] {
  const start = outOfFrame(frame, frame.lengthMm - USUAL_RADIUS_MM, 0);
  const grid = slopeGrid(picture, scale, frame, start);
  const { along: a0, across: c0 } = inFrame(frame, start);
  const found: { along: number; across: number; radius: number; strength: number }[] = [];
  for (let da = -SEARCH_MM; da <= SEARCH_MM; da += CENTRE_STEP_MM) {
    for (let dc = -SEARCH_MM; dc <= SEARCH_MM; dc += CENTRE_STEP_MM) {
      let best = -1;
      let radius = 0;
      for (let r = RADII_MM.from; r <= RADII_MM.to; r += RADII_MM.step) {
        const strength = rimStrength(grid, a0 + da, c0 + dc, r, 2);
        if (strength > best) {
          best = strength;
          radius = r;
        }
      }
      found.push({ along: a0 + da, across: c0 + dc, radius, strength: best });
    }
  }
  found.sort((p, q) => q.strength - p.strength);
  const kept: typeof found = [];
  const isKnown = (along: number, across: number): boolean =>
    kept.some((circle) => Math.hypot(along - circle.along, across - circle.across) < SAME_MM);
  for (const candidate of found) {
    if (kept.length >= most) break;
    // Nearly all candidates are the neighbours of a better one; climbing from each would cost the most of all.
    if (isKnown(candidate.along, candidate.across)) continue;
    const fine = refined(grid, candidate);
    if (!isKnown(fine.along, fine.across)) kept.push(fine);
  }
  return kept
    .sort((p, q) => q.strength - p.strength)
    .map(({ along, across, radius, strength }) => {
      const { x, y } = outOfFrame(frame, along, across);
      return { centre: planePoint(x, y), radiusMm: radius, strength };
    });
}

/** Climbs by ever smaller steps. */
function refined(
  grid: SlopeGrid,
  start: { along: number; across: number; radius: number; strength: number },
): { along: number; across: number; radius: number; strength: number } {
  let best = { ...start, strength: rimStrength(grid, start.along, start.across, start.radius, 1) };
  for (const step of [0.25, 0.125, 0.0625]) {
    for (let round = 0; round < 6; round += 1) {
      let better = best;
      for (const [da, dc, dr] of NEIGHBOURS) {
        const along = best.along + da * step;
        const across = best.across + dc * step;
        const radius = best.radius + dr * step;
        const strength = rimStrength(grid, along, across, radius, 1);
        if (strength > better.strength) better = { along, across, radius, strength };
      }
      if (better === best) break;
      best = better;
    }
  }
  return best;
}

const NEIGHBOURS: readonly (readonly [number, number, number])[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
  [1, 0, 1],
  [-1, 0, -1],
  [1, 0, -1],
  [-1, 0, 1],
];
