import type { Milestone } from '../../tolerance/milestones.ts';

/** A milestone in days since the injury. */
export type DatedMilestone = Milestone & {
  /** Its days are meant from a reduction or operation, and no film after one is there: counted from the injury. */
  readonly reductionNotKnown: boolean;
};

/** Milestones in days since the injury, earliest first. */
export const inDaysSinceInjury = (
  milestones: readonly Milestone[],
  reductionDay: number | null,
): readonly DatedMilestone[] =>
  milestones
    .map((milestone) => {
      const start = milestone.since === 'reduction' ? (reductionDay ?? 0) : 0;
      return {
        ...milestone,
        fromDay: milestone.fromDay + start,
        toDay: milestone.toDay + start,
        reductionNotKnown: milestone.since === 'reduction' && reductionDay === null,
      };
    })
    .toSorted((one, other) => one.fromDay - other.fromDay || one.toDay - other.toDay);

/** Always in sight, so that an early case does not stretch over one day. */
const SHORTEST_DAYS = 28;

/** The last day of the axis: the last film, and the milestone that comes after it. */
export function lastDayShown(days: readonly number[], milestones: readonly DatedMilestone[]): number {
  const last = Math.max(0, ...days);
  const ahead = milestones.filter(({ toDay }) => toDay > last).map(({ toDay }) => toDay);
  return Math.max(SHORTEST_DAYS, last + 7, ahead.length === 0 ? 0 : Math.min(...ahead) + 2);
}
