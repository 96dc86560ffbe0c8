import { memo } from 'react';
import type { NextStep } from '../../case/assessment.ts';
import type { MarkRecord, MarkRole } from '../../case/document.ts';
import type { ShapeConstruction } from '../../case/roles.ts';
import type { BenchActions } from '../actions.ts';
import { MarkLine, type PlacingState } from './MarkLine.tsx';
import { Section } from './Section.tsx';
import { TraceLine, type TraceState } from './TraceLine.tsx';

interface AxesSectionProps {
  /** Marks on the film shown. */
  readonly marks: readonly MarkRecord[];
  /** `dorsal-side` in a lateral or oblique view, `radial-side` in a PA view. */
  readonly sideRole: 'dorsal-side' | 'radial-side';
  readonly placing: PlacingState | null;
  /** Null: tracing is not offered, as in an exercise. */
  readonly trace: TraceState | null;
  readonly next: NextStep | null;
  /** How both axes are asked to be drawn, as in a study of methods; the other ways stay within reach. */
  readonly drawnBy?: ShapeConstruction | null;
  readonly actions: BenchActions;
}

/** Marks beyond the two axes, folded away until one of them is placed or being placed. */
const OTHER_GROUPS: readonly { readonly title: string; readonly roles: readonly MarkRole[] }[] = [
  {
    title: 'Length, shortening, translation',
    roles: ['length', 'reference-length', 'head-line', 'head-point', 'fracture-tips', 'fracture-level'],
  },
  { title: 'Joint surface', roles: ['joint-surface', 'joint-edges'] },
];

export const AxesSection = memo(function AxesSection({
  marks,
  sideRole,
  placing,
  trace,
  next,
  drawnBy = null,
  actions,
}: AxesSectionProps) {
  const placedAxes = marks.filter((mark) => mark.role === 'proximal-axis' || mark.role === 'distal-axis');
  const lineOf = (role: MarkRole) => (
    <MarkLine
      key={role}
      role={role}
      mark={marks.find((mark) => mark.role === role) ?? null}
      placing={placing?.role === role ? placing : null}
      isNext={next?.line === role}
      drawnBy={drawnBy}
      actions={actions}
    />
  );
  return (
    <Section title="Axes" state={`${placedAxes.length} of 2 placed`}>
      {trace !== null && <TraceLine trace={trace} actions={actions} />}
      {(['proximal-axis', 'distal-axis', sideRole] as const).map(lineOf)}
      {OTHER_GROUPS.map(({ title, roles }) => {
        const used = roles.some((role) => placing?.role === role || marks.some((mark) => mark.role === role));
        return (
          <details key={title} className="more" open={used}>
            <summary>{title}</summary>
            {roles.map(lineOf)}
          </details>
        );
      })}
    </Section>
  );
});
