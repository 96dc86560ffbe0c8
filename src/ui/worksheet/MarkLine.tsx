import { useState } from 'react';
import type { MarkRecord, MarkRole } from '../../case/document.ts';
import { PROVENANCE_WORDS } from '../../case/format.ts';
import { controlPoints } from '../../case/marks.ts';
import { CONSTRUCTION_FACTS, ROLES, type ShapeConstruction } from '../../case/roles.ts';
import { canGrow } from '../../case/shape-points.ts';
import type { BenchActions } from '../actions.ts';
import { Pick, PushButton } from '../controls/controls.tsx';
import { HelpMark } from '../help/HelpMark.tsx';
import type { HelpId } from '../help/page.ts';
import { pageOfConstruction } from '../help/page-of.ts';
import { PlacingButtons } from './PlacingButtons.tsx';

/** What is being placed now, as the line of its mark shows it. */
export interface PlacingState {
  readonly role: MarkRole;
  readonly caption: string;
  readonly instruction: string;
  readonly canStepBack: boolean;
}

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
  'scale-object-2': 'scale',
  'finger-nail': 'fist-photograph',
  'reference-nail': 'fist-photograph',
  'neighbour-nail': 'fist-photograph',
  'covering-edge': 'fist-photograph',
};

interface MarkLineProps {
  readonly role: MarkRole;
  readonly mark: MarkRecord | null;
  readonly placing: PlacingState | null;
  readonly isNext: boolean;
  /** Asked for from outside; null: as the user likes. */
  readonly drawnBy?: ShapeConstruction | null;
  readonly actions: BenchActions;
}

/** One mark of the film shown: what it is, how it is drawn, and the way to place it. */
export function MarkLine({ role, mark, placing, isNext, drawnBy = null, actions }: MarkLineProps) {
  const offered = ROLES[role].constructions;
  const [wanted, setWanted] = useState<ShapeConstruction>(
    mark?.shape.construction ?? offered.find((one) => one === drawnBy) ?? offered[0],
  );
  // Another film, or axes that were traced: the line says how its mark is drawn until another way is chosen.
  const drawn = mark === null ? null : `${mark.id} ${mark.shape.construction}`;
  const [seen, setSeen] = useState(drawn);
  if (drawn !== seen) {
    setSeen(drawn);
    if (mark !== null) setWanted(mark.shape.construction);
  }
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
          <PlacingButtons canStepBack={placing.canStepBack} actions={actions} />
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
        {PROVENANCE_WORDS[mark.provenance]}
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
