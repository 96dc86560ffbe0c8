import type { KnownReading } from '../../case/assessment.ts';

const THIN_SPACE = '\u2009';

/** Tenths where the interval is narrow enough to mean them, else whole numbers. */
const decimalsOf = ({ unit, expandedUncertainty }: KnownReading): number =>
  unit === 'degrees' && expandedUncertainty >= 2 ? 0 : 1;

const number = (value: number, decimals: number): string => {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `−${text}` : text;
};

const UNIT_SIGNS: Readonly<Record<KnownReading['unit'], string>> = {
  degrees: '°',
  millimetres: `${THIN_SPACE}mm`,
  'percent of bone': `${THIN_SPACE}%`,
  'percent of shaft width': `${THIN_SPACE}%`,
};

/** The value with its unit: "35°", "−2°", "61.4 mm". */
export const valueText = (reading: KnownReading): string =>
  `${number(reading.value, decimalsOf(reading))}${UNIT_SIGNS[reading.unit]}`;

/** Half the 95 % interval, with the decimals of its value and no unit: "5". */
export const intervalText = (reading: KnownReading): string =>
  reading.expandedUncertainty.toFixed(decimalsOf(reading));

/** "35° ± 5°", "61.4 ± 0.8 mm". */
export function readingText(reading: KnownReading): string {
  const interval = intervalText(reading);
  return reading.unit === 'degrees'
    ? `${valueText(reading)} ± ${interval}°`
    : `${number(reading.value, decimalsOf(reading))} ± ${interval}${UNIT_SIGNS[reading.unit]}`;
}
