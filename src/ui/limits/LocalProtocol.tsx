import { useId, useState } from 'react';
import type { LimitRow, LimitSet } from '../../tolerance/limit-set.ts';
import { addRow, editRow, editSet, removeRow } from '../../tolerance/local-protocol.ts';
import { Choice, Pick, PushButton } from '../controls/controls.tsx';
import type { LimitActions } from './actions.ts';
import { LimitCells, LimitHeads } from './LimitCells.tsx';
import { RowEditor } from './RowEditor.tsx';
import { QUANTITY } from './words.ts';

const APPLIES_OPTIONS = [
  { value: 'measured', name: 'angle as measured' },
  { value: 'deformity', name: 'deformity' },
  { value: 'not stated', name: 'not stated' },
] as const;

const POPULATIONS = [
  { value: 'adult', name: 'adults' },
  { value: 'child', name: 'children' },
] as const;

interface LocalProtocolProps {
  readonly set: LimitSet;
  readonly actions: LimitActions;
  readonly onDone: () => void;
}

/** A local protocol being edited: its name and what it applies to, and its rows one at a time. */
export function LocalProtocol({ set, actions, onDone }: LocalProtocolProps) {
  const [open, setOpen] = useState<string | null>(null);
  const [title, setTitle] = useState(set.title);
  const [refused, setRefused] = useState<string | null>(null);
  const [asked, setAsked] = useState(false);
  const titleId = useId();
  const keepTitle = () => {
    if (title !== set.title) setRefused(actions.save(editSet(set, { title })));
  };
  return (
    <article className="limit-set local-protocol" aria-label={`Edit ${set.title}`} data-local>
      <h3>
        Local protocol <span className="limit-set__local">revision {set.revision}</span>
      </h3>
      <label className="row-editor__note" htmlFor={titleId}>
        Name
        <input
          id={titleId}
          value={title}
          aria-invalid={refused !== null}
          onChange={(event) => setTitle(event.currentTarget.value)}
          onBlur={keepTitle}
          onKeyDown={(event) => event.key === 'Enter' && keepTitle()}
        />
      </label>
      <p role="alert" className="row-editor__refused">
        {refused}
      </p>
      <div className="local-protocol__head">
        <Choice
          label="For"
          options={POPULATIONS}
          value={set.population}
          onChange={(population) => actions.save(editSet(set, { population }))}
        />
        <Pick
          label="Compared with"
          options={APPLIES_OPTIONS}
          value={set.appliesTo}
          onChange={(appliesTo) => actions.save(editSet(set, { appliesTo }))}
        />
      </div>
      <table className="limit-set__rows">
        <thead>
          <tr>
            <LimitHeads />
            <th scope="col">
              <span className="visually-hidden">Change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {set.rows.map((row) =>
            open === row.id ? (
              <tr key={row.id}>
                <td colSpan={5}>
                  <RowEditor
                    row={row}
                    onCancel={() => setOpen(null)}
                    onKeep={(changed) => {
                      const { id, ...change } = changed;
                      const problem = actions.save(editRow(set, id, change));
                      if (problem === null) setOpen(null);
                      return problem;
                    }}
                    onRemove={() => {
                      setRefused(actions.save(removeRow(set, row.id)));
                      setOpen(null);
                    }}
                  />
                </td>
              </tr>
            ) : (
              <tr key={row.id}>
                <LimitCells row={row} />
                <td>
                  <PushButton
                    quiet
                    onPress={() => setOpen(row.id)}
                    label={`Change ${row.rays.join(', ')} ${row.regions.join(', ')}, ${QUANTITY[row.quantity]}`}
                  >
                    Change
                  </PushButton>
                </td>
              </tr>
            ),
          )}
        </tbody>
      </table>
      {open === NEW_ROW ? (
        <RowEditor
          row={newRow(set)}
          onCancel={() => setOpen(null)}
          onKeep={(row) => {
            const problem = actions.save(addRow(set, row));
            if (problem === null) setOpen(null);
            return problem;
          }}
          onRemove={null}
        />
      ) : (
        <PushButton onPress={() => setOpen(NEW_ROW)}>Add a row</PushButton>
      )}
      <p className="aside-note">Source: {set.source.citation}</p>
      <div className="limit-set__actions">
        <PushButton next onPress={onDone}>
          Done
        </PushButton>
        <PushButton onPress={() => actions.exportSet(set)}>Export</PushButton>
        {asked ? (
          <>
            <span>Remove it from this browser?</span>
            <PushButton onPress={() => actions.remove(set.id)}>Remove</PushButton>
            <PushButton quiet onPress={() => setAsked(false)}>
              Keep it
            </PushButton>
          </>
        ) : (
          <PushButton quiet onPress={() => setAsked(true)}>
            Remove…
          </PushButton>
        )}
      </div>
    </article>
  );
}

/** No row has this id: ids of rows are not empty. */
const NEW_ROW = '';

function newRow({ rows }: LimitSet): LimitRow {
  let number = rows.length + 1;
  while (rows.some(({ id }) => id === `row-${number}`)) number += 1;
  return {
    id: `row-${number}`,
    rays: ['small'],
    regions: ['neck'],
    quantity: 'apex-dorsal',
    band: null,
    unit: 'degrees',
    comparison: 'up to',
    note: null,
  };
}
