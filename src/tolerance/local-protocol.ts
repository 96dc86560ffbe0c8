import { failure, type Result } from '../geometry/result.ts';
import type { LimitRow, LimitSet } from './limit-set.ts';
import { checkLimitSet, type LimitSetFailure } from './limit-set-file.ts';

export type EditFailure =
  | { readonly kind: 'shipped-set'; readonly message: string }
  | { readonly kind: 'no-such-row'; readonly rowId: string; readonly message: string }
  | Extract<LimitSetFailure, { readonly kind: 'invalid' }>;

/**
 * A local protocol that begins as a copy of any set. Its source names what it was copied from, and the rows
 * stay editable.
 *
 * @param id - A new id, lower-case words joined by hyphens; the caller keeps ids apart.
 */
export function copySet(set: LimitSet, as: { readonly id: string; readonly title: string }): LimitSet {
  const citation = set.local
    ? set.source.citation
    : `Local protocol, copied from “${set.title}” (revision ${set.revision}): ${set.source.citation}`;
  return {
    ...set,
    id: as.id,
    title: as.title,
    revision: 1,
    local: true,
    source: { ...set.source, kind: 'local', citation },
  };
}

/**
 * A local protocol with one row changed and the revision raised.
 *
 * Fails with `shipped-set` (copy it first), `no-such-row`, or `invalid`, with every reason.
 */
export function editRow(
  set: LimitSet,
  rowId: string,
  change: Partial<Omit<LimitRow, 'id'>>,
): Result<LimitSet, EditFailure> {
  if (!hasRow(set, rowId)) return noSuchRow(set, rowId);
  return withRows(
    set,
    set.rows.map((row) => (row.id === rowId ? { ...row, ...change } : row)),
  );
}

/**
 * A local protocol with another title, population, note or statement of what it applies to, and the revision
 * raised; fails as `editRow` does.
 */
export function editSet(
  set: LimitSet,
  change: Partial<Pick<LimitSet, 'title' | 'population' | 'appliesTo' | 'note'>>,
): Result<LimitSet, EditFailure> {
  return withRows({ ...set, ...change }, set.rows);
}

/**
 * A new id for a local protocol, from its title: lower-case words joined by hyphens, numbered where it is taken.
 *
 * @param taken - Ids of every set that is here.
 */
export function localId(title: string, taken: readonly string[]): string {
  const words = title
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '');
  const plain = `local-${words || 'protocol'}`;
  const numbered = (number: number): string => (number === 1 ? plain : `${plain}-${number}`);
  let number = 1;
  while (taken.includes(numbered(number))) number += 1;
  return numbered(number);
}

/** A local protocol with a row added at its end and the revision raised; fails as `editRow` does. */
export function addRow(set: LimitSet, row: LimitRow): Result<LimitSet, EditFailure> {
  return withRows(set, [...set.rows, row]);
}

/** A local protocol without one of its rows; fails as `editRow` does, also when it would have none left. */
export function removeRow(set: LimitSet, rowId: string): Result<LimitSet, EditFailure> {
  if (!hasRow(set, rowId)) return noSuchRow(set, rowId);
  return withRows(
    set,
    set.rows.filter((row) => row.id !== rowId),
  );
}

const hasRow = (set: LimitSet, rowId: string): boolean => set.rows.some((row) => row.id === rowId);

const noSuchRow = (set: LimitSet, rowId: string): Result<LimitSet, EditFailure> =>
  failure({
    kind: 'no-such-row',
    rowId,
    message: `“${set.title}” has no row "${rowId}". Choose one of its rows.`,
  });

function withRows(set: LimitSet, rows: readonly LimitRow[]): Result<LimitSet, EditFailure> {
  if (!set.local)
    return failure({
      kind: 'shipped-set',
      message: `“${set.title}” ships with its source and cannot be edited. Copy it and edit the copy.`,
    });
  return checkLimitSet({ ...set, rows, revision: set.revision + 1 }, `The change to “${set.title}”`);
}
