import type { PlaneScale } from '../../src/geometry/spacing.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { normalDeviate, seededRandom } from '../../src/phantom/random.ts';
import type { BonePicture } from '../../src/trace/picture.ts';
import type { TraceRequest } from '../../src/trace/request.ts';

/**
 * Films drawn from formulas alone, so that what is to be found is known exactly: a ray through a hollow round
 * tube meets 2√(r² − d²) of bone less 2√(c² − d²) of canal, d being its distance from the tube's middle line.
 */
export interface DrawnTube {
  /** Millimetres from the top left of the film. */
  readonly from: { readonly x: number; readonly y: number };
  readonly to: { readonly x: number; readonly y: number };
  readonly radiusMm: number;
}

export interface DrawnBall {
  readonly at: { readonly x: number; readonly y: number };
  readonly radiusMm: number;
}

const CANAL = 0.5;
const chord = (radius: number, distance: number): number =>
  distance >= radius ? 0 : 2 * Math.sqrt(radius * radius - distance * distance);

export interface Drawing {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly scale: PlaneScale & { readonly unit: 'mm' };
  readonly tubes: readonly DrawnTube[];
  readonly balls?: readonly DrawnBall[];
  /** One standard deviation; a millimetre of bone is 100. */
  readonly noise: number;
  readonly seed: number;
}

export function drawn({ widthMm, heightMm, scale, tubes, balls = [], noise, seed }: Drawing): BonePicture {
  const columns = Math.round(widthMm / scale.perColumn);
  const rows = Math.round(heightMm / scale.perRow);
  const random = seededRandom(seed, 'drawn film');
  const values = new Float32Array(columns * rows);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const x = (column + 0.5) * scale.perColumn;
      const y = (row + 0.5) * scale.perRow;
      let bone = 0;
      for (const tube of tubes) bone += throughTube(tube, x, y);
      for (const ball of balls) bone += 0.35 * chord(ball.radiusMm, Math.hypot(x - ball.at.x, y - ball.at.y));
      values[row * columns + column] = 500 + 100 * bone + noise * normalDeviate(random);
    }
  }
  return { columns, rows, values, firstColumn: 0, firstRow: 0, least: 0, greatest: 4095 };
}

function throughTube({ from, to, radiusMm }: DrawnTube, x: number, y: number): number {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  const ux = (to.x - from.x) / length;
  const uy = (to.y - from.y) / length;
  const along = (x - from.x) * ux + (y - from.y) * uy;
  if (along < 0 || along > length) return 0;
  const distance = Math.abs((x - from.x) * uy - (y - from.y) * ux);
  return chord(radiusMm, distance) - chord(CANAL * radiusMm, distance);
}

export const onFilm = ({ x, y }: { x: number; y: number }, scale: PlaneScale): FilmPoint =>
  filmPoint(x / scale.perColumn, y / scale.perRow);

/** Turns a point about another, degrees clockwise as displayed. */
export function turnedAbout(
  point: { x: number; y: number },
  about: { x: number; y: number },
  degrees: number,
): { x: number; y: number } {
  const c = Math.cos((degrees * Math.PI) / 180);
  const s = Math.sin((degrees * Math.PI) / 180);
  const dx = point.x - about.x;
  const dy = point.y - about.y;
  return { x: about.x + c * dx - s * dy, y: about.y + s * dx + c * dy };
}

/** A bone standing upright, base down, its distal half turned by some degrees at mid-length. */
export interface DrawnBone {
  readonly base: { x: number; y: number };
  readonly middle: { x: number; y: number };
  readonly head: { x: number; y: number };
}

export const bentBone = (turnDegrees: number, x = 25): DrawnBone => {
  const middle = { x, y: 42 };
  return { base: { x, y: 72 }, middle, head: turnedAbout({ x, y: 12 }, middle, turnDegrees) };
};

export function tubesOf({ base, middle, head }: DrawnBone, radiusMm = 4): DrawnTube[] {
  const before = { x: middle.x, y: middle.y + 0.5 };
  return [
    { from: base, to: before, radiusMm },
    { from: middle, to: head, radiusMm },
  ];
}

/** Taps without error on a drawn bone. */
export const requestFor = (
  bone: DrawnBone,
  picture: BonePicture,
  scale: PlaneScale,
  tapErrorMm = 0.7,
): TraceRequest => ({
  picture,
  scale,
  taps: {
    base: onFilm(bone.base, scale),
    proximalEnd: onFilm(bone.middle, scale),
    distalEnd: onFilm(bone.middle, scale),
    headEnd: onFilm(bone.head, scale),
  },
  tapErrorMm,
  site: 'shaft',
  view: 'pa',
  brackets: [],
  corrections: [],
});
