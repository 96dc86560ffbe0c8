import { Input, Label, NumberField } from 'react-aria-components';

interface WholeNumberProps {
  readonly label: string;
  readonly value: number | null;
  readonly onChange: (value: number | null) => void;
  readonly min: number;
  readonly max: number;
}

/** A field for a whole number between two others; null: empty. */
export function WholeNumber({ label, value, onChange, min, max }: WholeNumberProps) {
  return (
    <NumberField
      className="number"
      value={value ?? Number.NaN}
      onChange={(next) => onChange(Number.isNaN(next) ? null : Math.round(next))}
      minValue={min}
      maxValue={max}
      step={1}
      formatOptions={{ maximumFractionDigits: 0 }}
    >
      <Label className="number__label">{label}</Label>
      <Input className="number__input" />
    </NumberField>
  );
}
