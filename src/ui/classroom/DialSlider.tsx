import { Label, Slider, SliderOutput, SliderThumb, SliderTrack } from 'react-aria-components';
import type { SliderDial } from '../../classroom/dial.ts';

interface DialSliderProps {
  readonly dial: SliderDial;
  readonly value: number;
  readonly disabled: boolean;
  readonly onChange: (value: number) => void;
}

/** A dial with its number, to be turned by pointer or by the arrow keys. */
export function DialSlider({ dial, value, disabled, onChange }: DialSliderProps) {
  const decimals = dial.step < 0.1 ? 2 : dial.step < 1 ? 1 : 0;
  return (
    <Slider
      className="dial"
      minValue={dial.from}
      maxValue={dial.to}
      step={dial.step}
      value={Math.min(dial.to, Math.max(dial.from, value))}
      isDisabled={disabled}
      onChange={(next) => onChange(next as number)}
      formatOptions={{ minimumFractionDigits: decimals, maximumFractionDigits: decimals }}
    >
      <Label className="dial__name">{dial.name}</Label>
      <span className="dial__value">
        <SliderOutput>{({ state }) => state.getThumbValueLabel(0).replace('-', '−')}</SliderOutput>
        {dial.unit === '°' ? '°' : dial.unit === '' ? '' : `\u2009${dial.unit}`}
      </span>
      <SliderTrack className="dial__track">
        <SliderThumb className="dial__thumb" />
      </SliderTrack>
      <small className="dial__teaches">{dial.teaches}</small>
    </Slider>
  );
}
