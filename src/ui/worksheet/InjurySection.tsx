import { memo, useState } from 'react';
import type { NextStep } from '../../case/assessment.ts';
import type { InjuryRecord } from '../../case/document.ts';
import { PATTERNS } from '../../tolerance/anatomy.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, Pick, PushButton } from '../controls/controls.tsx';
import { HandDrawing, type Site, siteName } from '../hand/HandDrawing.tsx';
import { Line } from './Section.tsx';

const HANDS = [
  { value: 'left', name: 'Left' },
  { value: 'right', name: 'Right' },
] as const;

const AGES = [
  { value: 'adult', name: 'Adult' },
  { value: 'child', name: 'Child' },
] as const;

const PATTERN_OPTIONS = PATTERNS.map((value) => ({ value, name: value }));

interface InjurySectionProps {
  readonly injury: InjuryRecord;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

const siteOf = ({ ray, region }: InjuryRecord): Site | null =>
  ray === null || region === null ? null : { ray, region };

/** Which hand, which bone, which part of it: picked on a drawing, folded to one line once it is said. */
export const InjurySection = memo(function InjurySection({ injury, next, actions }: InjurySectionProps) {
  const site = siteOf(injury);
  const complete = site !== null && injury.hand !== null;
  const [opened, setOpened] = useState(false);
  const open = opened || !complete;
  const hand = injury.hand === null ? '' : injury.hand === 'left' ? 'Left hand' : 'Right hand';
  return (
    <section className="injury" aria-label="Injury">
      <div className="injury__summary">
        <HandDrawing hand={injury.hand} site={site} className="injury__picture" />
        <div>
          <h2 className="injury__title">
            {complete ? `${hand}, ${siteName(site)}` : 'Which bone is broken?'}
          </h2>
          <small>
            {complete
              ? `${injury.pattern ?? 'pattern not said'} · ${injury.ageGroup ?? 'age group not said'}`
              : 'Choose the side, then the part of the bone on the drawing.'}
          </small>
          {complete && (
            <div className="injury__change">
              <PushButton quiet onPress={() => setOpened(!opened)}>
                {opened ? 'Done' : 'Change'}
              </PushButton>
            </div>
          )}
        </div>
      </div>
      {open && (
        <div className="injury__form">
          <Line name="Side" next={next?.line === 'hand'}>
            <Choice
              label="Side"
              labelHidden
              options={HANDS}
              value={injury.hand}
              onChange={(value) => actions.setInjury({ hand: value }, 'set the side')}
            />
          </Line>
          <HandDrawing
            hand={injury.hand}
            site={site}
            className="injury__choice"
            onChoose={(chosen) => actions.setInjury(chosen, 'set the broken bone')}
          />
          <Line name="Pattern" next={next?.line === 'pattern'}>
            <Pick
              label="Pattern of the fracture"
              labelHidden
              options={PATTERN_OPTIONS}
              value={injury.pattern}
              onChange={(pattern) => actions.setInjury({ pattern }, 'set the pattern')}
            />
          </Line>
          <Line name="Age group" note="Limits for adults and children differ." next={next?.line === 'age'}>
            <Choice
              label="Age group"
              labelHidden
              options={AGES}
              value={injury.ageGroup}
              onChange={(ageGroup) => actions.setInjury({ ageGroup }, 'set the age group')}
            />
          </Line>
        </div>
      )}
    </section>
  );
});
