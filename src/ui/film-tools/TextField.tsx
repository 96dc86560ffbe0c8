import { useId } from 'react';

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (text: string) => void;
  /** An example of what to type. */
  readonly example: string;
  readonly wrong?: string | null;
  /** What Enter does; nothing where not given. */
  readonly onEnter?: () => void;
}

/** A short text with its label above and, below, what is wrong with it. */
export function TextField({ label, value, onChange, example, wrong, onEnter }: TextFieldProps) {
  const id = useId();
  const problem = wrong ?? null;
  return (
    <div className="field">
      <label className="field__label" htmlFor={id}>
        {label}
      </label>
      <input
        id={id}
        className="field__input"
        value={value}
        placeholder={example}
        autoComplete="off"
        aria-invalid={problem !== null}
        aria-describedby={problem === null ? undefined : `${id}-wrong`}
        onChange={(event) => onChange(event.currentTarget.value)}
        onKeyDown={(event) => event.key === 'Enter' && onEnter?.()}
      />
      {problem !== null && (
        <span id={`${id}-wrong`} role="alert" className="field__wrong">
          {problem}
        </span>
      )}
    </div>
  );
}
