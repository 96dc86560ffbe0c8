import { lazy, memo, type ReactNode, Suspense, useEffect, useRef, useState } from 'react';
import type { Assessment, NextStep } from '../../case/assessment.ts';
import type {
  ExaminationRecord,
  FilmRecord,
  InjuryRecord,
  MarkRecord,
  SettingsRecord,
} from '../../case/document.ts';
import type { ExaminationCheck } from '../../tolerance/check.ts';
import type { BenchActions } from '../actions.ts';
import { useSteady } from '../steady.ts';
import { ExaminationSection } from './ExaminationSection.tsx';
import { InjurySection } from './InjurySection.tsx';
import type { PlacingState } from './MarkLine.tsx';
import type { RepeatsState } from './PlacingErrorLine.tsx';
import { RecordSection } from './RecordSection.tsx';
import type { TraceState } from './TraceLine.tsx';

/** What a film brings onto the form is fetched while the first film is decoded. */
export const fetchFilmSections = () => import('./FilmSections.tsx');
const FilmSections = lazy(fetchFilmSections);

interface WorksheetProps {
  readonly injury: InjuryRecord;
  readonly examination: ExaminationRecord;
  readonly settings: SettingsRecord;
  readonly film: FilmRecord | null;
  readonly marks: readonly MarkRecord[];
  readonly checks: readonly ExaminationCheck[];
  readonly assessment: Assessment;
  readonly placing: PlacingState | null;
  /** Null where there is no film to trace on. */
  readonly trace: TraceState | null;
  /** While an axis is placed again and again, blind, and until its outcome is used or thrown away. */
  readonly repeats: RepeatsState | null;
  /** Whether the case is kept. */
  readonly saved: ReactNode;
  readonly actions: BenchActions;
}

/** The form that fills itself in, read from top to bottom; any order is allowed. */
export const Worksheet = memo(function Worksheet(props: WorksheetProps) {
  const { injury, examination, settings, film, marks, checks, assessment } = props;
  const { placing, trace, repeats, saved, actions } = props;
  /** What is next on another film is marked on the strip. */
  const elsewhere = assessment.next?.filmId != null && assessment.next.filmId !== film?.id;
  const next = useSteady(elsewhere ? null : assessment.next);
  const readings = useSteady(assessment.readings);
  const form = useRef<HTMLDivElement>(null);
  const [filmPartHere, setFilmPartHere] = useState(false);
  useNextInSight(form, assessment.next, film === null || filmPartHere);
  return (
    <div className="worksheet" ref={form}>
      <InjurySection injury={injury} next={next} actions={actions} />
      {film === null ? (
        <p className="aside-note worksheet__empty">
          No film yet. Open one below the plate, drop it anywhere, or paste a picture.
        </p>
      ) : (
        <Suspense fallback={null}>
          <FilmSections
            film={film}
            broken={injury.ray}
            marks={marks}
            settings={settings}
            assessment={assessment}
            next={next}
            placing={placing}
            trace={trace}
            repeats={repeats}
            actions={actions}
            onHere={setFilmPartHere}
          />
        </Suspense>
      )}
      <ExaminationSection
        checks={checks}
        examination={examination}
        injury={injury}
        readings={readings}
        next={next}
        actions={actions}
      />
      <RecordSection saved={saved} hasFilm={film !== null} actions={actions} />
    </div>
  );
});

/**
 * Scrolls as little as it takes to bring what is next into sight, when it becomes another line. A new injury
 * begins at the top; once both axes are placed it is the angle they give, not the first check below it.
 *
 * @param whole - All of the form is there; before that a line may not be.
 */
function useNextInSight(
  form: React.RefObject<HTMLDivElement | null>,
  next: NextStep | null,
  whole: boolean,
): void {
  const line = next?.line ?? null;
  const section = next?.section ?? null;
  const before = useRef({ line, section });
  useEffect(() => {
    if (!whole) return;
    const { line: lastLine, section: lastSection } = before.current;
    before.current = { line, section };
    if (line === lastLine) return;
    if (section === 'injury') {
      form.current?.scrollTo(0, 0);
      return;
    }
    const axesDone = lastSection === 'axes' && section !== 'axes';
    const target = axesDone ? '.reading[data-main]' : '.line[data-next]';
    const found = form.current?.querySelectorAll(target);
    const last = found?.[found.length - 1];
    if (form.current !== null && last !== undefined) scrollWithin(form.current, last);
  }, [form, line, section, whole]);
}

/** Room that is left above and below what is brought into sight, in CSS pixels. */
const ROOM = 44;

/** Scrolls the form alone: where form and film scroll together, as on a phone, the film must not go away. */
function scrollWithin(form: HTMLElement, line: Element): void {
  const [outer, inner] = [form.getBoundingClientRect(), line.getBoundingClientRect()];
  const below = inner.bottom + ROOM - outer.bottom;
  const above = outer.top + ROOM - inner.top;
  if (below > 0) form.scrollBy(0, below);
  else if (above > 0) form.scrollBy(0, -above);
}
