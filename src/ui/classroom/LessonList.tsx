import type { Lesson } from '../../classroom/lessons/lesson.ts';

interface LessonListProps {
  readonly lessons: readonly Lesson[];
  /** Ids of lessons whose exercise has been measured in this browser. */
  readonly done: ReadonlySet<string>;
  readonly onOpen: (id: string) => void;
}

/** The built-in lessons as a table of contents. */
export function LessonList({ lessons, done, onOpen }: LessonListProps) {
  return (
    <div className="lessons">
      <h2>Lessons</h2>
      <p className="lessons__lead">
        Short lessons on measuring a broken metacarpal, each with an invented film to turn and something to
        do. For education; local protocol and the clinician in charge decide.
      </p>
      <ol className="lessons__list">
        {lessons.map(({ id, title, lead }, index) => (
          <li key={id}>
            <a
              href={`#lesson-${id}`}
              onClick={(event) => {
                event.preventDefault();
                onOpen(id);
              }}
            >
              <span className="lessons__number" aria-hidden="true">
                {index + 1}
              </span>
              <span>
                <strong>{title}</strong>
                <small>{lead}</small>
              </span>
              {done.has(id) && <span className="lessons__done">measured</span>}
            </a>
          </li>
        ))}
      </ol>
    </div>
  );
}
