import { failure, type Result, success } from '../geometry/result.ts';
import { type ApplyError, apply, applyErrorSentence, invert, isEmpty } from './apply.ts';
import type { CaseDocument, Transaction } from './document.ts';

/**
 * What was done to a case and how much of it stands: the first `position` transactions are in the document,
 * those after it were undone and can be redone. Plain data, kept with the case.
 */
export interface History {
  readonly transactions: readonly Transaction[];
  readonly position: number;
}

/** A case with what was done to it. The two always belong together: only `act` makes the next one. */
export interface CaseState {
  readonly document: CaseDocument;
  readonly history: History;
}

/** What a user can do to a case. Storage appends these as they come; replaying them gives the same state. */
export type Action =
  | { readonly kind: 'do'; readonly transaction: Transaction }
  | { readonly kind: 'undo'; readonly at: string }
  | { readonly kind: 'redo'; readonly at: string };

export type ActionError =
  | ApplyError
  | { readonly kind: 'nothing-to-undo' }
  | { readonly kind: 'nothing-to-redo' };

/** Says to the person why an action was refused and what to do next. */
export function actionErrorSentence(error: ActionError): string {
  switch (error.kind) {
    case 'nothing-to-undo':
      return 'There is nothing to undo in this case: no change has been made since it was opened.';
    case 'nothing-to-redo':
      return 'There is nothing to redo in this case: nothing has been undone since the last change.';
    default:
      return applyErrorSentence(error);
  }
}

export const EMPTY_HISTORY: History = { transactions: [], position: 0 };

/** A case as opened: nothing to undo, because opening is not an action. */
export const freshState = (document: CaseDocument): CaseState => ({ document, history: EMPTY_HISTORY });

const doneLast = (history: History): Transaction | undefined => history.transactions[history.position - 1];
const undoneFirst = (history: History): Transaction | undefined => history.transactions[history.position];

export const canUndo = (history: History): boolean => doneLast(history) !== undefined;
export const canRedo = (history: History): boolean => undoneFirst(history) !== undefined;

/** "Undo move distal axis", or plain "Undo" when there is nothing to undo. */
export const undoName = (history: History): string => name('Undo', doneLast(history));

/** "Redo move distal axis", or plain "Redo" when there is nothing to redo. */
export const redoName = (history: History): string => name('Redo', undoneFirst(history));

const name = (verb: string, transaction: Transaction | undefined): string =>
  transaction === undefined ? verb : `${verb} ${transaction.label}`;

/**
 * The state after an action. Doing something new drops what was undone; an empty transaction changes nothing
 * and is not recorded. On failure the state given stays the one that holds.
 */
export function act(state: CaseState, action: Action): Result<CaseState, ActionError> {
  switch (action.kind) {
    case 'do':
      return perform(state, action.transaction);
    case 'undo':
      return undo(state);
    case 'redo':
      return redo(state);
  }
}

function perform(state: CaseState, transaction: Transaction): Result<CaseState, ActionError> {
  if (isEmpty(transaction)) return success(state);
  const applied = apply(state.document, transaction);
  if (!applied.ok) return applied;
  const done = state.history.transactions.slice(0, state.history.position);
  return success({
    document: applied.value,
    history: { transactions: [...done, transaction], position: done.length + 1 },
  });
}

function undo(state: CaseState): Result<CaseState, ActionError> {
  const last = doneLast(state.history);
  if (last === undefined) return failure({ kind: 'nothing-to-undo' });
  return moved(state, invert(last), -1);
}

function redo(state: CaseState): Result<CaseState, ActionError> {
  const next = undoneFirst(state.history);
  if (next === undefined) return failure({ kind: 'nothing-to-redo' });
  return moved(state, next, 1);
}

function moved(state: CaseState, transaction: Transaction, by: 1 | -1): Result<CaseState, ActionError> {
  const applied = apply(state.document, transaction);
  if (!applied.ok) return applied;
  return success({
    document: applied.value,
    history: { ...state.history, position: state.history.position + by },
  });
}
