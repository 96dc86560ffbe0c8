import { caseFileContent, caseFileErrorSentence } from '../case/case-content.ts';
import type { CaseDocument } from '../case/document.ts';
import { type Action, act, type CaseState, EMPTY_HISTORY } from '../case/history.ts';
import { CASE_FILE_VERSION } from '../case/migrations/current.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import type { ActionRow, CaseRow, Database } from './rows.ts';
import { type StorageError, storageErrorFrom } from './storage-error.ts';
import { filmHashesIn, filmHashesOf, summaryOf } from './summaries.ts';
import { written } from './written.ts';

/** A case as it was kept. */
export interface KeptCase {
  readonly state: CaseState;
  /** Give it to the next `appendAction`: it says which state of the case this one knows. */
  readonly sequence: number;
  /** Actions at the end of the log that could not be read, and are not in `state`. 0 as a rule. */
  readonly lostActions: number;
  /** Top-level fields of a case file that this version does not know. */
  readonly unknownFields: Readonly<Record<string, unknown>>;
  /**
   * What is kept is of an earlier version of the case file. An action of today's version cannot be done again on
   * it, so that the next write keeps the case whole.
   */
  readonly olderFormat: boolean;
}

type Kept<Value> = Promise<Result<Value, StorageError>>;

/** Written through to the disk before it is acknowledged. */
const STRICT = { durability: 'strict' } as const;
const CASE_STORES = ['cases', 'summaries', 'transactions'] as const;

/**
 * Keeps a whole case: one that is new here, or one whose last actions could not be kept one by one.
 *
 * @param expectedSequence - From `loadCase` or the last write; 0 for a case that is new here. Null replaces
 *   whatever is kept.
 * @param at - ISO 8601.
 * @returns The sequence to give to the next write.
 *
 * Fails with `changed-elsewhere` if another tab has written since, and `quota-exceeded`.
 */
export const saveCase = (
  database: Database,
  kept: Pick<KeptCase, 'state' | 'unknownFields'>,
  expectedSequence: number | null,
  at: string,
): Kept<number> => guarded(() => checkpoint(database, kept, expectedSequence, at, 1));

/**
 * Puts the actions of the log into the checkpoint, which keeps opening fast. Changes nothing of the case, so
 * that other tabs need not notice.
 *
 * @param kept - The case as it stands after the action of `expectedSequence`.
 */
export const compactCase = (
  database: Database,
  kept: Pick<KeptCase, 'state' | 'unknownFields'>,
  expectedSequence: number,
  at: string,
): Kept<number> => guarded(() => checkpoint(database, kept, expectedSequence, at, 0));

async function checkpoint(
  database: Database,
  { state, unknownFields }: Pick<KeptCase, 'state' | 'unknownFields'>,
  expectedSequence: number | null,
  at: string,
  raiseBy: 0 | 1,
): Kept<number> {
  const { id } = state.document;
  const transaction = database.transaction(CASE_STORES, 'readwrite', STRICT);
  const before = await transaction.objectStore('summaries').get(id);
  const found = before?.sequence ?? 0;
  if (expectedSequence !== null && found !== expectedSequence) {
    return changedElsewhere(id, expectedSequence, found);
  }
  const sequence = found + raiseBy;
  const file = caseFileContent(state, unknownFields);
  await written(transaction, [
    transaction.objectStore('cases').put({ id, file, sequence }),
    transaction.objectStore('transactions').delete(logOf(id)),
    transaction.objectStore('summaries').put(summaryOf(state, sequence, at, filmHashesOf(state))),
  ]);
  return success(sequence);
}

/**
 * Keeps one action. The answer comes when it is on the disk.
 *
 * @param state - The case after the action.
 * @param expectedSequence - From `loadCase` or the last write.
 * @returns The sequence to give to the next write.
 *
 * Fails with `changed-elsewhere` if another tab has written since, `case-not-found`, and `quota-exceeded`.
 */
export const appendAction = (
  database: Database,
  state: CaseState,
  action: Action,
  expectedSequence: number,
): Kept<number> =>
  guarded(async () => {
    const { id } = state.document;
    const transaction = database.transaction(['summaries', 'transactions'], 'readwrite', STRICT);
    const summaries = transaction.objectStore('summaries');
    const before = await summaries.get(id);
    if (before === undefined) return failure({ kind: 'case-not-found', caseId: id });
    if (before.sequence !== expectedSequence) {
      return changedElsewhere(id, expectedSequence, before.sequence);
    }
    const sequence = expectedSequence + 1;
    const hashes = new Set([...before.filmHashes, ...filmHashesIn(state.document)]);
    const at = action.kind === 'do' ? action.transaction.at : action.at;
    await written(transaction, [
      transaction.objectStore('transactions').add({ caseId: id, sequence, action }),
      summaries.put(summaryOf(state, sequence, at, hashes)),
    ]);
    return success(sequence);
  });

