import type { Hypothesis } from './hypothesis.ts';
import { acrossOnLine } from './pairs.ts';
import type { Weighed } from './weigh.ts';

/** Accounts that put the same bone in nearly the same place. */
export interface Group {
  readonly members: readonly Weighed[];
  readonly share: number;
  /** Mean direction of the members, by share, radians from the reference. */
  readonly direction: number;
}

/** Two accounts this near in direction, and as near at either end of the fragment, follow the same bone. */
const SAME_DIRECTION = (3 * Math.PI) / 180;
const SAME_PLACE_MM = 2.4;

/** Sorts weighed accounts into groups, the likeliest group first. */
export function grouped(weighed: readonly Weighed[]): Group[] {
  const groups: Weighed[][] = [];
  for (const account of weighed) {
    const home = groups.find(([leader]) => leader !== undefined && alike(leader, account));
    if (home === undefined) groups.push([account]);
    else home.push(account);
  }
  return groups
    .map((members) => {
      const share = members.reduce((sum, { bell }) => sum + bell.share, 0);
      const direction = members.reduce((sum, { bell }) => sum + bell.share * bell.mean, 0) / share;
      return { members, share, direction };
    })
    .sort((p, q) => q.share - p.share);
}

function alike(p: Weighed, q: Weighed): boolean {
  if (Math.abs(p.bell.mean - q.bell.mean) > SAME_DIRECTION) return false;
  if (
    (p.hypothesis.pair === null && p.hypothesis.head === null) !==
    (q.hypothesis.pair === null && q.hypothesis.head === null)
  )
    return false;
  const { line, frame } = p.hypothesis;
  return [0, frame.lengthMm].every(
    (along) => Math.abs(acrossOnLine(line, along) - acrossOnLine(q.hypothesis.line, along)) < SAME_PLACE_MM,
  );
}

/** The likeliest account of a group. */
export function leaderOf({ members }: Group): Hypothesis {
  const [leader] = members;
  if (leader === undefined) throw new RangeError('A group has at least one member.');
  return leader.hypothesis;
}
