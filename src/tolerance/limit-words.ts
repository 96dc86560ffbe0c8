import type { Band, LimitRow } from './limit-set.ts';
import { decimalsFor, fixedText, THIN_SPACE } from './number-words.ts';

/**
 * A measured value as a sentence shows it, with the decimals that its interval bears: as beside its reading.
 *
 * @param expandedUncertainty - Half-width of the 95 % interval, in `unit`.
 */
export function valueText(value: number, expandedUncertainty: number, unit: LimitRow['unit']): string {
  const number = fixedText(value, decimalsFor(expandedUncertainty));
  return unit === 'degrees' ? `${number}°` : `${number}${THIN_SPACE}mm`;
}

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
