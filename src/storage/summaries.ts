import type { CaseDocument } from '../case/document.ts';
import { injuryOf } from '../case/fixed-records.ts';
import type { CaseState } from '../case/history.ts';
import type { Result } from '../geometry/result.ts';
import { guarded } from './guarded.ts';
import type { Database, SummaryRow } from './rows.ts';
import type { StorageError } from './storage-error.ts';

export type CaseSummary = SummaryRow;

type Kept<Value> = Promise<Result<Value, StorageError>>;

/**
 * The cases on this computer, the one changed last first. A case whose summary is missing or damaged stands at the
 * end under an empty label: a list must not hide what is there.
 */
export const listCases = (database: Database): Kept<readonly CaseSummary[]> =>
  guarded(async () => {
    const { sound, without } = await summaries(database);
    const known = sound.toSorted((one, other) => (one.changedAt < other.changedAt ? 1 : -1));
    const bare = without.map((id) => ({ id, label: '', changedAt: '', sequence: 0, filmHashes: [] }));
    return [...known, ...bare];
  });

/** SHA-256 of every film that a kept case, or its history, names, as far as there is a summary that says so. */
export const namedFilms = (database: Database): Kept<ReadonlySet<string>> =>
  guarded(async () => new Set((await summaries(database)).sound.flatMap((row) => row.filmHashes)));

/** Ids of the cases whose summary is missing or damaged. */
export const casesWithoutSummary = (database: Database): Kept<readonly string[]> =>
  guarded(async () => (await summaries(database)).without);

async function summaries(database: Database) {
  const transaction = database.transaction(['summaries', 'cases'], 'readonly');
  const [rows, ids] = await Promise.all([
    transaction.objectStore('summaries').getAll(),
    transaction.objectStore('cases').getAllKeys(),
  ]);
  const sound = rows.filter(isSummary);
  const summed = new Set(sound.map((row) => row.id));
  return { sound, without: ids.filter((id) => !summed.has(id)) };
}

/** Whether a row is a summary: what lies on a disk may be damaged. */
const isSummary = ({ id, label, changedAt, sequence, filmHashes }: SummaryRow): boolean =>
  [id, label, changedAt].every((text) => typeof text === 'string') &&
  Number.isInteger(sequence) &&
  Array.isArray(filmHashes) &&
  filmHashes.every((hash) => typeof hash === 'string');

export const summaryOf = (
  { document }: CaseState,
  sequence: number,
  changedAt: string,
  filmHashes: ReadonlySet<string>,
): SummaryRow => ({
  id: document.id,
  label: injuryOf(document).label,
  changedAt,
  sequence,
  filmHashes: [...filmHashes],
});

export const filmHashesIn = ({ records }: CaseDocument): readonly string[] =>
  Object.values(records).flatMap((record) => (record.kind === 'film' ? [record.sha256] : []));

/** With the films that undo could bring back. */
export function filmHashesOf({ document, history }: CaseState): ReadonlySet<string> {
  const inHistory = history.transactions.flatMap(({ steps }) =>
    steps.flatMap(({ before, after }) =>
      [before, after].flatMap((record) => (record?.kind === 'film' ? [record.sha256] : [])),
    ),
  );
  return new Set([...filmHashesIn(document), ...inHistory]);
}
