import { lookUp } from './curve.ts';
import { cosine, power, sine } from './exact-maths.ts';
import type { Fineness, RingMesh } from './ring-mesh.ts';

/** Entries per millimetre of every table along a bone. */
export const TABLE_PER_MM = 5;

/** Places of the table entries along a bone of this length, mm from its base. */
export const tablePlaces = (lengthMm: number): Float64Array =>
  Float64Array.from({ length: Math.ceil(lengthMm * TABLE_PER_MM) + 1 }, (_, i) =>
    Math.min(lengthMm, i / TABLE_PER_MM),
  );

/**
 * A generalised cone: cross-sections along a bent centreline, each at right angles to it. Local axes:
 * a ulnar, y distal, b dorsal; s runs along the centreline from 0 at the base. All tables by
 * `TABLE_PER_MM`.
 */
export interface Tube {
  readonly lengthMm: number;
  readonly outer: SectionTables;
  /** Marrow cavity; half widths of 0 where there is none. */
  readonly inner: SectionTables;
  readonly centreUlnar: Float64Array;
  readonly centreDistal: Float64Array;
  readonly centreDorsal: Float64Array;
  /** Sine and cosine of the centreline's slope towards dorsal. */
  readonly slopeSine: Float64Array;
  readonly slopeCosine: Float64Array;
  /** Exponent of the superellipse of each section: 2 an ellipse, 4 nearly a rounded square. */
  readonly squareness: Float64Array;
  /** Share by which a section is triangular, ridge volar. */
  readonly triangle: Float64Array;
  /** Share of bone in the marrow cavity. */
  readonly cancellous: Float64Array;
  /** Moves the end surfaces along the bone: dishes, condyles, ridges. */
  readonly endShape: ((s: number, a: number, b: number) => number) | null;
}

export interface SectionTables {
  readonly halfUlnar: Float64Array;
  readonly halfDorsal: Float64Array;
}

/** Where a broken surface lies: place along the centreline for a point (a, b) of the section, mm. */
export type BreakSurface = (a: number, b: number) => number;

/** The stretch of a tube to be drawn. Null: up to its own end. */
export interface Stretch {
  readonly from: BreakSurface | null;
  readonly to: BreakSurface | null;
}

export const WHOLE: Stretch = { from: null, to: null };

/** A point of the section at place `s`, before bending: distances ulnar and dorsal of the centreline. */
function sectionPoint(
  tube: Tube,
  tables: SectionTables,
  s: number,
  cosTheta: number,
  sinTheta: number,
  out: { a: number; b: number },
): void {
  const exponent = lookUp(tube.squareness, TABLE_PER_MM, s);
  const triangle = lookUp(tube.triangle, TABLE_PER_MM, s);
  // sin 3θ is 1 at θ = -90°, the volar side.
  let q = 1 + triangle * sinTheta * (3 - 4 * sinTheta * sinTheta);
  if (exponent > 2.01) {
    q *= power(power(Math.abs(cosTheta), exponent) + power(Math.abs(sinTheta), exponent), -1 / exponent);
  }
  out.a = lookUp(tables.halfUlnar, TABLE_PER_MM, s) * q * cosTheta;
  out.b = lookUp(tables.halfDorsal, TABLE_PER_MM, s) * q * sinTheta;
}

/** Puts a section point on the bent centreline. */
function writePoint(tube: Tube, s: number, a: number, b: number, points: Float64Array, at: number): void {
  const moved = tube.endShape === null ? s : s + tube.endShape(s, a, b);
  const past = moved < 0 ? moved : moved > tube.lengthMm ? moved - tube.lengthMm : 0;
  const slopeSine = lookUp(tube.slopeSine, TABLE_PER_MM, moved);
  const slopeCosine = lookUp(tube.slopeCosine, TABLE_PER_MM, moved);
  points[at] = lookUp(tube.centreUlnar, TABLE_PER_MM, moved) + a;
  points[at + 1] = lookUp(tube.centreDistal, TABLE_PER_MM, moved) + past * slopeCosine - b * slopeSine;
  points[at + 2] = lookUp(tube.centreDorsal, TABLE_PER_MM, moved) + past * slopeSine + b * slopeCosine;
}

