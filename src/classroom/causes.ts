import { distanceToAxis, middleOf, turnBetween } from '../geometry/axis.ts';
import { toDegrees } from '../geometry/units.ts';
import type { PhantomRay } from '../phantom/spec.ts';
import { type PointError, pointErrors } from './placed-points.ts';
import type { AxisError, Reveal } from './reveal.ts';
import { type FragmentName, onPlane } from './true-axes.ts';

/** Why a reading came out as it did. `adds` is how many degrees of it this explains, with its sign. */
export type Cause =
  | {
      readonly kind: 'wrong-finger';
      readonly fragment: FragmentName;
      readonly ray: PhantomRay;
      /** Mean distance from that finger's axis, and from the one that was asked for, mm. */
      readonly distanceMm: number;
      readonly ownDistanceMm: number;
      readonly adds: number;
    }
  | { readonly kind: 'wrong-side'; readonly adds: number }
  | { readonly kind: 'point-off'; readonly point: PointError; readonly adds: number }
  | {
      readonly kind: 'axis-too-short';
      readonly fragment: FragmentName;
      readonly lengthMm: number;
      readonly couldBeMm: number;
      /** By how much one millimetre at one end turns it. */
      readonly degreesPerMm: number;
      readonly adds: number;
    }
  | {
      readonly kind: 'axis-tilted';
      readonly fragment: FragmentName;
      readonly fromMm: number;
      readonly toMm: number;
      readonly adds: number;
    }
  | { readonly kind: 'normal-not-subtracted'; readonly normal: number; readonly adds: number }
  | {
      readonly kind: 'normal-of-others';
      readonly normal: number;
      readonly taken: number;
      readonly adds: number;
    }
  | {
      /** Not an error of the reading: what the film itself shows otherwise than it is. */
      readonly kind: 'view-oblique';
      readonly turnDegrees: number;
      readonly leanDegrees: number;
      readonly shown: number;
      readonly inPlane: number;
      readonly adds: number;
    };

/** What moves a reading by less is not worth a sentence. */
const LEAST_DEGREES = 1;
const LEAST_VIEW_DEGREES = 2;
/** An axis shorter than this share of what could be drawn is called short. */
const SHORT_SHARE = 0.6;
/** Another finger's axis must be nearer by this much, and the own one this far, before the finger is doubted. */
const NEARER_MM = 1.5;
const FAR_MM = 3;

/**
 * Where the error of a reading came from, largest first. Every entry is worked out: an axis by where its ends lie, a
 * point by what the angle would be if that point alone were put where the bone's edge is.
 *
 * `view-oblique` stands apart: even a perfect reading of that film differs from the bone by so much.
 */
export function causesOf(found: Reveal): readonly Cause[] {
  const causes = [
    ...axisCauses(found, found.proximal),
    ...axisCauses(found, found.distal),
    ...sideCause(found),
    ...normalCauses(found),
    ...viewCause(found),
  ];
  return causes.toSorted((one, other) => Math.abs(other.adds) - Math.abs(one.adds));
}

function axisCauses(found: Reveal, axis: AxisError): readonly Cause[] {
  const { fragment, addsDegrees: adds, fromMm, toMm } = axis;
  const finger = otherFinger(found, axis);
  if (finger !== null) return [{ ...finger, adds }];
  if (Math.abs(adds) < LEAST_DEGREES) return [];
  const points = pointErrors(fragment, axis.points, axis.placed, found.bone, found.neighbours)
    .map((point) => ({ kind: 'point-off' as const, point, adds: pointAdds(axis, point) }))
    // Only what pulled the way the axis is off explains anything.
    .filter((cause) => cause.adds * adds > 0 && Math.abs(cause.adds) >= LEAST_DEGREES)
    .toSorted((one, other) => Math.abs(other.adds) - Math.abs(one.adds))
    .slice(0, 2);
  const short = isShort(axis)
    ? [
        {
          kind: 'axis-too-short' as const,
          fragment,
          lengthMm: axis.lengthMm,
          couldBeMm: axis.trueLengthMm,
          degreesPerMm: toDegrees(Math.atan(1 / axis.lengthMm)),
          adds,
        },
      ]
    : [];
  const named = [...short, ...points];
  return named.length > 0 ? named : [{ kind: 'axis-tilted', fragment, fromMm, toMm, adds }];
}

