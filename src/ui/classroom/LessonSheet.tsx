import { type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { dialOf } from '../../classroom/dials.ts';
import type { SetFilm } from '../../classroom/film-set.ts';
import type { Fact, Lesson, Task } from '../../classroom/lessons/lesson.ts';
import { PushButton } from '../controls/controls.tsx';
import { DialLine } from './DialSheet.tsx';

interface LessonSheetProps {
  readonly lesson: Lesson;
  readonly number: number;
  readonly spec: SetFilm['spec'];
  readonly onSpec: (spec: SetFilm['spec']) => void;
  /** The film as it is now, and what is known of it; empty while it is drawn. */
  readonly picture: ReactNode;
  readonly facts: readonly Fact[];
  readonly onMeasure: () => void;
  readonly onBack: () => void;
  readonly onNext: (() => void) | null;
}

/** One lesson: the text on the left, a film to turn on the right, a task and the sources below. */
export function LessonSheet(props: LessonSheetProps) {
  const { lesson, number, spec, onSpec, picture, facts, onMeasure, onBack, onNext } = props;
  const heading = useRef<HTMLHeadingElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another lesson is another page, read from its top
  useEffect(() => heading.current?.focus(), [lesson.id]);
  return (
    <article className="lesson">
      <div className="lesson__text">
        <p className="lesson__number">Lesson {number}</p>
        <h2 ref={heading} tabIndex={-1}>
          {lesson.title}
        </h2>
        <p className="lesson__lead">{lesson.lead}</p>
        {lesson.text.map((paragraph) => (
          <p key={paragraph}>{paragraph}</p>
        ))}
        <h3>To do</h3>
        <LessonTask key={lesson.id} task={lesson.task} onMeasure={onMeasure} />
        <details className="lesson__sources">
          <summary>Sources</summary>
          <ul>
            {lesson.sources.map((source) => (
              <li key={source}>{source}</li>
            ))}
          </ul>
        </details>
        <div className="leaf__actions">
          <PushButton quiet onPress={onBack}>
            All lessons
          </PushButton>
          {onNext !== null && (
            <PushButton quiet onPress={onNext}>
              Next lesson
            </PushButton>
          )}
        </div>
      </div>
      <figure className="lesson__look">
        <div className="lesson__picture">{picture}</div>
        <figcaption>
          <p>
            <em>{lesson.look.invitation}</em>
          </p>
          <dl className="facts" aria-live="polite">
            {facts.map(({ name, value }) => (
              <div key={name}>
                <dt>{name}</dt>
                <dd>{value}</dd>
              </div>
            ))}
          </dl>
          {lesson.look.dials.map((id) => (
            <DialLine key={id} dial={dialOf(id)} spec={spec} onSpec={onSpec} />
          ))}
        </figcaption>
      </figure>
    </article>
  );
}

function LessonTask({ task, onMeasure }: { readonly task: Task; readonly onMeasure: () => void }) {
  return task.kind === 'measure' ? (
    <>
      <p>{task.words}</p>
      <PushButton next onPress={onMeasure}>
        Measure it
      </PushButton>
    </>
  ) : (
    <Predict task={task} />
  );
}

/** A question with a number for its answer, said before it is shown. */
function Predict({ task }: { readonly task: Extract<Task, { kind: 'predict' }> }) {
  const id = useId();
  const [typed, setTyped] = useState('');
  const [said, setSaid] = useState<number | null>(null);
  const right = said !== null && Math.abs(said - task.answer) <= task.within;
  return (
    <form
      className="predict"
      onSubmit={(event) => {
        event.preventDefault();
        const value = Number(typed.replace(',', '.'));
        if (typed.trim() !== '' && Number.isFinite(value)) setSaid(value);
      }}
    >
      <label htmlFor={id}>{task.words}</label>
      <span className="predict__answer">
        <input
          id={id}
          className="text-input predict__number"
          inputMode="decimal"
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
        {task.unit}
        <button type="submit" className="button">
          Say it
        </button>
      </span>
      <p role="status">
        {said !== null &&
          `${right ? 'Right.' : `You said ${said}${task.unit}; it is ${task.answer}${task.unit}.`} ${task.because}`}
      </p>
    </form>
  );
}
