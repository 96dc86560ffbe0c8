import { failure, type Result, success } from '../geometry/result.ts';
import { apply, invert, recordOf } from './apply.ts';
import type { CaseDocument, CaseRecord, RecordId, Step, Transaction } from './document.ts';
import { sameStructure } from './equal.ts';
import type { CaseState } from './history.ts';

/** A record that both sides changed, differently. Null: not there on that side. */
export interface Conflict {
  readonly id: RecordId;
  /** What both started from; null when neither had it, or when it is not known. */
  readonly base: CaseRecord | null;
  readonly mine: CaseRecord | null;
  readonly theirs: CaseRecord | null;
}

export type MergeError = { readonly kind: 'another-case'; readonly mine: string; readonly theirs: string };

export const mergeErrorSentence = (error: MergeError): string =>
  `These are two different cases (${error.mine} and ${error.theirs}), so they were not put together. Open the other one as a case of its own.`;

export interface Merge {
  /** Takes over from theirs all that can be taken over; for `act`, so that it can be undone. */
  readonly transaction: Transaction;
  /** What `transaction` left as mine, because both sides changed it. Choose with `taking`. */
  readonly conflicts: readonly Conflict[];
}

/**
 * Puts together two versions of one case that was changed in two places, into mine.
 *
 * Record by record: what only they changed is taken over, what only I changed stays, what both changed alike is
 * no question, and what both changed differently stays mine and is reported with both versions, so that
 * neither is lost. What is removed on one side and untouched on the other is removed; a film that they removed
 * stays when I have placed something on it since, and the other way round.
 *
 * @param base - The version both started from, from `commonBase`; null when it is not known. Then every record
 *   that differs is a conflict, and one that only one side has is kept.
 * @param at - ISO 8601, from the shell.
 */
export function merge(
  base: CaseDocument | null,
  mine: CaseDocument,
  theirs: CaseDocument,
  at: string,
): Result<Merge, MergeError> {
  if (mine.id !== theirs.id) return failure({ kind: 'another-case', mine: mine.id, theirs: theirs.id });
  const ids = new Set([mine, theirs].flatMap(({ records }) => Object.keys(records) as RecordId[]));
  const all = [...ids].map(
    (id): Conflict => ({
      id,
      base: base === null ? null : recordOf(base, id),
      mine: recordOf(mine, id),
      theirs: recordOf(theirs, id),
    }),
  );
  const differing = all.filter((record) => !sameStructure(record.mine, record.theirs));
  const knowsBase = base !== null;
  const changedByBoth = differing.filter((record) => isConflict(record, knowsBase));
  const takeable = differing.filter(
    (record) => !changedByBoth.includes(record) && takesTheirs(record, knowsBase),
  );
  const films = filmsInQuestion(mine, changedByBoth, takeable);
  const inQuestion = (record: Conflict) => films.has(record.id) || isMarkOnAny(record, films);
  return success({
    transaction: {
      label: 'take over the other version',
      at,
      steps: takeable.filter((record) => !inQuestion(record)).map(stepToTheirs),
    },
    conflicts: differing.filter((record) => changedByBoth.includes(record) || inQuestion(record)),
  });
}

const isConflict = ({ base, mine, theirs }: Conflict, knowsBase: boolean): boolean =>
  knowsBase ? !sameStructure(base, mine) && !sameStructure(base, theirs) : mine !== null && theirs !== null;

const takesTheirs = ({ base, mine }: Conflict, knowsBase: boolean): boolean =>
  knowsBase ? sameStructure(base, mine) : mine === null;

const stepToTheirs = ({ id, mine, theirs }: Conflict): Step => ({ id, before: mine, after: theirs });

/**
 * Films that are there on one side only and cannot be decided by themselves: the other side changed them, or has
 * placed a mark on them. All that differs on such a film is decided together, so that no mark is stranded.
 */
function filmsInQuestion(
  mine: CaseDocument,
  changedByBoth: readonly Conflict[],
  takeable: readonly Conflict[],
): ReadonlySet<RecordId> {
  const after = new Map<RecordId, CaseRecord>(Object.entries(mine.records) as [RecordId, CaseRecord][]);
  for (const { id, theirs } of takeable) {
    if (theirs === null) after.delete(id);
    else after.set(id, theirs);
  }
  // Also the marks that taking their version of a conflict would put.
  const wanted = [...after.values(), ...changedByBoth.map(({ theirs }) => theirs)];
  const stranding = wanted.flatMap((record) =>
    record?.kind === 'mark' && after.get(record.filmId)?.kind !== 'film' ? [record.filmId] : [],
  );
  const oneSided = changedByBoth.flatMap((record) =>
    (record.mine ?? record.theirs)?.kind === 'film' && (record.mine === null || record.theirs === null)
      ? [record.id]
      : [],
  );
  return new Set([...stranding, ...oneSided]);
}

const isMarkOnAny = ({ mine, theirs }: Conflict, films: ReadonlySet<RecordId>): boolean =>
  [mine, theirs].some((record) => record?.kind === 'mark' && films.has(record.filmId));

/** A transaction that takes their version of some conflicts after all. Take a film together with its marks. */
export const taking = (conflicts: readonly Conflict[], at: string): Transaction => ({
  label: 'take the other version',
  at,
  steps: conflicts.map(stepToTheirs),
});

/**
 * The last document that both histories went through, or null when they share none: the histories are compared
 * transaction by transaction from the start, and the document is mine taken back to there.
 */
export function commonBase(mine: CaseState, theirs: CaseState): CaseDocument | null {
  const done = mine.history.transactions.slice(0, mine.history.position);
  const theirDone = theirs.history.transactions.slice(0, theirs.history.position);
  const parted = done.findIndex((transaction, index) => !sameStructure(transaction, theirDone[index]));
  const shared = parted < 0 ? done.length : parted;
  const [base, theirBase] = [takenBack(mine, shared), takenBack(theirs, shared)];
  // Histories that were begun apart can look alike; only the document itself tells.
  return base !== null && theirBase !== null && sameStructure(base, theirBase) ? base : null;
}

function takenBack(state: CaseState, position: number): CaseDocument | null {
  let { document } = state;
  for (const transaction of state.history.transactions.slice(position, state.history.position).reverse()) {
    const before = apply(document, invert(transaction));
    if (!before.ok) return null;
    document = before.value;
  }
  return document;
}
