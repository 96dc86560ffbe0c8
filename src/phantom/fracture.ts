import { lookUp } from './curve.ts';
import { arcTangent2, cosine, sine } from './exact-maths.ts';
import { between, normalDeviate, type Random } from './random.ts';
import type { FractureSpec } from './spec.ts';
import { type BreakSurface, centrePoint, TABLE_PER_MM, type Tube } from './tube.ts';
import {
  add,
  cross,
  dot,
  lengthOf,
  type Placing,
  place,
  radians,
  scale,
  subtract,
  turnOnly,
  unit,
  type Vector,
} from './vector.ts';

/** Where a region's breaks lie when the spec leaves the level open, as shares of the length. */
const LEVELS: Readonly<Record<FractureSpec['region'], readonly [number, number]>> = {
  head: [0.82, 0.86],
  neck: [0.73, 0.79],
  shaft: [0.42, 0.6],
  base: [0.14, 0.2],
};

/** A line in the bone's own coordinates, from proximal to distal. */
export interface BoneAxis {
  readonly from: Vector;
  readonly to: Vector;
}

/** A broken bone: the two surfaces, and how the distal fragment has moved. */
export interface Break {
  readonly spec: FractureSpec;
  readonly level: number;
  readonly placeMm: number;
  readonly proximalSurface: BreakSurface;
  readonly distalSurface: BreakSurface;
  /** Distal side of the third fragment, whose proximal side is `proximalSurface`; null if there is none. */
  readonly wedgeSurface: BreakSurface | null;
  /** From where the distal fragment was to where it is, in the bone's own coordinates. */
  readonly motion: Placing;
  /** Swing of the distal fragment, without its turn about its own axis. */
  readonly swingDegrees: number;
  /** Direction to which the swing took the fragment's axis, from straight on: dorsal and radial apex angles. */
  readonly swingDorsalDegrees: number;
  readonly swingRadialDegrees: number;
  readonly proximalAxis: BoneAxis;
  /** Of the distal fragment before it moved. */
  readonly distalAxis: BoneAxis;
  readonly axesBy: 'fragment-centrelines' | 'shaft-and-head-centre' | 'short-base-fragment';
}

/** The straight line through a stretch of the centreline with the least squares of distance. */
function centrelineAxis(tube: Tube, fromMm: number, toMm: number): BoneAxis {
  const samples = 40;
  const points = Array.from({ length: samples + 1 }, (_, i) =>
    centrePoint(tube, fromMm + ((toMm - fromMm) * i) / samples),
  );
  const mean = scale(
    points.reduce<Vector>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / points.length,
  );
  // The stretch is nearly straight: a few power iterations find its long direction exactly enough.
  let direction = unit(subtract(points[samples]!, points[0]!));
  for (let round = 0; round < 6; round += 1) {
    direction = unit(
      points.reduce<Vector>(
        (sum, p) => {
          const offset = subtract(p, mean);
          return add(sum, scale(offset, dot(offset, direction)));
        },
        [0, 0, 0],
      ),
    );
  }
  const at = (p: Vector): Vector => add(mean, scale(direction, dot(subtract(p, mean), direction)));
  return { from: at(points[0]!), to: at(points[samples]!) };
}

/** Middle of the head’s circle on the bone’s own axis, mm from the base. */
export const headCentre = (tube: Tube, headRadius: number): Vector =>
  centrePoint(tube, tube.lengthMm - headRadius);

/** The two axes of a bone parted at a place: how a careful reader with full knowledge would draw them. */
export function fragmentAxes(
  tube: Tube,
  headRadius: number,
  proximalEnd: number,
  distalEnd: number,
): Pick<Break, 'proximalAxis' | 'distalAxis' | 'axesBy'> {
  const l = tube.lengthMm;
  const short = proximalEnd < 0.34 * l;
  const nearHead = distalEnd > 0.62 * l;
  const proximalAxis = short
    ? { from: centrePoint(tube, 0), to: centrePoint(tube, proximalEnd) }
    : centrelineAxis(tube, 0.2 * l, proximalEnd - 1.5);
  const distalAxis = nearHead
    ? { from: centrePoint(tube, distalEnd), to: headCentre(tube, headRadius) }
    : centrelineAxis(tube, distalEnd + 1.5, 0.8 * l);
  const axesBy = short ? 'short-base-fragment' : nearHead ? 'shaft-and-head-centre' : 'fragment-centrelines';
  return { proximalAxis, distalAxis, axesBy };
}

/** The shortest turn that takes one direction to another, then moves nothing else. */
function swing(from: Vector, to: Vector): { turn: Placing; degrees: number } {
  const axis = cross(from, to);
  const s = lengthOf(axis);
  const c = dot(from, to);
  const degrees = (arcTangent2(s, c) * 180) / Math.PI;
  const k: Vector = s < 1e-12 ? [1, 0, 0] : scale(axis, 1 / s);
  const rotate = (p: Vector): Vector =>
    add(add(scale(p, c), scale(cross(k, p), s)), scale(k, dot(k, p) * (1 - c)));
  return {
    turn: {
      origin: [0, 0, 0],
      ulnar: rotate([1, 0, 0]),
      distal: rotate([0, 1, 0]),
      dorsal: rotate([0, 0, 1]),
    },
    degrees,
  };
}

/** Turn about any axis through the origin. */
function turnAbout(axis: Vector, degrees: number): Placing {
  const c = cosine(radians(degrees));
  const s = sine(radians(degrees));
  const rotate = (p: Vector): Vector =>
    add(add(scale(p, c), scale(cross(axis, p), s)), scale(axis, dot(axis, p) * (1 - c)));
  return {
    origin: [0, 0, 0],
    ulnar: rotate([1, 0, 0]),
    distal: rotate([0, 1, 0]),
    dorsal: rotate([0, 0, 1]),
  };
}

