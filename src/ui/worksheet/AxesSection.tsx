import { useState } from 'react';
import type { NextStep } from '../../case/assessment.ts';
import type { MarkRecord, MarkRole } from '../../case/document.ts';
import { controlPoints } from '../../case/marks.ts';
import { CONSTRUCTION_FACTS, ROLES, type ShapeConstruction } from '../../case/roles.ts';
import { canGrow } from '../../case/shape-points.ts';
import type { BenchActions } from '../actions.ts';
import { Pick, PushButton } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpPanel.tsx';
import { type HelpId, pageOfConstruction } from '../help/pages.ts';
import { Section } from './Section.tsx';
import { TraceLine, type TraceState } from './TraceLine.tsx';

/** What is being placed now, as the axes section shows it. */
export interface PlacingState {
  readonly role: MarkRole;
  readonly caption: string;
  readonly instruction: string;
  readonly canStepBack: boolean;
}

interface AxesSectionProps {
  /** Marks on the film shown. */
  readonly marks: readonly MarkRecord[];
  /** `dorsal-side` in a lateral or oblique view, `radial-side` in a PA view. */
  readonly sideRole: 'dorsal-side' | 'radial-side';
  readonly placing: PlacingState | null;
  /** Null: tracing is not offered, as in an exercise. */
  readonly trace: TraceState | null;
  readonly next: NextStep | null;
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

/** The name of the mark as a line of the form has it: "Proximal axis". */
function nameOf(role: MarkRole): string {
  const { name } = ROLES[role];
  return `${name.charAt(0).toUpperCase()}${name.slice(1)}`;
}

function AxisSign({ role }: { role: MarkRole }) {
  if (role === 'proximal-axis')
    return (
      <svg className="sign" viewBox="0 0 30 10" aria-hidden="true">
        <path d="M3 5H27M3 1V9M27 1V9" className="sign__proximal" />
      </svg>
    );
  if (role === 'distal-axis')
    return (
      <svg className="sign" viewBox="0 0 30 10" aria-hidden="true">
        <path d="M4 5H26" className="sign__distal" />
      </svg>
    );
  return null;
}

export function AxesSection({ marks, sideRole, placing, trace, next, actions }: AxesSectionProps) {
  const placedAxes = marks.filter((mark) => mark.role === 'proximal-axis' || mark.role === 'distal-axis');
  const lineOf = (role: MarkRole) => (
    <AxisLine
      key={role}
      role={role}
      mark={marks.find((mark) => mark.role === role) ?? null}
      placing={placing?.role === role ? placing : null}
      isNext={next?.line === role}
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
}

/** What a mark that is no axis serves. */
const PAGE_OF_ROLE: Readonly<Partial<Record<MarkRole, HelpId>>> = {
  'dorsal-side': 'angulation',
  'radial-side': 'angulation',
  'fracture-level': 'translation',
  length: 'length',
  'reference-length': 'shortening',
  'head-line': 'shortening',
  'head-point': 'shortening',
  'fracture-tips': 'shortening',
  'joint-surface': 'joint-surface',
  'joint-edges': 'joint-surface',
  'scale-object': 'scale',
};

interface AxisLineProps {
  readonly role: MarkRole;
  readonly mark: MarkRecord | null;
  readonly placing: PlacingState | null;
  readonly isNext: boolean;
  readonly actions: BenchActions;
}

function AxisLine({ role, mark, placing, isNext, actions }: AxisLineProps) {
  const offered = ROLES[role].constructions;
  const [wanted, setWanted] = useState<ShapeConstruction>(mark?.shape.construction ?? offered[0]);
  const name = nameOf(role);
  const page = pageOfConstruction(wanted) ?? PAGE_OF_ROLE[role];
  return (
    <div
      className="line line--axis"
      data-next={isNext || undefined}
      data-placing={placing !== null || undefined}
    >
      <div className="line__name">
        <span className="line__title">
          <AxisSign role={role} />
          {name}
        </span>
        <small>
          {placing !== null ? (
            placing.instruction
          ) : mark === null ? (
            ROLES[role].meaning
          ) : (
            <Placed mark={mark} name={name.toLowerCase()} actions={actions} />
          )}
        </small>
      </div>
      <div className="line__answer">
        {placing !== null ? (
          <>
            {placing.canStepBack && (
              <PushButton quiet onPress={actions.stepBackPlacing}>
                Last point back
              </PushButton>
            )}
            <PushButton onPress={actions.stopPlacing}>Stop</PushButton>
          </>
        ) : (
          <>
            {offered.length > 1 && (
              <Pick
                label={`How the ${name.toLowerCase()} is drawn`}
                labelHidden
                options={offered.map((value) => ({ value, name: CONSTRUCTION_FACTS[value].name }))}
                value={wanted}
                onChange={setWanted}
              />
            )}
            <PushButton
              next={isNext}
              onPress={() => actions.place(role, wanted)}
              label={`${mark === null ? 'Place' : 'Place again:'} ${name.toLowerCase()}`}
            >
              {mark === null ? 'Place' : 'Again'}
            </PushButton>
            {page !== undefined && <HelpMark page={page} of={`the ${name.toLowerCase()}`} />}
          </>
        )}
      </div>
    </div>
  );
}

interface PlacedProps {
  readonly mark: MarkRecord;
  readonly name: string;
  readonly actions: BenchActions;
}

/** How a mark was drawn, and what can be done to it. */
function Placed({ mark, name, actions }: PlacedProps) {
  const { construction } = mark.shape;
  return (
    <span className="placed">
      <span>
        {construction === 'point' ? '' : `${CONSTRUCTION_FACTS[construction].name}, `}
        {pointCount(mark)}
        {MADE[mark.provenance]}
      </span>
      {canGrow(construction) && (
        <button type="button" className="link-button" onClick={() => actions.addPoint(mark.id)}>
          {MORE[construction] ?? 'Add a point'}
        </button>
      )}
      <button
        type="button"
        className="link-button"
        aria-label={`Remove the ${name}`}
        onClick={() => actions.removeMark(mark.id)}
      >
        Remove
      </button>
    </span>
  );
}

/** How a mark came about, where it was not placed by hand alone. */
const MADE: Readonly<Record<MarkRecord['provenance'], string>> = {
  placed: '',
  traced: ', traced',
  'traced-and-corrected': ', traced and corrected',
};

const MORE: Readonly<Partial<Record<ShapeConstruction, string>>> = {
  canal: 'Add a level',
  'cortex-pair': 'Add a level',
  head: 'Add a rim point',
};

function pointCount(mark: MarkRecord): string {
  const { shape } = mark;
  if (shape.construction === 'canal' || shape.construction === 'cortex-pair')
    return `${shape.levels.length} levels`;
  const count = controlPoints(mark).length;
  return count === 1 ? 'tapped on the film' : `${count} points`;
}
