import { failure, type Result, success } from '../geometry/result.ts';
import { DEFAULT_LIMIT_SET_ID } from '../tolerance/limit-sets.ts';
import {
  type CaseDocument,
  type CaseId,
  type CaseRecord,
  EXAMINATION_ID,
  INJURY_ID,
  type RecordId,
  SETTINGS_ID,
  type Step,
  type Transaction,
} from './document.ts';
import { sameStructure } from './equal.ts';

/** Why a transaction is not applied. The document stays as it was. */
export type ApplyError =
  /** A record is not what the step says it was before: the step was made for another state of the case. */
  | { readonly kind: 'not-as-expected'; readonly label: string; readonly recordId: RecordId }
  /** A mark would stay behind on a film that the case no longer holds. */
  | {
      readonly kind: 'mark-without-film';
      readonly label: string;
      readonly recordId: RecordId;
      readonly filmId: RecordId;
    }
  /** The injury, the examination and the settings are part of every case. */
  | { readonly kind: 'fixed-record-removed'; readonly label: string; readonly recordId: RecordId }
  /** A record stands under another id, or changed its kind. */
  | { readonly kind: 'wrong-record'; readonly label: string; readonly recordId: RecordId };

/** Says to the person what was refused and what to do next. */
export function applyErrorSentence(error: ApplyError): string {
  switch (error.kind) {
    case 'not-as-expected':
      return `“${error.label}” was made for another state of ${error.recordId}, so nothing was changed. Look at what the case holds now and do it again.`;
    case 'mark-without-film':
      return `“${error.label}” would leave the mark ${error.recordId} without its film ${error.filmId}, so nothing was changed. Remove the film together with its marks.`;
    case 'fixed-record-removed':
      return `“${error.label}” would remove ${error.recordId}, which every case has, so nothing was changed. Clear its entries instead.`;
    case 'wrong-record':
      return `“${error.label}” puts a record of another name or kind at ${error.recordId}, so nothing was changed. Save the case to a file and open it again.`;
  }
}

const FIXED_IDS: ReadonlySet<RecordId> = new Set([INJURY_ID, EXAMINATION_ID, SETTINGS_ID]);

/** A case in which nothing has been said or placed yet. */
export function emptyCase(id: CaseId): CaseDocument {
  return {
    id,
    records: {
      [INJURY_ID]: {
        kind: 'injury',
        id: INJURY_ID,
        label: '',
        hand: null,
        ray: null,
        region: null,
        pattern: null,
        ageGroup: null,
        date: null,
      },
      [EXAMINATION_ID]: { kind: 'examination', id: EXAMINATION_ID, answers: {} },
      [SETTINGS_ID]: {
        kind: 'settings',
        id: SETTINGS_ID,
        limitSetIds: [DEFAULT_LIMIT_SET_ID],
        normal: 'best',
        placingErrorMm: null,
        placingErrorDegreesOfFreedom: null,
        milestones: null,
      },
    },
  };
}

/** The record under an id, or null. */
export const recordOf = (document: CaseDocument, id: RecordId): CaseRecord | null =>
  Object.hasOwn(document.records, id) ? (document.records[id] ?? null) : null;

/** The step that makes `record` what the document holds under its id, whether it is there already or not. */
export const putRecord = (document: CaseDocument, record: CaseRecord): Step => ({
  id: record.id,
  before: recordOf(document, record.id),
  after: record,
});

/**
 * The steps that take a record out of the document; with a film go the marks on it, marks first.
 * Empty when the document holds no such record.
 */
export function removeRecord(document: CaseDocument, id: RecordId): readonly Step[] {
  const record = recordOf(document, id);
  if (record === null) return [];
  const marks =
    record.kind === 'film'
      ? Object.values(document.records).filter((other) => other.kind === 'mark' && other.filmId === id)
      : [];
  return [...marks, record].map((gone) => ({ id: gone.id, before: gone, after: null }));
}

/**
 * One user action that puts records into the document. Records that are there already, unchanged, make no
 * step, so that the transaction can be empty: see `isEmpty`.
 *
 * @param label - Completes "Undo …", e.g. "move distal axis".
 * @param at - ISO 8601, from the shell.
 */
export const change = (
  document: CaseDocument,
  label: string,
  at: string,
  ...records: readonly CaseRecord[]
): Transaction => ({
  label,
  at,
  steps: records
    .map((record) => putRecord(document, record))
    .filter((step) => !sameStructure(step.before, step.after)),
});

/** One user action that takes a record out of the document, with all that hangs on it. */
export const removal = (document: CaseDocument, label: string, at: string, id: RecordId): Transaction => ({
  label,
  at,
  steps: removeRecord(document, id),
});

/** Whether a transaction changes nothing and need not be recorded. */
export const isEmpty = (transaction: Transaction): boolean => transaction.steps.length === 0;

/** The transaction that takes `transaction` back: steps in reverse order, before and after exchanged. */
export const invert = (transaction: Transaction): Transaction => ({
  ...transaction,
  steps: transaction.steps.map((step) => ({ ...step, before: step.after, after: step.before })).reverse(),
});

/**
 * The document after a transaction. All of it is applied, or nothing.
 *
 * Fails with `not-as-expected` if a step's `before` is not, by structure, what the document holds at that
 * point; with `mark-without-film`, `fixed-record-removed` or `wrong-record` if the outcome would not be a case.
 */
export function apply(document: CaseDocument, transaction: Transaction): Result<CaseDocument, ApplyError> {
  if (isEmpty(transaction)) return success(document);
  const records = { ...document.records };
  const refused = applyInPlace(records, transaction);
  return refused === null ? success({ ...document, records }) : failure(refused);
}

/**
 * `apply` on records that only the caller holds, for long runs of transactions. Returns why it refused, or
 * null; after a refusal the records are of no further use.
 */
export function applyInPlace(
  records: Record<RecordId, CaseRecord>,
  { label, steps }: Transaction,
): ApplyError | null {
  let filmRemoved = false;
  for (const { id, before, after } of steps) {
    const found = Object.hasOwn(records, id) ? (records[id] ?? null) : null;
    if (!sameStructure(found, before)) return { kind: 'not-as-expected', label, recordId: id };
    if (after === null) {
      if (FIXED_IDS.has(id)) return { kind: 'fixed-record-removed', label, recordId: id };
      filmRemoved ||= found?.kind === 'film';
      delete records[id];
    } else {
      if (after.id !== id || (found !== null && found.kind !== after.kind)) {
        return { kind: 'wrong-record', label, recordId: id };
      }
      records[id] = after;
    }
  }
  // Only what the steps put can have lost its film, unless a film went; then every mark is looked at.
  const suspects = filmRemoved
    ? Object.values(records)
    : steps.map((step) => records[step.id]).filter((record) => record !== undefined);
  for (const record of suspects) {
    if (record.kind !== 'mark') continue;
    const film = Object.hasOwn(records, record.filmId) ? records[record.filmId] : undefined;
    if (film?.kind !== 'film') {
      return { kind: 'mark-without-film', label, recordId: record.id, filmId: record.filmId };
    }
  }
  return null;
}
