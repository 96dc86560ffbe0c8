import { type Axis, middleOf, reversed, turnBetween } from './axis.ts';
import { type Degrees, degrees } from './units.ts';

export interface OrientedPair {
  /** Run from proximal to distal. */
  readonly proximal: Axis;
  readonly distal: Axis;
  /** Whether each was turned round to get there; kept fixed while uncertainty is propagated. */
  readonly proximalReversed: boolean;
  readonly distalReversed: boolean;
  /**
   * How far the pair is from being turned the wrong way round: 90° less the greater angle between an axis
   * and the line that joins the two middles. In [0, 90] degrees.
   */
  readonly margin: Degrees;
}

/** Below this margin the direction of an axis is a coin toss, and the reading says so. */
export const LEAST_ORIENTATION_MARGIN = degrees(10);

/**
 * Runs two axes from proximal to distal, whichever way their points were placed: the proximal axis towards
 * the middle of the distal one, the distal axis away from the middle of the proximal one.
 *
 * Sound while each axis makes less than 90° with the line that joins the two middles. That holds for two
 * fragments that still meet end to end and are angulated by less than 90°. It stops holding when
 * - the angulation comes near 90° or passes it, on a fragment that is long beside the other;
 * - the fragments lie side by side (bayonet), displaced sideways by more than they are apart lengthwise;
 * - the two axes overlap along the bone, so that their middles lie close together.
 * `margin` says how near that is; below `LEAST_ORIENTATION_MARGIN` the answer is not to be relied upon.
 */
export function orientPair(proximal: Axis, distal: Axis): OrientedPair {
  const join: Axis = {
    from: middleOf(proximal.from, proximal.to),
    to: middleOf(distal.from, distal.to),
  };
  const proximalReversed = Math.abs(turnBetween(join, proximal)) > 90;
  const distalReversed = Math.abs(turnBetween(join, distal)) > 90;
  const oriented = {
    proximal: proximalReversed ? reversed(proximal) : proximal,
    distal: distalReversed ? reversed(distal) : distal,
  };
  const greatest = Math.max(
    Math.abs(turnBetween(join, oriented.proximal)),
    Math.abs(turnBetween(join, oriented.distal)),
  );
  const joined = join.from.x !== join.to.x || join.from.y !== join.to.y;
  return { ...oriented, proximalReversed, distalReversed, margin: degrees(joined ? 90 - greatest : 0) };
}
