import { COMMON_PRACTICE } from '../../tolerance/caution.ts';
import type { Milestone } from '../../tolerance/milestones.ts';
import { Pick, PushButton } from '../controls/controls.tsx';
import { WholeNumber } from '../controls/WholeNumber.tsx';

interface MilestoneListProps {
  readonly milestones: readonly Milestone[];
  /** Whether the case has its own list; else the suggested one is shown. */
  readonly own: boolean;
  /** Null goes back to the suggested ones. */
  readonly onChange: (milestones: readonly Milestone[] | null, label: string) => void;
}

const SINCE_OPTIONS = [
  { value: 'injury', name: 'after the injury' },
  { value: 'reduction', name: 'after the reduction' },
] as const;

/** What is usually expected when, each with its source; a change makes the list this case's own. */
export function MilestoneList({ milestones, own, onChange }: MilestoneListProps) {
  const replace = (changed: Milestone) =>
    onChange(
      milestones.map((milestone) => (milestone.id === changed.id ? changed : milestone)),
      'change a milestone',
    );
  return (
    <section className="milestones" aria-label="Milestones">
      <h3>Milestones</h3>
      <p>
        <small>
          What is usually expected, from publications that do not all agree; no plan for one patient. The
          local protocol and the clinician in charge decide. {own ? 'This case has its own list.' : ''}
        </small>
      </p>
      <ul>
        {milestones.map((milestone) => (
          <li key={milestone.id}>
            <input
              className="text-input milestones__name"
              aria-label="What is expected"
              defaultValue={milestone.name}
              key={milestone.name}
              maxLength={200}
              onBlur={(event) => {
                const name = event.currentTarget.value.trim();
                if (name !== '' && name !== milestone.name)
                  replace({ ...milestone, name, source: ownSource(milestone.source) });
              }}
            />
            <WholeNumber
              label={`${milestone.name}: from day`}
              value={milestone.fromDay}
              min={0}
              max={3650}
              onChange={(fromDay) => {
                if (fromDay !== null)
                  replace({
                    ...milestone,
                    fromDay,
                    toDay: Math.max(fromDay, milestone.toDay),
                    source: ownSource(milestone.source),
                  });
              }}
            />
            <span aria-hidden="true">to</span>
            <WholeNumber
              label={`${milestone.name}: to day`}
              value={milestone.toDay}
              min={0}
              max={3650}
              onChange={(toDay) => {
                if (toDay !== null)
                  replace({
                    ...milestone,
                    toDay,
                    fromDay: Math.min(toDay, milestone.fromDay),
                    source: ownSource(milestone.source),
                  });
              }}
            />
            <Pick
              label={`${milestone.name}: counted from`}
              labelHidden
              options={SINCE_OPTIONS}
              value={milestone.since}
              onChange={(since) => replace({ ...milestone, since, source: ownSource(milestone.source) })}
            />
            <PushButton
              quiet
              label={`Remove the milestone ${milestone.name}`}
              onPress={() =>
                onChange(
                  milestones.filter(({ id }) => id !== milestone.id),
                  'remove a milestone',
                )
              }
            >
              Remove
            </PushButton>
            <small className="milestones__source">{milestone.source}</small>
          </li>
        ))}
      </ul>
      <div className="milestones__buttons">
        <PushButton onPress={() => onChange([...milestones, fresh(milestones)], 'add a milestone')}>
          Add a milestone
        </PushButton>
        {own && (
          <PushButton quiet onPress={() => onChange(null, 'go back to the suggested milestones')}>
            As suggested
          </PushButton>
        )}
      </div>
    </section>
  );
}

const CHANGED = 'changed for this case';

/** A number that was changed is no longer what its source says. */
const ownSource = (source: string): string =>
  source.startsWith(CHANGED) || source === COMMON_PRACTICE ? source : `${CHANGED}; before: ${source}`;

function fresh(milestones: readonly Milestone[]): Milestone {
  const taken = new Set(milestones.map(({ id }) => id));
  let number = 1;
  while (taken.has(`own-${number}`)) number += 1;
  return {
    id: `own-${number}`,
    name: 'New milestone',
    since: 'injury',
    fromDay: 14,
    toDay: 14,
    source: COMMON_PRACTICE,
  };
}
