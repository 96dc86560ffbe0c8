import { describe, expect, it } from 'vitest';
import type { InventedFilm } from '../../src/phantom/invent.ts';
import type { PhantomRay } from '../../src/phantom/spec.ts';
import type { TruthAxis } from '../../src/phantom/truth.ts';
import { alone, filmOf } from './make.ts';

/**
 * The truth found again in the pixels by means that share nothing with the phantom: bones drawn alone, cut
 * out by a grey threshold, and their outlines measured.
 */

const DEGREES = 180 / Math.PI;
/** Grey a little above the open beam's. */
const BONE = 250;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Mid-points of the bone's outline across a line, at steps along it; null where the outline is not simple. */
function midline(film: InventedFilm, axis: TruthAxis): Point[] {
  const dx = axis.to.column - axis.from.column;
  const dy = axis.to.row - axis.from.row;
  const length = Math.hypot(dx, dy);
  const [ux, uy] = [dx / length, dy / length];
  const grey = (x: number, y: number): number =>
    film.pixels[Math.floor(y) * film.columns + Math.floor(x)] ?? 0;
  const points: Point[] = [];
  for (let along = 0; along <= length; along += 3) {
    const [cx, cy] = [axis.from.column + along * ux, axis.from.row + along * uy];
    const edge = (side: 1 | -1): number | null => {
      for (let off = 0; off < 120; off += 0.25) {
        if (grey(cx - side * off * uy, cy + side * off * ux) < BONE) return off;
      }
      return null;
    };
    const [right, left] = [edge(1), edge(-1)];
    if (right === null || left === null || right < 4 || left < 4) continue;
    const shift = (right - left) / 2;
    points.push({ x: cx - shift * uy, y: cy + shift * ux });
  }
  return points;
}

/** Direction of the line with least squares of distance, in degrees. */
function direction(points: readonly Point[]): number {
  const n = points.length;
  const mx = points.reduce((sum, { x }) => sum + x, 0) / n;
  const my = points.reduce((sum, { y }) => sum + y, 0) / n;
  let [xx, yy, xy] = [0, 0, 0];
  for (const { x, y } of points) {
    xx += (x - mx) ** 2;
    yy += (y - my) ** 2;
    xy += (x - mx) * (y - my);
  }
  return 0.5 * Math.atan2(2 * xy, xx - yy) * DEGREES;
}

const axisDirection = ({ from, to }: TruthAxis): number =>
  Math.atan2(to.row - from.row, to.column - from.column) * DEGREES;

/** Least turn between two undirected lines. */
const apart = (p: number, q: number): number => {
  const difference = Math.abs(p - q) % 180;
  return Math.min(difference, 180 - difference);
};

/** Circle through points by algebra (Kåsa 1976). */
function circle(points: readonly Point[]): { x: number; y: number; radius: number } {
  const n = points.length;
  const mx = points.reduce((sum, { x }) => sum + x, 0) / n;
  const my = points.reduce((sum, { y }) => sum + y, 0) / n;
  let [suu, svv, suv, suuu, svvv, suvv, svuu] = [0, 0, 0, 0, 0, 0, 0];
  for (const point of points) {
    const [u, v] = [point.x - mx, point.y - my];
    suu += u * u;
    svv += v * v;
    suv += u * v;
    suuu += u ** 3;
    svvv += v ** 3;
    suvv += u * v * v;
    svuu += v * u * u;
  }
  const [a, b] = [(suuu + suvv) / 2, (svvv + svuu) / 2];
  const determinant = suu * svv - suv * suv;
  const [cu, cv] = [(a * svv - b * suv) / determinant, (b * suu - a * suv) / determinant];
  return { x: cu + mx, y: cv + my, radius: Math.sqrt(cu * cu + cv * cv + (suu + svv) / n) };
}

const CASES: readonly { ray: PhantomRay; turn: number; dorsal: number; radial: number; seed: number }[] = [
  { ray: 'middle', turn: 90, dorsal: 35, radial: 0, seed: 1 },
  { ray: 'middle', turn: 0, dorsal: 0, radial: 20, seed: 2 },
  { ray: 'index', turn: 60, dorsal: 30, radial: 5, seed: 3 },
  { ray: 'ring', turn: 90, dorsal: 50, radial: -10, seed: 4 },
  { ray: 'small', turn: 105, dorsal: 40, radial: 0, seed: 5 },
];

