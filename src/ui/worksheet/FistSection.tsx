import type { MarkRecord, MarkRole } from '../../case/document.ts';
import { FIST_ROLES, isScaleRole } from '../../case/roles.ts';
import type { BenchActions } from '../actions.ts';
import { MarkLine, type PlacingState } from './MarkLine.tsx';
import { Section } from './Section.tsx';

interface FistSectionProps {
  /** Marks on the photograph shown. */
  readonly marks: readonly MarkRecord[];
  readonly placing: PlacingState | null;
  readonly actions: BenchActions;
}

/** What is marked on a photograph of the fist, in place of the axes; whatever else lies on it can be removed. */
export function FistSection({ marks, placing, actions }: FistSectionProps) {
  const wanted = new Set<MarkRole>(FIST_ROLES);
  const strays = marks.filter(({ role }) => !wanted.has(role) && !isScaleRole(role));
  const marked = marks.filter(({ role }) => wanted.has(role)).length;
  return (
    <Section title="Nails" state={`${marked} of ${FIST_ROLES.length} marked`}>
      <p className="aside-note">
        The same two fingers on both hands, each closed as far. What comes of it supports the look at the hand
        and settles nothing.
      </p>
      {[...FIST_ROLES, ...strays.map(({ role }) => role)].map((role) => (
        <MarkLine
          key={role}
          role={role}
          mark={marks.find((mark) => mark.role === role) ?? null}
          placing={placing?.role === role ? placing : null}
          isNext={false}
          actions={actions}
        />
      ))}
    </Section>
  );
}