/**
 * A case with its history: the checkpoint with every action since.
 *
 * An action that cannot be done again ends the replay; what was read until then is given, with how many
 * actions are missing. Fails with `case-not-found`, and `case-unreadable` when the checkpoint is no case.
 */
export const loadCase = (database: Database, id: string): Kept<KeptCase> =>
  guarded(async () => {
    const transaction = database.transaction(CASE_STORES, 'readonly');
    const [row, actions, summary] = await Promise.all([
      transaction.objectStore('cases').get(id),
      transaction.objectStore('transactions').getAll(logOf(id)),
      transaction.objectStore('summaries').get(id),
    ]);
    if (row === undefined) return failure({ kind: 'case-not-found', caseId: id });
    const last = Math.max(row.sequence, actions.at(-1)?.sequence ?? 0, summary?.sequence ?? 0);
    return replay(row, actions, last);
  });

/** Removes a case from this computer. Films that only it named are swept at the next start. */
export const removeCase = (database: Database, id: string): Kept<void> =>
  guarded(async () => {
    const transaction = database.transaction(CASE_STORES, 'readwrite', STRICT);
    await written(transaction, [
      transaction.objectStore('cases').delete(id),
      transaction.objectStore('summaries').delete(id),
      transaction.objectStore('transactions').delete(logOf(id)),
    ]);
    return success(undefined);
  });

/**
 * The checkpoint with its actions, brought up to today's version and validated as one. Actions are done again as
 * they were written, before the migration: doing one only compares and exchanges records, whatever is in them.
 */
async function replay(row: CaseRow, actions: readonly ActionRow[], lastSequence: number): Kept<KeptCase> {
  // The schema is large, and on a first visit there is no case to read.
  const { readCaseContent } = await import('../case/case-file.ts');
  const withActions = redone(row, actions);
  const whole = readCaseContent(withActions.file);
  // If an action made nonsense of the case, the checkpoint before it may still be sound.
  const content = whole.ok ? whole : readCaseContent(row.file);
  if (!content.ok) {
    const detail = caseFileErrorSentence(content.error, 'it');
    return failure({ kind: 'case-unreadable', caseId: row.id, detail });
  }
  return success({
    state: content.value.state,
    sequence: lastSequence,
    lostActions: lastSequence - (whole.ok ? withActions.sequence : row.sequence),
    unknownFields: content.value.unknownFields,
    olderFormat: !isOfToday(row.file),
  });
}

const isOfToday = (file: unknown): boolean =>
  (file as { readonly version?: unknown } | null)?.version === CASE_FILE_VERSION;

function redone(row: CaseRow, actions: readonly ActionRow[]): Pick<CaseRow, 'file' | 'sequence'> {
  const { file } = row;
  if (actions.length === 0 || typeof file !== 'object' || file === null) return row;
  const { case: document, history } = file as { case: CaseDocument; history?: CaseState['history'] };
  let state: CaseState = { document, history: history ?? EMPTY_HISTORY };
  let { sequence } = row;
  for (const kept of actions) {
    if (kept.sequence !== sequence + 1) break;
    const next = doneAgain(state, kept.action as Action);
    if (next === null) break;
    state = next;
    sequence = kept.sequence;
  }
  return { file: { ...file, case: state.document, history: state.history }, sequence };
}

function doneAgain(state: CaseState, action: Action): CaseState | null {
  try {
    const next = act(state, action);
    return next?.ok ? next.value : null;
  } catch (thrown) {
    // What lies in the log is no action at all, or the checkpoint no case.
    if (thrown instanceof TypeError) return null;
    throw thrown;
  }
}

const logOf = (id: string): IDBKeyRange => IDBKeyRange.bound([id, 0], [id, Number.POSITIVE_INFINITY]);

const changedElsewhere = (caseId: string, expectedSequence: number, foundSequence: number) =>
  failure({ kind: 'changed-elsewhere' as const, caseId, expectedSequence, foundSequence });

async function guarded<Value>(
  work: () => Promise<Result<Value, StorageError>>,
): Promise<Result<Value, StorageError>> {
  try {
    return await work();
  } catch (thrown) {
    return failure(await storageErrorFrom(thrown));
  }
}
