import { change } from '../../case/apply.ts';
import { type CaseDocument, caseId } from '../../case/document.ts';
import { sameStructure } from '../../case/equal.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { act, type CaseState } from '../../case/history.ts';
import { type Conflict, commonBase, merge } from '../../case/merge.ts';
import { storageErrorSentence } from '../../storage/storage-error.ts';
import type { WholeCase } from '../keeper.ts';
import { perform, type Shell, say } from '../shell.ts';

/** What became of a case that came from a file. */
export type TakenIn =
  | { readonly kind: 'new' | 'same' | 'merged' | 'mended' }
  | { readonly kind: 'conflicts'; readonly conflicts: readonly Conflict[] }
  /** It was not kept, and why has been said. */
  | { readonly kind: 'refused' };

/**
 * Keeps a case that came from a file; its films are kept already. A case of the same id that is here is put together
 * with it, and neither side is lost: what both changed stays as it is here, and the file's version is kept as a case of
 * its own.
 */
export async function takeIn(shell: Shell, theirs: WholeCase): Promise<TakenIn> {
  const { id } = theirs.state.document;
  const onScreen = shell.store.getState().caseState;
  const isOnScreen = onScreen.document.id === id;
  const kept = isOnScreen ? null : await shell.keeper.read(id);
  if (kept !== null && !kept.ok) {
    if (kept.error.kind !== 'case-not-found' && kept.error.kind !== 'case-unreadable') {
      say(shell, storageErrorSentence(kept.error));
      return { kind: 'refused' };
    }
    const isNew = kept.error.kind === 'case-not-found';
    return (await shell.keeper.put(theirs)) ? { kind: isNew ? 'new' : 'mended' } : { kind: 'refused' };
  }
  const mine = kept === null ? onScreen : kept.value.state;
  if (sameStructure(mine.document, theirs.state.document)) return { kind: 'same' };
  const merged = merge(commonBase(mine, theirs.state), mine.document, theirs.state.document, shell.now());
  // Both have the same id, which is all that could be refused.
  if (!merged.ok) return { kind: 'refused' };
  const { transaction, conflicts } = merged.value;
  const action = { kind: 'do', transaction } as const;
  const done = isOnScreen ? perform(shell, action) : await shell.keeper.change(id, () => action);
  if (!done) return { kind: 'refused' };
  if (conflicts.length === 0) return { kind: 'merged' };
  const copied = await keepOtherVersion(shell, theirs, conflicts, mine.document);
  return copied ? { kind: 'conflicts', conflicts } : { kind: 'refused' };
}

/** Keeps the version that did not prevail as a case of its own, and notes what is to be decided. */
export async function keepOtherVersion(
  shell: Shell,
  { state, unknownFields }: WholeCase,
  conflicts: readonly Conflict[],
  prevailing: CaseDocument,
): Promise<boolean> {
  const copyId = caseId(shell.newId());
  const copied: CaseState = { ...state, document: { ...state.document, id: copyId } };
  const injury = injuryOf(copied.document);
  const label = `${injury.label || 'Case without a label'} (other version)`;
  const renamed = change(copied.document, 'keep the other version', shell.now(), { ...injury, label });
  const done = act(copied, { kind: 'do', transaction: renamed });
  if (!(await shell.keeper.put({ state: done.ok ? done.value : copied, unknownFields }))) return false;
  shell.store.setState(({ conflicts: others }) => ({
    conflicts: [
      ...others.filter(({ caseId: other }) => other !== prevailing.id),
      { caseId: prevailing.id, copyId, label: injuryOf(prevailing).label, conflicts },
    ],
  }));
  return true;
}