/** The direction that makes the given apex angles with straight on: apex dorsal tilts volar, apex radial ulnar. */
function tilted(straight: Vector, dorsalDegrees: number, radialDegrees: number): Vector {
  const ulnar = unit(subtract([1, 0, 0], scale(straight, straight[0])));
  const dorsal = cross(ulnar, straight);
  const tangent = (degrees: number): number => sine(radians(degrees)) / cosine(radians(degrees));
  return unit(
    add(straight, add(scale(ulnar, tangent(radialDegrees)), scale(dorsal, -tangent(dorsalDegrees)))),
  );
}

/** Apex angles of a direction against straight on, as `tilted` takes them. */
export function apexAngles(straight: Vector, direction: Vector): { dorsal: number; radial: number } {
  const ulnar = unit(subtract([1, 0, 0], scale(straight, straight[0])));
  const dorsal = cross(ulnar, straight);
  const ahead = dot(direction, straight);
  return {
    dorsal: (arcTangent2(-dot(direction, dorsal), ahead) * 180) / Math.PI,
    radial: (arcTangent2(dot(direction, ulnar), ahead) * 180) / Math.PI,
  };
}

/** Jagged teeth: a sum of waves of two to six millimetres, none of which is the same in two seeds. */
function teeth(amplitude: number, random: Random): BreakSurface {
  const waves = Array.from({ length: 9 }, (_, n) => {
    const heading = between(random, 0, 2 * Math.PI);
    const wave = (2 * Math.PI) / between(random, n < 5 ? 3 : 1.3, n < 5 ? 7 : 2.6);
    return {
      a: wave * cosine(heading),
      b: wave * sine(heading),
      phase: between(random, 0, 2 * Math.PI),
      height: amplitude * (n < 5 ? 0.42 : 0.2) * normalDeviate(random),
    };
  });
  return (a, b) => {
    let height = 0;
    for (const wave of waves) {
      // A triangle wave has sharp crests, as splintered cortex has.
      const turns = (wave.a * a + wave.b * b + wave.phase) / (2 * Math.PI);
      height += wave.height * (4 * Math.abs(turns - Math.floor(turns) - 0.5) - 1);
    }
    return height;
  };
}

/**
 * Breaks a metacarpal.
 *
 * @param headRadius - Radius of the head's ball, mm.
 */
export function breakBone(tube: Tube, headRadius: number, spec: FractureSpec, random: Random): Break {
  const [lowest, highest] = LEVELS[spec.region];
  const drawn = between(random, lowest, highest);
  const level = spec.level ?? drawn;
  const placeMm = level * tube.lengthMm;
  const jag = teeth(spec.jagMm, random);
  const slope = sine(radians(spec.obliquityDegrees)) / cosine(radians(spec.obliquityDegrees));
  const halfDorsal = lookUp(tube.outer.halfDorsal, TABLE_PER_MM, placeMm);
  // A third fragment takes a wedge from both sides of the break, on the volar side.
  const wedge = (b: number): number =>
    spec.fragments === 'two' ? 0 : Math.max(0, (-b - 0.15 * halfDorsal) * 1.15);
  const wedgeHeight = 1.6;
  const proximalSurface: BreakSurface = (a, b) => placeMm - slope * b + jag(a, b) - wedge(b);
  const distalSurface: BreakSurface = (a, b) =>
    placeMm + spec.gapMm - slope * b + jag(a, b) + wedge(b) * (wedgeHeight - 1);

  const axes = fragmentAxes(tube, headRadius, placeMm, placeMm + spec.gapMm);
  const proximal = unit(subtract(axes.proximalAxis.to, axes.proximalAxis.from));
  const distal = unit(subtract(axes.distalAxis.to, axes.distalAxis.from));
  const { apexDorsalDegrees, apexRadialDegrees } = spec;
  const { turn, degrees } =
    spec.angleMeaning === 'between-axes'
      ? swing(distal, tilted(proximal, apexDorsalDegrees, apexRadialDegrees))
      : swing(proximal, tilted(proximal, apexDorsalDegrees, apexRadialDegrees));
  const swung = apexAngles(proximal, turnOnly(turn, proximal));
  const twist = turnAbout(distal, spec.axialTurnDegrees);
  const centre = centrePoint(tube, placeMm);
  const hinge: Vector = [centre[0], centre[1], centre[2] + spec.hinge * halfDorsal];
  const rotated: Placing = {
    origin: [0, 0, 0],
    ulnar: turnOnly(turn, twist.ulnar),
    distal: turnOnly(turn, twist.distal),
    dorsal: turnOnly(turn, twist.dorsal),
  };
  const displaced: Vector = add(add(hinge, scale(proximal, -spec.shorteningMm)), [
    -spec.translationRadialMm,
    0,
    spec.translationDorsalMm,
  ]);
  // Twisted about the bone's middle, then swung about the hinge, then moved.
  const motion: Placing = {
    ...rotated,
    origin: add(displaced, subtract(turnOnly(turn, subtract(centre, hinge)), turnOnly(rotated, centre))),
  };
  return {
    spec,
    level,
    placeMm,
    proximalSurface,
    distalSurface,
    wedgeSurface:
      spec.fragments === 'two' ? null : (a, b) => proximalSurface(a, b) + wedgeHeight * wedge(b) * 0.97,
    motion,
    swingDegrees: degrees,
    swingDorsalDegrees: swung.dorsal,
    swingRadialDegrees: swung.radial,
    ...axes,
  };
}

/** The distal axis where the fragment lies now. */
export const movedDistalAxis = (broken: Break): BoneAxis => ({
  from: place(broken.motion, broken.distalAxis.from),
  to: place(broken.motion, broken.distalAxis.to),
});
