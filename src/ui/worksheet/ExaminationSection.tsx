import type { NextStep } from '../../case/assessment.ts';
import type { ExaminationRecord } from '../../case/document.ts';
import type { ExaminationCheck } from '../../tolerance/checks.ts';
import type { BenchActions } from '../actions.ts';
import { Choice, type Option } from '../controls/controls.tsx';
import { Line, Section } from './Section.tsx';

type Answer = 'no' | 'yes' | 'not-checked';

const ANSWERS: readonly Option<Answer>[] = [
  { value: 'no', name: 'No' },
  { value: 'yes', name: 'Yes' },
  { value: 'not-checked', name: 'Not checked', none: true },
];

interface ExaminationSectionProps {
  readonly checks: readonly ExaminationCheck[];
  readonly examination: ExaminationRecord;
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

/** What no film shows. A check that was not made says so and stays in sight. */
export function ExaminationSection({ checks, examination, next, actions }: ExaminationSectionProps) {
  const open = checks.filter((check) => examination.answers[check.id] === undefined).length;
  return (
    <Section title="Examination" state={open === 0 ? 'all checked' : `${open} not checked`}>
      {checks.map((check) => (
        <Line key={check.id} name={check.question} next={next?.line === check.id}>
          <Choice
            label={check.question}
            labelHidden
            options={ANSWERS}
            value={examination.answers[check.id] ?? 'not-checked'}
            onChange={(value) => actions.answer(check.id, value === 'not-checked' ? null : value)}
          />
        </Line>
      ))}
    </Section>
  );
}
