/** Thin space, set between a number and its unit and around ±. Degrees follow without a space. */
export const THIN_SPACE = '\u2009';

/**
 * Decimals worth printing beside an expanded uncertainty: it keeps one or two significant digits
 * (JCGM 100:2008, 7.2.6), so that a number never looks better known than it is. The one rule for every number
 * that is measured, whichever sentence it stands in.
 *
 * @param expandedUncertainty - Half-width of the 95 % interval, in the unit of the number.
 */
export function decimalsFor(expandedUncertainty: number): number {
  if (!Number.isFinite(expandedUncertainty) || expandedUncertainty >= 2) return 0;
  return expandedUncertainty >= 0.2 ? 1 : 2;
}

/** A number without its sign of zero: −0.04 at one decimal is "0.0", never "-0.0". */
export function fixedText(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? (0).toFixed(decimals) : text.replace('-', '−');
}
