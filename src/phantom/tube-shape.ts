import { type CurvePoints, smoothMax, smoothStep, tabulate } from './curve.ts';
import { cosine, power, sine } from './exact-maths.ts';
import { type SectionTables, TABLE_PER_MM, type Tube, tablePlaces } from './tube.ts';

/** A bone's outline and inside as curves of the share of its length. Half widths and cortex in mm. */
export interface TubePlan {
  readonly lengthMm: number;
  readonly halfUlnar: CurvePoints;
  readonly halfDorsal: CurvePoints;
  readonly cortex: CurvePoints;
  /** Share of bone in the cavity. */
  readonly cancellous: CurvePoints;
  readonly squareness: CurvePoints;
  readonly triangle: CurvePoints;
  /** Degrees by which the centreline has turned volar at each place. */
  readonly volarTurn: CurvePoints;
  /** Sideways course of the centreline, mm ulnar. */
  readonly sideways: CurvePoints;
  /** Rounding of the edge of the base, mm. */
  readonly baseRounding: number;
  /** The distal end: a ball round its centre, or a roller across the finger with a rounded rim. */
  readonly head:
    | { readonly kind: 'ball'; readonly radius: number }
    | { readonly kind: 'roller'; readonly radius: number; readonly rounding: number };
  readonly endShape: Tube['endShape'];
}

/** The same bone of a larger or smaller hand. */
export function sized(plan: TubePlan, size: number): TubePlan {
  const grown = (points: CurvePoints): CurvePoints => points.map(([at, mm]) => [at, mm * size]);
  const { head, endShape } = plan;
  return {
    ...plan,
    lengthMm: plan.lengthMm * size,
    halfUlnar: grown(plan.halfUlnar),
    halfDorsal: grown(plan.halfDorsal),
    cortex: grown(plan.cortex),
    sideways: grown(plan.sideways),
    baseRounding: plan.baseRounding * size,
    head:
      head.kind === 'ball'
        ? { ...head, radius: head.radius * size }
        : { ...head, radius: head.radius * size, rounding: head.rounding * size },
    endShape: endShape === null ? null : (s, a, b) => size * endShape(s / size, a / size, b / size),
  };
}

/** Height at distance x from the centre of a circle; 0 outside. */
const circle = (radius: number, x: number): number => Math.sqrt(Math.max(0, radius * radius - x * x));

/** Narrows a profile towards an end as a quarter circle of the given radius. */
const rounded = (half: number, rounding: number, fromEnd: number): number =>
  fromEnd >= rounding ? half : half - rounding + circle(rounding, rounding - fromEnd);

/** The profile moved inwards by the thickness of the cortex, at right angles to its own outline. */
function hollow(profile: Float64Array, cortex: Float64Array): Float64Array {
  return profile.map((_, i) => {
    const t = cortex[i]!;
    const reach = Math.ceil(t * TABLE_PER_MM);
    let least = Number.POSITIVE_INFINITY;
    for (let k = -reach; k <= reach; k += 1) {
      const distance = k / TABLE_PER_MM;
      if (Math.abs(distance) > t) continue;
      least = Math.min(least, (profile[i + k] ?? 0) - circle(t, distance));
    }
    return Math.max(0, least);
  });
}

/** Works the tables of a tube out of its plan. */
export function shapeTube(plan: TubePlan): Tube {
  const { lengthMm } = plan;
  const places = tablePlaces(lengthMm);
  const shares = places.map((s) => s / lengthMm);
  const halfUlnar = tabulate(plan.halfUlnar, shares);
  const halfDorsal = tabulate(plan.halfDorsal, shares);
  const cortex = tabulate(plan.cortex, shares);
  const { head } = plan;
  places.forEach((s, i) => {
    const fromEnd = lengthMm - s;
    const x = s - (lengthMm - head.radius);
    const sagittal = circle(head.radius, x);
    // The neck's own outline dies away under the head.
    const neck = halfDorsal[i]! * (1 - smoothStep(-0.35 * head.radius, 0.2 * head.radius, x));
    const dorsal = x < -head.radius ? halfDorsal[i]! : smoothMax(neck, sagittal, 0.8);
    halfDorsal[i] = rounded(x > 0 ? sagittal : dorsal, plan.baseRounding, s);
    if (head.kind === 'ball') {
      // From the front the head is squarer than a ball: flat sides, a flattened dome. Its sides come with the plan.
      const t = Math.min(1, Math.max(0, x / head.radius));
      const dome = power(1 - power(t, 2.5), 1 / 2.5);
      halfUlnar[i] = rounded(halfUlnar[i]! * dome, plan.baseRounding, s);
    } else {
      halfUlnar[i] = rounded(rounded(halfUlnar[i]!, head.rounding, fromEnd), plan.baseRounding, s);
    }
  });
  const outer: SectionTables = { halfUlnar, halfDorsal };
  const inner: SectionTables = {
    halfUlnar: hollow(halfUlnar, cortex),
    halfDorsal: hollow(halfDorsal, cortex),
  };
  return {
    lengthMm,
    outer,
    inner,
    ...centreline(plan, places, shares),
    squareness: tabulate(plan.squareness, shares),
    triangle: tabulate(plan.triangle, shares),
    cancellous: tabulate(plan.cancellous, shares),
    endShape: plan.endShape,
  };
}

/**
 * Adds the slopes up to a course, then turns the whole so that the centre of the base and the centre of the
 * head lie on the long axis: a bent bone stays where its joints are.
 */
function centreline(
  plan: TubePlan,
  places: Float64Array,
  shares: Float64Array,
): Pick<Tube, 'centreUlnar' | 'centreDistal' | 'centreDorsal' | 'slopeSine' | 'slopeCosine'> {
  const turn = tabulate(plan.volarTurn, shares).map((degrees) => (degrees * Math.PI) / 180);
  const course = (offset: number): { y: Float64Array; z: Float64Array } => {
    const y = new Float64Array(places.length);
    const z = new Float64Array(places.length);
    for (let i = 1; i < places.length; i += 1) {
      const step = places[i]! - places[i - 1]!;
      const slope = offset - (turn[i]! + turn[i - 1]!) / 2;
      y[i] = y[i - 1]! + step * cosine(slope);
      z[i] = z[i - 1]! + step * sine(slope);
    }
    return { y, z };
  };
  const headAt = Math.round((plan.lengthMm - plan.head.radius) * TABLE_PER_MM);
  let offset = 0;
  for (let round = 0; round < 4; round += 1) {
    const { y, z } = course(offset);
    offset -= z[headAt]! / y[headAt]!;
  }
  const { y, z } = course(offset);
  return {
    centreUlnar: tabulate(plan.sideways, shares),
    centreDistal: y,
    centreDorsal: z,
    slopeSine: turn.map((angle) => sine(offset - angle)),
    slopeCosine: turn.map((angle) => cosine(offset - angle)),
  };
}
