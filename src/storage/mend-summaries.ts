import { loadCase } from './cases.ts';
import type { Database } from './rows.ts';
import { casesWithoutSummary, filmHashesOf, summaryOf } from './summaries.ts';
import { written } from './written.ts';

/** Of a case whose time of change is not known: it was changed some time. */
const LONG_AGO = '1970-01-01T00:00:00.000Z';

/**
 * Makes anew the summaries that are missing or damaged, from the cases themselves.
 *
 * @returns Whether every case has a sound summary now. If not, some case cannot be read, which films it names is not
 *   known, and no film may be swept.
 */
export async function mendSummaries(database: Database): Promise<boolean> {
  const without = await casesWithoutSummary(database);
  if (!without.ok) return false;
  let mended = 0;
  for (const id of without.value) {
    const kept = await loadCase(database, id);
    // Actions that cannot be read may name films.
    if (!kept.ok || kept.value.lostActions > 0) continue;
    const { state, sequence } = kept.value;
    const at = state.history.transactions.at(-1)?.at ?? LONG_AGO;
    const transaction = database.transaction('summaries', 'readwrite');
    await written(transaction, [transaction.store.put(summaryOf(state, sequence, at, filmHashesOf(state)))]);
    mended += 1;
  }
  return mended === without.value.length;
}
