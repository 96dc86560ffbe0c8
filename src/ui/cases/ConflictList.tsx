import type { ConflictGroup } from '../../case/conflict-groups.ts';
import { PushButton } from '../controls/controls.tsx';
import { caseName } from './CaseTable.tsx';

export interface ConflictListProps {
  readonly label: string;
  readonly groups: readonly ConflictGroup[];
  readonly onTake: (groups: readonly ConflictGroup[]) => void;
  readonly onKeep: (groups: readonly ConflictGroup[]) => void;
}

/** What both versions of a case changed: it stands as it is here until somebody decides. */
export function ConflictList({ label, groups, onTake, onKeep }: ConflictListProps) {
  return (
    <section className="conflicts" aria-label={`To decide in ${caseName(label)}`}>
      <h3>To decide: {caseName(label)}</h3>
      <p>
        Changed on both sides, and different. The case is as it is here; the other version is kept in the list
        as a case of its own until you remove it.
      </p>
      <ul>
        {groups.map((group) => (
          <li key={group.id}>
            <span>{group.name}</span>
            <PushButton onPress={() => onTake([group])} label={`Take the other version of ${group.name}`}>
              Take the other
            </PushButton>
            <PushButton quiet onPress={() => onKeep([group])} label={`Leave ${group.name} as it is here`}>
              Leave
            </PushButton>
          </li>
        ))}
      </ul>
      {groups.length > 1 && <PushButton onPress={() => onTake(groups)}>Take the other of all</PushButton>}
    </section>
  );
}
