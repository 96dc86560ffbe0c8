import type { LimitSet } from '../../tolerance/limit-set.ts';
import { PushButton } from '../controls/controls.tsx';
import type { LimitActions } from './actions.ts';
import { LimitCells, LimitHeads } from './LimitCells.tsx';
import { APPLIES } from './words.ts';

interface LimitSetSheetProps {
  readonly set: LimitSet;
  readonly actions: LimitActions;
  /** Opens the editor of a local protocol. */
  readonly onEdit: (id: string) => void;
}

/** One limit set as a page: what it applies to, its rows, its source, and what can be done with it. */
export function LimitSetSheet({ set, actions, onEdit }: LimitSetSheetProps) {
  return (
    <article className="limit-set" aria-label={set.title} data-local={set.local || undefined}>
      <h3>
        {set.title} {set.local && <span className="limit-set__local">local, revision {set.revision}</span>}
      </h3>
      <p className="aside-note">
        {set.population === 'child' ? 'Children' : 'Adults'}; {APPLIES[set.appliesTo]}.
        {set.note !== null && ` ${set.note}`}
      </p>
      <table className="limit-set__rows">
        <thead>
          <tr>
            <LimitHeads />
          </tr>
        </thead>
        <tbody>
          {set.rows.map((row) => (
            <tr key={row.id}>
              <LimitCells row={row} />
            </tr>
          ))}
        </tbody>
      </table>
      <p className="aside-note">
        Source: {set.source.citation}
        {set.source.year === null ? '' : ` (${set.source.year})`}
      </p>
      <div className="limit-set__actions">
        {set.local ? (
          <>
            <PushButton onPress={() => onEdit(set.id)} label={`Edit ${set.title}`}>
              Edit
            </PushButton>
            <PushButton onPress={() => actions.exportSet(set)} label={`Export ${set.title}`}>
              Export
            </PushButton>
            <PushButton quiet onPress={() => actions.copy(set)} label={`Copy ${set.title}`}>
              Copy
            </PushButton>
          </>
        ) : (
          <>
            <PushButton onPress={() => onEdit(actions.copy(set))} label={`Copy and edit ${set.title}`}>
              Copy and edit
            </PushButton>
            <PushButton quiet onPress={() => actions.exportSet(set)} label={`Export ${set.title}`}>
              Export
            </PushButton>
          </>
        )}
      </div>
    </article>
  );
}
