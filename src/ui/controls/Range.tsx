import { Label, Slider, SliderThumb, SliderTrack } from 'react-aria-components';

interface RangeProps {
  readonly label: string;
  /** 0 to 1. */
  readonly value: number;
  readonly onChange: (value: number) => void;
}

/** A slider from 0 to 1. */
export function Range({ label, value, onChange }: RangeProps) {
  return (
    <Slider
      className="range"
      minValue={0}
      maxValue={1}
      step={0.005}
      value={value}
      onChange={(next) => onChange(next as number)}
      formatOptions={{ style: 'percent' }}
    >
      <Label className="range__label">{label}</Label>
      <SliderTrack className="range__track">
        <SliderThumb className="range__thumb" />
      </SliderTrack>
    </Slider>
  );
}
