import { useId, useState } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { RAYS, REGIONS } from '../../tolerance/anatomy.ts';
import { LIMIT_QUANTITIES, type LimitRow, QUANTITY_UNIT } from '../../tolerance/limit-set.ts';
import { Choice, Pick, PushButton } from '../controls/controls.tsx';
import { QUANTITY } from './words.ts';

interface RowEditorProps {
  readonly row: LimitRow;
  /** Why the row as typed was refused; null: taken. */
  readonly onKeep: (row: LimitRow) => string | null;
  readonly onCancel: () => void;
  /** Null for a row that is not in the set yet. */
  readonly onRemove: (() => void) | null;
}

const COMPARISONS = [
  { value: 'up to', name: 'up to' },
  { value: 'less than', name: 'less than' },
] as const;

/** One row of a local protocol as a form: nothing changes until it is kept, and it is kept only if it is valid. */
export function RowEditor({ row, onKeep, onCancel, onRemove }: RowEditorProps) {
  const [draft, setDraft] = useState(row);
  const [from, setFrom] = useState(numberText(row.band?.lo));
  const [to, setTo] = useState(numberText(row.band?.hi));
  const [refused, setRefused] = useState<string | null>(null);
  const ids = { from: useId(), to: useId(), note: useId(), refused: useId() };
  const keep = () => {
    const band = from.trim() === '' && to.trim() === '' ? null : { lo: asNumber(from), hi: asNumber(to) };
    setRefused(onKeep({ ...draft, band }));
  };
  return (
    <form
      className="row-editor"
      aria-label="Row"
      onSubmit={(event) => {
        event.preventDefault();
        keep();
      }}
    >
      <Several
        label="Fingers"
        options={RAYS}
        value={draft.rays}
        onChange={(rays) => setDraft({ ...draft, rays })}
      />
      <Several
        label="Parts of the bone"
        options={REGIONS}
        value={draft.regions}
        onChange={(regions) => setDraft({ ...draft, regions })}
      />
      <Pick
        label="What"
        options={LIMIT_QUANTITIES.map((value) => ({ value, name: QUANTITY[value] }))}
        value={draft.quantity}
        onChange={(quantity) => setDraft({ ...draft, quantity, unit: QUANTITY_UNIT[quantity] })}
      />
      <div className="row-editor__numbers">
        <Choice
          label="How the limit is meant"
          labelHidden
          options={COMPARISONS}
          value={draft.comparison}
          onChange={(comparison) => setDraft({ ...draft, comparison })}
        />
        <label htmlFor={ids.from}>
          from
          <input
            id={ids.from}
            className="number__input"
            inputMode="decimal"
            value={from}
            aria-invalid={refused !== null}
            aria-describedby={ids.refused}
            onChange={(event) => setFrom(event.currentTarget.value)}
          />
        </label>
        <label htmlFor={ids.to}>
          to
          <input
            id={ids.to}
            className="number__input"
            inputMode="decimal"
            value={to}
            aria-invalid={refused !== null}
            aria-describedby={ids.refused}
            onChange={(event) => setTo(event.currentTarget.value)}
          />
        </label>
        <span>{draft.unit}</span>
      </div>
      <label className="row-editor__note" htmlFor={ids.note}>
        Note; needed where there is no number
        <input
          id={ids.note}
          value={draft.note ?? ''}
          onChange={(event) =>
            setDraft({ ...draft, note: event.currentTarget.value === '' ? null : event.currentTarget.value })
          }
        />
      </label>
      <p id={ids.refused} role="alert" className="row-editor__refused">
        {refused}
      </p>
      <div className="limit-set__actions">
        <PushButton next onPress={keep}>
          Keep the row
        </PushButton>
        <PushButton onPress={onCancel}>Cancel</PushButton>
        {onRemove !== null && (
          <PushButton quiet onPress={onRemove}>
            Remove the row
          </PushButton>
        )}
      </div>
    </form>
  );
}

interface SeveralProps<Value extends string> {
  readonly label: string;
  readonly options: readonly Value[];
  readonly value: readonly Value[];
  readonly onChange: (value: readonly Value[]) => void;
}

/** Any number of a few, in their own order. */
function Several<Value extends string>({ label, options, value, onChange }: SeveralProps<Value>) {
  return (
    <div className="several">
      <span aria-hidden="true">{label}</span>
      <ToggleButtonGroup
        className="check__answers"
        aria-label={label}
        selectionMode="multiple"
        selectedKeys={[...value]}
        onSelectionChange={(keys) => onChange(options.filter((option) => keys.has(option)))}
      >
        {options.map((option) => (
          <ToggleButton key={option} id={option} className="check__answer">
            {option}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
    </div>
  );
}

const numberText = (value: number | undefined): string => (value === undefined ? '' : String(value));

/** A decimal comma is taken as a point; anything else that is no number is refused with the row. */
const asNumber = (text: string): number =>
  text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.'));
