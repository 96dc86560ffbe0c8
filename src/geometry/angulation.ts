import { type Apex, apexOf, type SideFailure, sideOf, type TappedSide } from './apex.ts';
import { turnBetween, wrapDegrees } from './axis.ts';
import { type AxisInput, type AxisPair, angleInputs, type SharedPoint, turnFrom } from './axis-input.ts';
import { type AxisFailure, constructAxis } from './constructions.ts';
import { LEAST_ORIENTATION_MARGIN, type OrientedPair, orientPair } from './orient.ts';
import { isShortForPlacing } from './placing.ts';
import { type Measured, propagate } from './propagate.ts';
import { failure, type Result, success } from './result.ts';

export interface AngulationInput extends AxisPair {
  readonly tapped: TappedSide | null;
  readonly shared?: readonly SharedPoint[];
}

export interface AngulationReading extends Measured {
  /** Whether `value` carries a sign. Without a tapped side it is the size of the angle, ≥ 0. */
  readonly signed: boolean;
  /** The way the bone is bent, in words; null without a side, or at exactly 0. */
  readonly apex: Apex | null;
  /** Oriented from proximal to distal. */
  readonly axes: OrientedPair;
  readonly flags: {
    /** The axis is shorter than 20 × its placing error: the stated uncertainty is a little too small. */
    readonly proximalShortForPlacing: boolean;
    readonly distalShortForPlacing: boolean;
    /** Which end of an axis is the distal one could not be told from where the axes lie. */
    readonly directionUnsure: boolean;
  };
}

export type AngulationFailure =
  | { readonly kind: 'axis'; readonly which: 'proximal' | 'distal'; readonly failure: AxisFailure }
  | SideFailure;

/**
 * Angle from the proximal to the distal fragment axis, in degrees in (−180, 180], with its uncertainty.
 *
 *     θ = ± atan2(u × v, u · v)        u along the proximal axis, v along the distal one
 *
 * Positive is **apex dorsal** (apex radial on a PA film): the distal fragment tilts away from the tapped
 * side, so that the corner between the axes points towards it. A distal fragment tilting volar is apex
 * dorsal. Without a tapped side the result is the size of the angle and `signed` is false.
 *
 * Covers the placing of each axis's control points, a head circle's fit among them, or the tracer's own
 * uncertainty. Leaves out: turning of the hand out of the plane, disagreement over where the axis lies,
 * and an unknown difference between row and column spacing.
 *
 * @param input.shared - Points that are one placed point in both axes; each is one input, which makes the
 *   two axes correlated.
 *
 * Fails with `axis`, naming which and why, and `side-on-axis` when the tapped point cannot tell the sides apart.
 *
 * @example
 * // Axes 80 mm and 60 mm long, each point placed to 0.5 mm per coordinate:
 * // 0.5 · √2 · √(1/80² + 1/60²) rad = 0.01473 rad = 0.844° standard uncertainty
 *
 * @see JCGM 100:2008, 5.1.2 (10). docs/measurements/angulation.md.
 */
export function angulation(input: AngulationInput): Result<AngulationReading, AngulationFailure> {
  const { proximal, distal, tapped, shared = [] } = input;
  const built = { proximal: construct(proximal), distal: construct(distal) };
  if (!built.proximal.ok) {
    return failure({ kind: 'axis', which: 'proximal', failure: built.proximal.error });
  }
  if (!built.distal.ok) return failure({ kind: 'axis', which: 'distal', failure: built.distal.error });

  const axes = orientPair(built.proximal.value.axis, built.distal.value.axis);
  const side = tapped === null ? null : sideOf(tapped.at, axes, placingOf(input));
  if (side !== null && !side.ok) return side;

  const turn = turnBetween(axes.proximal, axes.distal);
  // Turning towards the tapped side is negative: the corner then points away from it.
  const sense = side === null ? (turn < 0 ? -1 : 1) : -side.value;
  const inputs = angleInputs(proximal, distal, shared);
  const result = propagate(
    (values) => normalised(sense * turnFrom(values, input, axes, inputs.places)),
    inputs.list,
    { difference: (a, b) => wrapDegrees(a - b) },
  );
  return success({
    ...result,
    signed: side !== null,
    apex: tapped === null ? null : apexOf(result.value, tapped.side),
    axes,
    flags: {
      proximalShortForPlacing: isShortForPlacing(axes.proximal, proximal.placing),
      distalShortForPlacing: isShortForPlacing(axes.distal, distal.placing),
      directionUnsure: axes.margin < LEAST_ORIENTATION_MARGIN,
    },
  });
}

const construct = (axis: AxisInput) => constructAxis(axis.points, axis.placing);

const placingOf = ({ proximal, distal }: AngulationInput): number =>
  Math.max(proximal.placing.standardUncertainty, distal.placing.standardUncertainty);

/** Into (−180, 180], with −0 made 0. */
const normalised = (angle: number): number => wrapDegrees(angle) + 0;
