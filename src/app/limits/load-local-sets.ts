import type { LimitSet } from '../../tolerance/limit-set.ts';
import { type Shell, say } from '../shell.ts';
import { byTitle } from './sets.ts';

/** Brings the local protocols kept in this browser to the state; one that does not validate is said and left. */
export async function loadLocalSets(shell: Shell): Promise<void> {
  const kept = (await shell.protocols?.limitSets()) ?? [];
  if (kept.length === 0) return;
  const { checkLimitSet } = await import('../../tolerance/limit-set-file.ts');
  const sets: LimitSet[] = [];
  for (const content of kept) {
    const checked = checkLimitSet(content, 'A local protocol of this browser');
    if (checked.ok) sets.push({ ...checked.value, local: true });
    else say(shell, checked.error.message);
  }
  shell.store.setState({ localSets: byTitle(sets) });
}
