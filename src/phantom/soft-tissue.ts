import type { SkinSegment } from './bone-part.ts';
import { type Camera, turned } from './camera.ts';

/**
 * The skin as a smooth union of cones, and rays through it: how much of a ray lies inside, and how much of
 * that in the fat under the skin.
 */

/** How far a finger reaches out to the palm, mm. */
const WEB_BLEND = 6;

/** Fat lies between these depths under the skin, mm. */
const FAT_FROM = 1.1;
const FAT_TO = 3.4;

/** A cone with round ends, placed over the film. */
interface PlacedSegment {
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
  readonly high: number;
  readonly low: number;
  readonly blend: number;
}

/** The skin over the film, fingers one after another. */
export type PlacedSkin = readonly PlacedSegment[];

/** The segments of skin as the camera sees them, sorted by group. */
export function placeSkin(segments: readonly SkinSegment[], camera: Camera): PlacedSkin {
  return [...segments]
    .sort((p, q) => p.group - q.group)
    .map((segment) => {
      const [ax, ay, az] = turned(camera, segment.from);
      const [bx, by, bz] = turned(camera, segment.to);
      const [dx, dy, dz] = [bx - ax, by - ay, bz - az];
      const reach = Math.max(segment.radiusFrom, segment.radiusTo);
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
        reach,
        high: Math.max(az, bz) + reach,
        low: Math.min(az, bz) - reach,
        blend: segment.blendMm,
      };
    });
}

const blend = (p: number, q: number, width: number): number => {
  const h = width - Math.abs(p - q);
  return h <= 0 ? Math.min(p, q) : Math.min(p, q) - (h * h) / (4 * width);
};

/** Distance to the skin, negative inside; close to true near the surface. */
function skinDistance(near: readonly PlacedSegment[], x: number, y: number, z: number): number {
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
    if (segment.group === 0) palm = blend(palm, distance, segment.blend);
    else if (segment.group === group) finger = blend(finger, distance, segment.blend);
    else {
      // Fingers grow together with the palm, never with each other.
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

/** What one ray passes through. */
export interface SkinPassage {
  insideMm: number;
  fatMm: number;
  /** Least distance to the skin for a ray that misses it. */
  missMm: number;
}

/** Rays that pass further from all skin than this are not followed, mm. */
export const MISS_LIMIT = 4;

/**
 * Follows rays through a skin.
 *
 * @param sourceMm - Distance of the tube from the detector; null for a parallel beam.
 */
export class SkinWalker {
  private readonly near: PlacedSegment[] = [];
  private readonly skin: PlacedSkin;
  private readonly lean: number;
  /** The widest that any cone reaches out, mm; a ray further away than this from a cone does not feel it. */
  private readonly widestBlend: number;

  constructor(skin: PlacedSkin, sourceMm: number | null) {
    this.skin = skin;
    this.widestBlend = skin.reduce((widest, { blend }) => Math.max(widest, blend), WEB_BLEND);
    this.lean = sourceMm === null ? 0 : 1 / sourceMm;
  }

  /** The ray that meets the detector at (xd, yd), mm from the point under the tube. */
  follow(xd: number, yd: number, out: SkinPassage): void {
    const { near, lean, widestBlend } = this;
    near.length = 0;
    let top = Number.NEGATIVE_INFINITY;
    let bottom = Number.POSITIVE_INFINITY;
    const aside = lean * (Math.abs(xd) + Math.abs(yd));
    for (const s of this.skin) {
      // Clear of the cone by more than the widest blend? The ray leans inwards by a known share at most.
      const slack = s.reach + widestBlend + s.high * aside;
      if (xd < Math.min(s.ax, s.ax + s.dx) - slack || xd > Math.max(s.ax, s.ax + s.dx) + slack) continue;
      if (yd < Math.min(s.ay, s.ay + s.dy) - slack || yd > Math.max(s.ay, s.ay + s.dy) + slack) continue;
      near.push(s);
      top = Math.max(top, s.high);
      bottom = Math.min(bottom, s.low);
    }
    out.insideMm = 0;
    out.fatMm = 0;
    out.missMm = MISS_LIMIT;
    if (near.length > 0) this.march(xd, yd, top + 2, bottom - 2, out);
  }

  private march(xd: number, yd: number, top: number, bottom: number, out: SkinPassage): void {
    const { near, lean } = this;
    let z = top;
    let distance = skinDistance(near, xd * (1 - z * lean), yd * (1 - z * lean), z);
    let least = distance;
    let inside = 0;
    let fat = 0;
    while (z > bottom) {
      const step = Math.max(0.5, Math.min(2.5, Math.abs(distance) * 0.8), distance * 0.95);
      z -= step;
      const next = skinDistance(near, xd * (1 - z * lean), yd * (1 - z * lean), z);
      if (next < least) least = next;
      if (distance < 0 || next < 0) {
        const lower = Math.min(distance, next);
        const upper = Math.max(distance, next);
        inside += upper < 0 ? step : (step * lower) / (lower - upper);
        if (upper - lower > 1e-4) {
          fat += Math.abs(((fatBelow(next) - fatBelow(distance)) * step) / (next - distance));
        } else if (-distance > FAT_FROM && -distance < FAT_TO) fat += step;
      }
      distance = next;
    }
    out.insideMm = inside;
    out.fatMm = fat;
    out.missMm = Math.max(0, Math.min(MISS_LIMIT, least));
  }
}
