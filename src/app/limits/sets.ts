import type { LimitSet } from '../../tolerance/limit-set.ts';
import { SHIPPED_LIMIT_SETS } from '../../tolerance/limit-sets.ts';

const known = new WeakMap<readonly LimitSet[], readonly LimitSet[]>();

/** Every limit set on this computer: those that ship, then the local ones. The same list for the same local sets. */
export function allSets(local: readonly LimitSet[]): readonly LimitSet[] {
  const before = known.get(local);
  if (before !== undefined) return before;
  const all = [...SHIPPED_LIMIT_SETS, ...local];
  known.set(local, all);
  return all;
}

/** In the order they are listed. */
export const byTitle = (sets: readonly LimitSet[]): readonly LimitSet[] =>
  sets.toSorted((one, other) => one.title.localeCompare(other.title, 'en'));