/** The share of the axis's error that goes when the point is put right; the axis adds with its turn. */
const pointAdds = ({ addsDegrees, trueAxis, placed }: AxisError, { mendingTurn }: PointError): number => {
  const off = turnBetween(trueAxis, placed);
  return off === 0 ? 0 : (-mendingTurn / off) * addsDegrees;
};

/** The lever of a head construction is what it is; other axes could have been drawn along the whole fragment. */
const isShort = ({ points, lengthMm, trueLengthMm, trueBy }: AxisError): boolean =>
  points.construction !== 'head' && trueBy !== 'head-centre' && lengthMm < SHORT_SHARE * trueLengthMm;

type WrongFinger = Omit<Extract<Cause, { kind: 'wrong-finger' }>, 'adds'>;

/** Another finger along whose bone the axis was drawn. */
function otherFinger(
  { bone, neighbours, film, ray }: Reveal,
  { fragment, placed }: AxisError,
): WrongFinger | null {
  const distance = (of: PhantomRay): number => {
    const truth = film.truth.rays.find((candidate) => candidate.ray === of)!;
    const axis = onPlane(fragment === 'proximal' ? truth.proximalAxis : truth.distalAxis, bone.scale);
    const points = [placed.from, middleOf(placed.from, placed.to), placed.to];
    return points.reduce((sum, point) => sum + distanceToAxis(point, axis), 0) / points.length;
  };
  const ownDistanceMm = distance(ray);
  if (ownDistanceMm < FAR_MM) return null;
  const [nearest] = neighbours
    .map(([other]) => ({ ray: other, distanceMm: distance(other) }))
    .toSorted((one, other) => one.distanceMm - other.distanceMm);
  if (nearest === undefined || nearest.distanceMm + NEARER_MM > ownDistanceMm) return null;
  return { kind: 'wrong-finger', fragment, ...nearest, ownDistanceMm };
}

const sideCause = ({ sideAdds }: Reveal): readonly Cause[] =>
  sideAdds === 0 ? [] : [{ kind: 'wrong-side', adds: sideAdds }];

function normalCauses({ asked, normal, normalTaken }: Reveal): readonly Cause[] {
  if (asked !== 'deformity' || normalTaken === null) return [];
  const taken = normalTaken.value;
  const adds = normal - taken;
  if (Math.abs(adds) < LEAST_DEGREES) return [];
  return taken === 0 && normalTaken.standardUncertainty === 0
    ? [{ kind: 'normal-not-subtracted', normal, adds }]
    : [{ kind: 'normal-of-others', normal, taken, adds }];
}

/** What this film shows against the bend within the bone's own sagittal or coronal plane. */
function viewCause({ film: { truth }, ray, side }: Reveal): readonly Cause[] {
  const fracture = truth.fractures.find((one) => one.ray === ray);
  const bone = truth.rays.find((one) => one.ray === ray);
  if (fracture === undefined || bone === undefined) return [];
  const inPlane = side === 'radial' ? fracture.apexRadialDegrees : fracture.apexDorsalDegrees;
  const shown = Math.sign(inPlane || 1) * bone.projectedAngleDegrees;
  const adds = shown - inPlane;
  if (Math.abs(adds) < LEAST_VIEW_DEGREES) return [];
  const { turnDegrees, leanDegrees } = truth.spec.view;
  return [{ kind: 'view-oblique', turnDegrees, leanDegrees, shown, inPlane, adds }];
}
