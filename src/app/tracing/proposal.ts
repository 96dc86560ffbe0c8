import type { Proposal, ProposalHold } from '../../drawing/proposal.ts';
import type { FilmPoint } from '../../geometry/units.ts';
import type { Correction, FragmentName, OutlineSide } from '../../trace/request.ts';
import type { OutlinePoint, TracedBone } from '../../trace/traced.ts';

/** Points of an outline that can be dragged: enough to bend it anywhere, few enough to walk through by keyboard. */
const HOLDS = 3;
const FRAGMENTS = ['proximal', 'distal'] as const satisfies readonly FragmentName[];
const SIDES = ['one', 'other'] as const satisfies readonly OutlineSide[];

/** A point of a found outline that can be dragged, with what it is a point of. */
export interface OutlineHold extends ProposalHold {
  readonly side: OutlineSide;
}

/** The points of the found outlines that can be dragged: evenly spread ones, and each that was put there by hand. */
export const holdsOf = (bone: TracedBone): readonly OutlineHold[] =>
  FRAGMENTS.flatMap((fragment) =>
    SIDES.flatMap((side) =>
      chosenPoints(bone[fragment][side]).map(
        ({ at, corrected }, index): OutlineHold => ({
          key: `${fragment}-${side}-${index + 1}`,
          name: `${fragment} fragment, ${side} cortex, point ${index + 1}${corrected ? ', corrected' : ''}`,
          fragment,
          side,
          at,
          corrected,
        }),
      ),
    ),
  );

/** Of the evenly spread points, those nearest to a corrected one give way to it. */
function chosenPoints(outline: readonly OutlinePoint[]): readonly OutlinePoint[] {
  const last = outline.length - 1;
  if (last < 1) return outline;
  const spread = Array.from({ length: HOLDS }, (_, k) => Math.round(((k + 0.5) * last) / HOLDS));
  const corrected = outline.flatMap((point, index) => (point.corrected ? [index] : []));
  for (const index of corrected) {
    const apart = spread.map((place) => (corrected.includes(place) ? Infinity : Math.abs(place - index)));
    const nearest = apart.indexOf(Math.min(...apart));
    if (spread.includes(index)) continue;
    if (apart[nearest] === Infinity) spread.push(index);
    else spread[nearest] = index;
  }
  return [...new Set(spread)].sort((p, q) => p - q).map((index) => outline[index]!);
}

/** The correction that dragging a hold makes, and the place of the earlier correction that it replaces. */
export function correctionBy(
  bone: TracedBone,
  key: string,
  at: FilmPoint,
): { readonly correction: Correction; readonly instead: FilmPoint | null } | null {
  const hold = holdsOf(bone).find((one) => one.key === key);
  if (hold === undefined) return null;
  const { fragment, side } = hold;
  return { correction: { fragment, side, at }, instead: hold.corrected ? hold.at : null };
}

/** What the plate draws of a finding. Where the tracer is not sure it shows its lines and no number. */
export function proposalOf(bone: TracedBone): Proposal {
  const { value, interval } = angleWords(bone);
  return {
    outlines: FRAGMENTS.flatMap((fragment) =>
      SIDES.map((side) => ({ fragment, points: bone[fragment][side].map(({ at }) => at) })),
    ),
    holds: holdsOf(bone),
    proximal: bone.proximal.axis,
    distal: bone.distal.axis,
    readout: { value: bone.sure ? value : 'not sure', uncertainty: bone.sure ? interval : null },
  };
}

/**
 * The size of the angle and its 95 % interval: "31°" and "27–35°". An interval that reaches past straight
 * begins at none.
 */
export function angleWords({ turnDegrees, interval }: TracedBone): {
  readonly value: string;
  readonly interval: string;
} {
  const way = turnDegrees < 0 ? -1 : 1;
  const ends = [way * interval.from, way * interval.to];
  const least = Math.max(0, Math.min(...ends));
  const most = Math.max(...ends.map(Math.abs));
  const whole = (size: number): string => size.toFixed(0);
  return { value: `${whole(Math.abs(turnDegrees))}°`, interval: `${whole(least)}–${whole(most)}°` };
}
