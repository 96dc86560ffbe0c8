import { commonBase, merge } from '../../case/merge.ts';
import { showCase } from '../case-file-actions.ts';
import { inTurn } from '../in-turn.ts';
import { perform, type Shell, say } from '../shell.ts';
import { keepOtherVersion } from './take-in.ts';

/**
 * Takes over what another tab did to the case on screen, and puts onto it what was done here and could not be kept.
 * What both changed stays as the other tab left it, and this tab's version is kept as a case of its own.
 */
export const joinOtherTab = (shell: Shell): Promise<void> => inTurn(shell, () => join(shell));

async function join(shell: Shell): Promise<void> {
  const theirs = await shell.keeper.open(shell.store.getState().caseState.document.id);
  if (theirs === null) return;
  // Only now: what was done while the other version was being read must not be passed over.
  const { caseState: mine, unknownFields, chosenFilm } = shell.store.getState();
  if (mine.document.id !== theirs.state.document.id) return;
  const merged = merge(commonBase(theirs.state, mine), theirs.state.document, mine.document, shell.now());
  // Refused only for two different cases.
  if (!merged.ok) return;
  const { transaction, conflicts } = merged.value;
  showCase(shell, theirs, chosenFilm);
  perform(shell, { kind: 'do', transaction });
  if (conflicts.length === 0) {
    say(shell, 'The changes of both tabs are in the case now.');
    return;
  }
  if (await keepOtherVersion(shell, { state: mine, unknownFields }, conflicts, theirs.state.document))
    say(
      shell,
      `Both tabs had changed the same ${conflicts.length === 1 ? 'thing' : `${conflicts.length} things`}. The case is as the other tab left it there, and this tab’s version is kept as a case of its own: see Cases.`,
    );
}
