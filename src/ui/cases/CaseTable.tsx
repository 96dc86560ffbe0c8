import { useEffect, useRef, useState } from 'react';
import { PushButton } from '../controls/controls.tsx';

export interface CaseRow {
  readonly id: string;
  /** The user's own; empty: not given. */
  readonly label: string;
  readonly films: number;
  /** ISO 8601; empty: not known. */
  readonly changedAt: string;
  readonly onScreen: boolean;
}

export interface CaseTableActions {
  open(id: string): void;
  rename(id: string, label: string): void;
  remove(id: string): void;
  exportOne(id: string): void;
}

const WITHOUT_LABEL = 'Case without a label';
export const caseName = (label: string): string => (label === '' ? WITHOUT_LABEL : label);

const WHEN = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

const changedWords = (changedAt: string): string => {
  const time = Date.parse(changedAt);
  return Number.isNaN(time) || time === 0 ? 'not known' : WHEN.format(time);
};

/** The cases on this computer; what is being renamed or removed is asked in its own row. */
export function CaseTable({ rows, actions }: { rows: readonly CaseRow[]; actions: CaseTableActions }) {
  const [asking, setAsking] = useState<{ id: string; about: 'rename' | 'remove' } | null>(null);
  return (
    <table className="case-table">
      <caption className="visually-hidden">Cases on this computer, the one changed last first</caption>
      <thead>
        <tr>
          <th scope="col">Label</th>
          <th scope="col">Films</th>
          <th scope="col">Changed</th>
          <th scope="col">
            <span className="visually-hidden">What can be done</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => {
          const name = caseName(row.label);
          const about = asking?.id === row.id ? asking.about : null;
          return (
            <tr key={row.id} data-on-screen={row.onScreen || undefined}>
              <th scope="row">
                {about === 'rename' ? (
                  <LabelField
                    label={row.label}
                    onDone={(label) => {
                      setAsking(null);
                      if (label !== null) actions.rename(row.id, label);
                    }}
                  />
                ) : (
                  <button
                    type="button"
                    className="link-button case-table__name"
                    data-without-label={row.label === '' || undefined}
                    onClick={() => actions.open(row.id)}
                  >
                    {name}
                  </button>
                )}
                {row.onScreen && <small>on screen</small>}
              </th>
              <td className="number-cell">{row.films}</td>
              <td>{changedWords(row.changedAt)}</td>
              <td className="case-table__actions">
                {about === 'remove' ? (
                  <fieldset aria-label={`Remove ${name}?`} className="case-table__asking">
                    <span>Its marks and history go for good.</span>
                    <PushButton onPress={() => actions.remove(row.id)} label={`Remove for good: ${name}`}>
                      Remove for good
                    </PushButton>
                    <PushButton quiet onPress={() => setAsking(null)} label={`Keep ${name}`}>
                      Keep
                    </PushButton>
                  </fieldset>
                ) : (
                  <>
                    <PushButton quiet onPress={() => actions.exportOne(row.id)} label={`Export ${name}`}>
                      Export
                    </PushButton>
                    <PushButton
                      quiet
                      onPress={() => setAsking({ id: row.id, about: 'rename' })}
                      label={`Rename ${name}`}
                    >
                      Rename
                    </PushButton>
                    <PushButton
                      quiet
                      onPress={() => setAsking({ id: row.id, about: 'remove' })}
                      label={`Remove ${name}`}
                    >
                      Remove
                    </PushButton>
                  </>
                )}
              </td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** Enter keeps the label, Escape leaves it as it was. */
function LabelField({ label, onDone }: { label: string; onDone: (label: string | null) => void }) {
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => field.current?.select(), []);
  return (
    <form
      className="case-table__rename"
      onSubmit={(event) => {
        event.preventDefault();
        onDone((field.current?.value ?? '').trim());
      }}
    >
      <input
        ref={field}
        className="text-input"
        aria-label="Label of the case"
        defaultValue={label}
        maxLength={200}
        onKeyDown={(event) => {
          if (event.key !== 'Escape') return;
          event.preventDefault();
          onDone(null);
        }}
      />
      <button type="submit" className="button">
        Keep label
      </button>
    </form>
  );
}