/** A point of the centreline in the bone's own coordinates. */
export const centrePoint = (tube: Tube, s: number): [number, number, number] => [
  lookUp(tube.centreUlnar, TABLE_PER_MM, s),
  lookUp(tube.centreDistal, TABLE_PER_MM, s),
  lookUp(tube.centreDorsal, TABLE_PER_MM, s),
];

/** First and last place at which both half widths are more than nothing. */
function extent(tables: SectionTables, lengthMm: number): [number, number] {
  const { halfUlnar, halfDorsal } = tables;
  let first = 0;
  let last = halfUlnar.length - 1;
  while (first < last && (halfUlnar[first]! <= 0 || halfDorsal[first]! <= 0)) first += 1;
  while (last > first && (halfUlnar[last]! <= 0 || halfDorsal[last]! <= 0)) last -= 1;
  return [Math.min(lengthMm, first / TABLE_PER_MM), Math.min(lengthMm, last / TABLE_PER_MM)];
}

/** Places of the rings of a wall from 0 to 1: even, with a few more close to either end. */
function wallShares(lengthMm: number, fineness: Fineness): number[] {
  const steps = Math.max(4, Math.ceil(lengthMm / fineness.alongMm));
  const shares: number[] = [];
  for (let i = 0; i <= steps; i += 1) shares.push(i / steps);
  const first = 1 / steps;
  for (const part of [0.05, 0.2, 0.5]) shares.push(part * first, 1 - part * first);
  return shares.sort((p, q) => p - q);
}

const CAP_RINGS = [0, 0.25, 0.5, 0.7, 0.85, 0.95];
/** Rings with which `tubeMesh` closes each end. */
export const END_RINGS = CAP_RINGS.length;

/**
 * The surface of a tube, or of its marrow cavity, between two ends.
 *
 * @param part - `outer` the bone, `inner` its cavity.
 * @returns null where there is nothing (a cavity that does not reach into the stretch).
 */
export function tubeMesh(
  tube: Tube,
  part: 'outer' | 'inner',
  stretch: Stretch,
  fineness: Fineness,
): RingMesh | null {
  const tables = tube[part];
  const [first, last] = extent(tables, tube.lengthMm);
  if (last - first < 0.5) return null;
  const columns = fineness.around;
  const cosines = new Float64Array(columns);
  const sines = new Float64Array(columns);
  const from = new Float64Array(columns).fill(first);
  const to = new Float64Array(columns).fill(last);
  const section = { a: 0, b: 0 };
  const meet = (surface: BreakSurface, j: number): number => {
    let s = Math.max(first, Math.min(last, surface(0, 0)));
    for (let round = 0; round < 4; round += 1) {
      sectionPoint(tube, tables, s, cosines[j]!, sines[j]!, section);
      s = Math.max(first, Math.min(last, surface(section.a, section.b)));
    }
    return s;
  };
  let mean = 0;
  for (let j = 0; j < columns; j += 1) {
    cosines[j] = cosine((2 * Math.PI * j) / columns);
    sines[j] = sine((2 * Math.PI * j) / columns);
    if (stretch.from !== null) from[j] = meet(stretch.from, j);
    if (stretch.to !== null) to[j] = Math.max(from[j]!, meet(stretch.to, j));
    mean += (to[j]! - from[j]!) / columns;
  }
  if (mean < 1e-3) return null;
  const shares = wallShares(mean, fineness);
  const rows = shares.length + 2 * END_RINGS;
  const points = new Float64Array(rows * columns * 3);
  let at = 0;
  const cap = (share: number, ends: Float64Array, surface: BreakSurface | null): void => {
    for (let j = 0; j < columns; j += 1) {
      sectionPoint(tube, tables, ends[j]!, cosines[j]!, sines[j]!, section);
      const a = section.a * share;
      const b = section.b * share;
      const s = surface === null ? ends[j]! : Math.max(first, Math.min(last, surface(a, b)));
      writePoint(tube, s, a, b, points, at);
      at += 3;
    }
  };
  for (const share of CAP_RINGS) cap(share, from, stretch.from);
  for (const share of shares) {
    for (let j = 0; j < columns; j += 1) {
      const s = from[j]! + (to[j]! - from[j]!) * share;
      sectionPoint(tube, tables, s, cosines[j]!, sines[j]!, section);
      writePoint(tube, s, section.a, section.b, points, at);
      at += 3;
    }
  }
  for (const share of [...CAP_RINGS].reverse()) cap(share, to, stretch.to);
  return { rows, columns, points };
}
