import type { Band, LimitRow } from './limit-set.ts';

/** Between a number and its unit. Degrees follow without a space. */
const THIN_SPACE = '\u2009';

/** A value as a sentence shows it: whole degrees, tenths of a millimetre. */
export function valueText(value: number, unit: LimitRow['unit']): string {
  // The sum with 0 keeps a rounded minus zero from being shown as "−0".
  if (unit === 'degrees') return `${signed(Math.round(value) + 0, 0)}°`;
  return `${signed(Math.round(value * 10) / 10 + 0, 1)}${THIN_SPACE}mm`;
}

const signed = (value: number, decimals: number): string =>
  `${value < 0 ? '−' : ''}${Math.abs(value).toFixed(decimals)}`;

/** "50–60°", "2 mm", "no displacement": the band without its comparison, as a sentence needs it. */
export function bandText(band: Band, unit: LimitRow['unit']): string {
  const { lo, hi } = band;
  if (hi === 0) return unit === 'degrees' ? 'no angulation' : 'no displacement';
  const range = lo === hi ? `${lo}` : `${lo}–${hi}`;
  return unit === 'degrees' ? `${range}°` : `${range}${THIN_SPACE}mm`;
}

/** "up to 50–60°", "less than 2 mm", "no displacement", as a table shows it; null where the row holds no number. */
export function limitText(row: Pick<LimitRow, 'band' | 'unit' | 'comparison'>): string | null {
  if (row.band === null) return null;
  const text = bandText(row.band, row.unit);
  return row.band.hi === 0 ? text : `${row.comparison} ${text}`;
}

/** A probability as people say it: "about 97 in 100", never quite nothing and never quite all. */
export function probabilityText(probability: number): string {
  const hundredths = Math.round(probability * 100);
  if (hundredths < 1) return 'less than 1 in 100';
  if (hundredths > 99) return 'more than 99 in 100';
  return `about ${hundredths} in 100`;
}
