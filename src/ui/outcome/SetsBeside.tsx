import { Checkbox, CheckboxGroup, Label } from 'react-aria-components';
import type { LimitSet } from '../../tolerance/limit-set.ts';

interface SetsBesideProps {
  /** Every set but the first chosen one. */
  readonly limitSets: readonly LimitSet[];
  readonly chosen: readonly string[];
  readonly onChange: (ids: readonly string[]) => void;
}

/** A local set is always named as one. */
export const setName = ({ title, local }: LimitSet): string => (local ? `${title} (local)` : title);

/** Chooses the sets that stand beside the first one on the limit ruler. */
export function SetsBeside({ limitSets, chosen, onChange }: SetsBesideProps) {
  return (
    <CheckboxGroup
      className="sets-beside"
      value={[...chosen]}
      onChange={(ids) => onChange(inOrder(ids, chosen))}
    >
      <Label className="group__title">Beside it on the ruler</Label>
      {limitSets.map((set) => (
        <Checkbox key={set.id} value={set.id} className="sets-beside__set">
          {({ isSelected }) => (
            <>
              <span className="tick-box" data-on={isSelected || undefined} aria-hidden="true" />
              <span>{setName(set)}</span>
            </>
          )}
        </Checkbox>
      ))}
    </CheckboxGroup>
  );
}

/** In the order in which they were chosen: a lane stays where it is when another is added. */
const inOrder = (ids: readonly string[], before: readonly string[]): readonly string[] => [
  ...before.filter((id) => ids.includes(id)),
  ...ids.filter((id) => !before.includes(id)),
];
