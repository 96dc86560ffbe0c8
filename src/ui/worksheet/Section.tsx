import type { ReactNode } from 'react';

interface SectionProps {
  readonly title: string;
  /** What stands to the right of the title: how far this section is. */
  readonly state?: ReactNode;
  readonly children: ReactNode;
}

/** A part of the form under its title, with a word on how far it is. */
export function Section({ title, state, children }: SectionProps) {
  return (
    <section className="section">
      <h2 className="section__title">
        {title}
        {state !== undefined && <span className="section__state">{state}</span>}
      </h2>
      {children}
    </section>
  );
}

interface LineProps {
  readonly name: ReactNode;
  readonly note?: ReactNode;
  readonly children?: ReactNode;
  readonly next?: boolean;
}

/** One line of the form: what it is on the left, its answer or its button on the right. */
export function Line({ name, note, children, next }: LineProps) {
  return (
    <div className="line" data-next={next || undefined}>
      <div className="line__name">
        {name}
        {note !== undefined && <small>{note}</small>}
      </div>
      <div className="line__answer">{children}</div>
    </div>
  );
}
