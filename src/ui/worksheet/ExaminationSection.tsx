import { memo } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { NextStep } from '../../case/assessment.ts';
import type { ExaminationRecord, InjuryRecord } from '../../case/document.ts';
import { readingInWords } from '../../case/format.ts';
import type { KnownReading, Reading } from '../../case/reading.ts';
import { PATTERNS } from '../../tolerance/anatomy.ts';
import { CHECK_GROUPS, type CheckGroup, type ExaminationCheck } from '../../tolerance/check.ts';
import { mattersUnanswered } from '../../tolerance/checks.ts';
import type { BenchActions } from '../actions.ts';
import { Pick } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpMark.tsx';
import { Section } from './Section.tsx';

const GROUP_TITLE: Readonly<Record<CheckGroup, string>> = {
  skin: 'Skin',
  'blood and nerve': 'Blood, nerve, pressure',
  rotation: 'Rotation, on making a fist',
  fracture: 'Fracture',
  stability: 'Stability',
  age: 'Age',
};

const PATTERN_OPTIONS = PATTERNS.map((value) => ({ value, name: value }));

interface ExaminationSectionProps {
  readonly checks: readonly ExaminationCheck[];
  readonly examination: ExaminationRecord;
  readonly injury: InjuryRecord;
  /** Of the whole case: what a photograph of the fist gives stands beside the question it supports. */
  readonly readings: readonly Reading[];
  readonly next: NextStep | null;
  readonly actions: BenchActions;
}

/**
 * What no film shows. A check that was not made stands open, with both of its answers in sight; the answer
 * chosen again takes it back.
 */
export const ExaminationSection = memo(function ExaminationSection(props: ExaminationSectionProps) {
  const { checks, examination, injury, readings, next, actions } = props;
  const open = checks.filter(
    (check) => examination.answers[check.id] === undefined && mattersUnanswered(check, injury),
  ).length;
  return (
    <Section title="Examination" state={open === 0 ? 'all that matters is checked' : `${open} not checked`}>
      {CHECK_GROUPS.map((group) => {
        const asked = checks.filter((check) => check.group === group);
        if (asked.length === 0 && group !== 'age') return null;
        return (
          <section key={group} className="group" aria-label={GROUP_TITLE[group]}>
            <h3 className="group__title">
              {GROUP_TITLE[group]}
              {group === 'rotation' && <HelpMark page="fist-photograph" of="rotation" />}
            </h3>
            {group === 'rotation' && <FistSupport readings={readings} />}
            {group === 'fracture' && (
              <div className="check" data-open={injury.pattern === null || undefined}>
                <span className="check__name">Pattern</span>
                <Pick
                  label="Pattern of the fracture"
                  labelHidden
                  options={PATTERN_OPTIONS}
                  value={injury.pattern}
                  onChange={(pattern) => actions.setInjury({ pattern }, 'set the pattern')}
                />
              </div>
            )}
            {group === 'age' && (
              <TwoAnswers
                name="Age group"
                question="Age group"
                options={[
                  { value: 'adult', name: 'adult' },
                  { value: 'child', name: 'child' },
                ]}
                value={injury.ageGroup}
                matters
                onChange={(ageGroup) => actions.setInjury({ ageGroup }, 'set the age group')}
              />
            )}
            {asked.map((check) => (
              <TwoAnswers
                key={check.id}
                name={check.short}
                question={check.question}
                options={[
                  { value: 'no', name: check.words.no },
                  { value: 'yes', name: check.words.yes },
                ]}
                value={examination.answers[check.id] ?? null}
                worrying={check.worrying}
                matters={mattersUnanswered(check, injury)}
                next={next?.line === check.id}
                onChange={(answer) => actions.answer(check.id, answer)}
              />
            ))}
          </section>
        );
      })}
    </Section>
  );
});

/** What the photographs of the fist give, as support for the answer below and never in its place. */
function FistSupport({ readings }: { readings: readonly Reading[] }) {
  const found = readings.filter(
    (reading): reading is KnownReading =>
      reading.state === 'known' && reading.quantity === 'nail-direction-difference',
  );
  if (found.length === 0) return null;
  return (
    <p className="aside-note">
      {`On a photograph of the fist the nail points ${found.map(readingInWords).join(', then ')} off that of the other hand. This supports the look at the hand; it does not settle rotation.`}
    </p>
  );
}

interface TwoAnswersProps<Value extends string> {
  readonly name: string;
  /** The whole question: what the answers are to a screen reader, and what stands below where it is next. */
  readonly question: string;
  readonly options: readonly { readonly value: Value; readonly name: string }[];
  readonly value: Value | null;
  readonly worrying?: Value;
  /** Unanswered, it is a caution. */
  readonly matters: boolean;
  readonly next?: boolean;
  readonly onChange: (value: Value | null) => void;
}

function TwoAnswers<Value extends string>(props: TwoAnswersProps<Value>) {
  const { name, question, options, value, worrying, matters, next, onChange } = props;
  return (
    <div
      className="check line"
      data-open={(value === null && matters) || undefined}
      data-next={next || undefined}
    >
      <span className="line__name check__name" title={question}>
        {name}
        {next && <small>{question}</small>}
        {value === null && matters && <span className="visually-hidden"> (not checked)</span>}
      </span>
      <ToggleButtonGroup
        className="check__answers"
        aria-label={question}
        selectedKeys={value === null ? [] : [value]}
        onSelectionChange={(keys) => onChange(([...keys][0] as Value | undefined) ?? null)}
      >
        {options.map((option) => (
          <ToggleButton
            key={option.value}
            id={option.value}
            className="check__answer"
            data-worrying={option.value === worrying || undefined}
          >
            {option.name}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
    </div>
  );
}
