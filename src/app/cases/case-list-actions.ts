import { change } from '../../case/apply.ts';
import type { ConflictGroup } from '../../case/conflict-groups.ts';
import type { CaseDocument } from '../../case/document.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { taking } from '../../case/merge.ts';
import { newCase, showCase } from '../case-file-actions.ts';
import { inTurn } from '../in-turn.ts';
import { perform, put, type Shell } from '../shell.ts';
import type { PendingConflicts } from '../state.ts';

/** Puts a kept case on screen. */
export function openCase(shell: Shell, id: string): Promise<boolean> {
  return inTurn(shell, async () => {
    if (shell.store.getState().caseState.document.id === id) return true;
    const whole = await shell.keeper.open(id);
    if (whole === null) return false;
    showCase(shell, whole);
    return true;
  });
}

const RENAME = 'label the case';

export async function renameCase(shell: Shell, id: string, label: string): Promise<void> {
  const { document } = shell.store.getState().caseState;
  if (document.id === id) {
    put(shell, RENAME, { ...injuryOf(document), label });
  } else {
    await shell.keeper.change(id, (state) => ({
      kind: 'do',
      transaction: change(state.document, RENAME, shell.now(), { ...injuryOf(state.document), label }),
    }));
  }
  shell.store.setState(({ listing }) => ({ listing: listing + 1 }));
}

/** Removes a case for good; when it is the one on screen, another one takes its place. */
export async function deleteCase(shell: Shell, id: string): Promise<void> {
  if (!(await shell.keeper.remove(id))) return;
  shell.store.setState(({ conflicts }) => ({
    conflicts: conflicts.filter((pending) => pending.caseId !== id && pending.copyId !== id),
  }));
  if (shell.store.getState().caseState.document.id !== id) return;
  for (const other of await shell.keeper.list()) {
    if (await openCase(shell, other.id)) return;
  }
  await newCase(shell);
}

/** Takes the other version of some things after all; the case must be on screen, so that it can be undone. */
export async function takeOther(
  shell: Shell,
  pending: PendingConflicts,
  groups: readonly ConflictGroup[],
): Promise<void> {
  if (!(await openCase(shell, pending.caseId))) return;
  const conflicts = groups.flatMap((group) => group.conflicts);
  const { document } = shell.store.getState().caseState;
  const now = conflicts.map((conflict) => ({ ...conflict, mine: recordNow(document, conflict.id) }));
  if (perform(shell, { kind: 'do', transaction: taking(now, shell.now()) })) settle(shell, pending, groups);
}

const recordNow = (document: CaseDocument, id: keyof CaseDocument['records']) => document.records[id] ?? null;

/** Counts some things as decided; the other version stays in the list until it is removed. */
export function settle(shell: Shell, pending: PendingConflicts, groups: readonly ConflictGroup[]): void {
  const settled = new Set(groups.flatMap((group) => group.conflicts.map(({ id }) => id)));
  shell.store.setState(({ conflicts }) => ({
    conflicts: conflicts.flatMap((one) => {
      if (one.copyId !== pending.copyId) return [one];
      const left = one.conflicts.filter(({ id }) => !settled.has(id));
      return left.length === 0 ? [] : [{ ...one, conflicts: left }];
    }),
  }));
}