describe('truth found again in the pixels', () => {
  it.each(CASES)('axes of a broken $ray shaft turned $turn°', ({ ray, turn, dorsal, radial, seed }) => {
    const film = filmOf(
      {
        ...alone(ray, turn),
        fractures: [
          {
            ray,
            region: 'shaft',
            level: 0.5,
            apexDorsalDegrees: dorsal,
            apexRadialDegrees: radial,
            jagMm: 0.3,
          },
        ],
      },
      seed,
    );
    const truth = film.truth.rays.find((candidate) => candidate.ray === ray)!;
    const proximal = direction(midline(film, shrunk(truth.proximalAxis)));
    const distal = direction(midline(film, shrunk(truth.distalAxis)));
    // The outline's middle is not quite the centreline's shadow where base and neck flare to one side.
    expect(apart(proximal, axisDirection(truth.proximalAxis))).toBeLessThan(1.6);
    expect(apart(distal, axisDirection(truth.distalAxis))).toBeLessThan(1.6);
  });

  it.each([1, 2, 3])('the ball of a head in the lateral, seed %s', (seed) => {
    const film = filmOf(alone('middle', 90), seed);
    const truth = film.truth.rays[2]!;
    const { column, row } = truth.headCentre;
    const neckward = Math.atan2(truth.base.row - row, truth.base.column - column);
    const outline: Point[] = [];
    for (let degrees = 70; degrees <= 290; degrees += 2) {
      const angle = neckward + degrees / DEGREES;
      for (let r = 20; r < 140; r += 0.25) {
        const [x, y] = [column + r * Math.cos(angle), row + r * Math.sin(angle)];
        if ((film.pixels[Math.floor(y) * film.columns + Math.floor(x)] ?? 0) < BONE) {
          outline.push({ x, y });
          break;
        }
      }
    }
    const found = circle(outline);
    // Half a millimetre, five pixels: the threshold cuts a little off a rounded edge.
    expect(Math.hypot(found.x - column, found.y - row)).toBeLessThan(3);
    expect(Math.abs(found.radius - truth.headRadiusPixels)).toBeLessThan(3);
  });

  it('the length of a bone and its place', () => {
    const film = filmOf(alone('middle', 0), 6);
    const truth = film.truth.rays[2]!;
    let [top, bottom] = [film.rows, 0];
    for (let row = 0; row < film.rows; row += 1) {
      for (let column = 0; column < film.columns; column += 1) {
        if (film.pixels[row * film.columns + column]! < BONE) continue;
        top = Math.min(top, row);
        bottom = Math.max(bottom, row);
      }
    }
    // The base's slant (1 mm) and styloid (2.2 mm) and its rim reach beyond the middle of the joint surface.
    const found = (bottom - top) * film.truth.pitchMm;
    expect(found).toBeGreaterThan(truth.lengthMm - 0.5);
    expect(found).toBeLessThan(truth.lengthMm + 4);
    expect(Math.abs(top - (truth.headCentre.row - truth.headRadiusPixels))).toBeLessThan(4);
  });

  it('a ball of known size as large and where it is said to be', () => {
    const film = filmOf(
      {
        film: { columns: 700, rows: 800, pitchMm: 0.25, detail: 0, evenness: 0 },
        extras: { marker: false, knownObject: { shape: 'ball', diameterMm: 20, heightMm: 30 } },
      },
      3,
    );
    const { centre, diameterPixels } = film.truth.knownObject!;
    const half = (axis: 'row' | 'column', side: 1 | -1): number => {
      for (let off = 0; off < 80; off += 0.25) {
        const x = centre.column + (axis === 'column' ? side * off : 0);
        const y = centre.row + (axis === 'row' ? side * off : 0);
        if (film.pixels[Math.floor(y) * film.columns + Math.floor(x)]! < 2200) return off;
      }
      return Number.NaN;
    };
    const across = half('column', 1) + half('column', -1);
    const down = half('row', 1) + half('row', -1);
    expect(Math.abs((across + down) / 2 - diameterPixels)).toBeLessThan(2);
    expect(Math.abs(half('column', 1) - half('column', -1))).toBeLessThan(3);
  });
});

/** The middle part of an axis, clear of the break and of the flare. */
function shrunk({ from, to }: TruthAxis): TruthAxis {
  const at = (share: number) =>
    ({
      column: from.column + share * (to.column - from.column),
      row: from.row + share * (to.row - from.row),
    }) as TruthAxis['from'];
  return { from: at(0.1), to: at(0.9) };
}
