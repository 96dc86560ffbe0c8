import type { CaseDocument, CaseRecord, FilmRecord, RecordId } from './document.ts';
import type { Conflict } from './merge.ts';
import { filmNames } from './readings/names.ts';
import { roleName } from './roles.ts';

/** Conflicts that are decided together: a film with its marks where it is there on one side only, else one by one. */
export interface ConflictGroup {
  readonly id: RecordId;
  /** What it is about, to stand in a list: "the injury", "distal axis on the lateral film of day 0". */
  readonly name: string;
  readonly conflicts: readonly Conflict[];
}

/**
 * The conflicts of a merge as a person decides them.
 *
 * @param mine - The case as it is now, for the names of its films.
 */
export function conflictGroups(mine: CaseDocument, conflicts: readonly Conflict[]): readonly ConflictGroup[] {
  const names = filmNames(filmsOf([...Object.values(mine.records), ...conflicts.map(eitherOf)]));
  const oneSided = new Set(
    conflicts.flatMap(({ id, mine: here, theirs }) =>
      (here ?? theirs)?.kind === 'film' && (here === null || theirs === null) ? [id] : [],
    ),
  );
  const groups = new Map<RecordId, Conflict[]>();
  for (const conflict of conflicts) {
    const record = eitherOf(conflict);
    const key = record?.kind === 'mark' && oneSided.has(record.filmId) ? record.filmId : conflict.id;
    groups.set(key, [...(groups.get(key) ?? []), conflict]);
  }
  return [...groups].map(([id, together]) => {
    const lead = together.find((conflict) => conflict.id === id) ?? together[0];
    return { id, name: nameOf(lead === undefined ? null : eitherOf(lead), names), conflicts: together };
  });
}

const eitherOf = ({ mine, theirs }: Conflict): CaseRecord | null => mine ?? theirs;

const filmsOf = (records: readonly (CaseRecord | null)[]): readonly FilmRecord[] => [
  ...new Map(
    records.flatMap((record) => (record?.kind === 'film' ? [[record.id, record] as const] : [])),
  ).values(),
];

function nameOf(record: CaseRecord | null, films: ReadonlyMap<RecordId, string>): string {
  switch (record?.kind) {
    case 'injury':
      return 'the injury and its label';
    case 'examination':
      return 'the examination';
    case 'settings':
      return 'the settings';
    case 'film':
      return `the ${films.get(record.id) ?? 'film'}`;
    case 'mark':
      return `the ${roleName(record.role)} on the ${films.get(record.filmId) ?? 'film'}`;
    case undefined:
      return 'a record';
  }
}
