import type { GreyScale, LookupTable, ModalityTransform, Window } from './film.ts';
import { lookUp } from './look-up.ts';

/**
 * From stored values to display grey: modality transform, then VOI, then presentation (PS3.3 C.11.1, C.11.2,
 * C.11.6). Display grey is 0 (black) to 255 (white). Pure: the same function draws the plate and every export.
 */

/** Which part of the grey scale is shown, and whether the viewer turned it negative. View state, never kept as truth. */
export interface Light {
  readonly shown:
    | ({
        readonly kind: 'window';
        /** Greater values are darker: the window stands for a VOI table that falls. Absent: lighter. */
        readonly falls?: boolean;
      } & Pick<Window, 'center' | 'width' | 'function'>)
    /** Index into `GreyScale.voiTables`. */
    | { readonly kind: 'voi-table'; readonly index: number }
    /** From the least to the greatest value of the film. */
    | { readonly kind: 'full-range' };
  /** Shown with black and white exchanged, on top of what the photometric interpretation asks. */
  readonly negative: boolean;
}

/** Display grey for a run of stored values: `values[storedValue - firstStored]`. */
export interface DisplayLut {
  /** The stored value of the first entry; below the film's least one where padding lies there. */
  readonly firstStored: number;
  readonly values: Uint8ClampedArray;
}

const WHITE = 255;

/** PS3.3 C.11.2.1.2.1: a LINEAR width is 1 or more; C.11.2.1.3: the others are greater than 0. */
export const isUsableWindow = (window: Pick<Window, 'center' | 'width' | 'function'>): boolean =>
  Number.isFinite(window.center) &&
  Number.isFinite(window.width) &&
  (window.function === 'LINEAR' ? window.width >= 1 : window.width > 0);

/** A stored value in the output units of the modality transform. */
export const modalityValue = (transform: ModalityTransform, stored: number): number =>
  transform.kind === 'table'
    ? lookUp(transform.table, stored)
    : stored * transform.slope + transform.intercept;

/**
 * Grey of a modality value under a window, 0 to 255, not rounded.
 *
 * @param x - Modality value.
 * @see PS3.3 C.11.2.1.2.1 (LINEAR), C.11.2.1.3.1 (SIGMOID), C.11.2.1.3.2 (LINEAR_EXACT).
 */
export function windowed(
  x: number,
  { center: c, width: w, function: kind }: Pick<Window, 'center' | 'width' | 'function'>,
): number {
  switch (kind) {
    case 'LINEAR':
      if (x <= c - 0.5 - (w - 1) / 2) return 0;
      if (x > c - 0.5 + (w - 1) / 2) return WHITE;
      return ((x - (c - 0.5)) / (w - 1) + 0.5) * WHITE;
    case 'LINEAR_EXACT':
      if (x <= c - w / 2) return 0;
      if (x > c + w / 2) return WHITE;
      return ((x - c) / w + 0.5) * WHITE;
    case 'SIGMOID':
      return WHITE / (1 + Math.exp((-4 * (x - c)) / w));
  }
}

/** PS3.3 C.11.2.1.1: a table's output spans 0 to 2ⁿ − 1 for the n bits its descriptor states. */
const throughTable = (table: LookupTable, x: number) =>
  (lookUp(table, x) / (2 ** table.bitsPerEntry - 1)) * WHITE;

/** Least and greatest modality value of the stored values from `storedMin` to `storedMax`. */
export function modalityRange(
  transform: ModalityTransform,
  storedMin: number,
  storedMax: number,
): { readonly least: number; readonly greatest: number } {
  if (transform.kind === 'rescale') {
    const ends = [storedMin, storedMax].map((stored) => modalityValue(transform, stored));
    return { least: Math.min(...ends), greatest: Math.max(...ends) };
  }
  let least = Number.POSITIVE_INFINITY;
  let greatest = Number.NEGATIVE_INFINITY;
  for (let stored = storedMin; stored <= storedMax; stored++) {
    const value = lookUp(transform.table, stored);
    least = Math.min(least, value);
    greatest = Math.max(greatest, value);
  }
  return { least, greatest };
}

/** The VOI step as a function; a window or a table that cannot be used falls back to the full range. */
function voi(grey: GreyScale, light: Light, storedMin: number, storedMax: number): (x: number) => number {
  const { shown } = light;
  if (shown.kind === 'window' && isUsableWindow(shown)) return (x) => windowed(x, shown);
  const table = shown.kind === 'voi-table' ? grey.voiTables[shown.index] : undefined;
  if (table !== undefined) return (x) => throughTable(table, x);
  const { least, greatest } = modalityRange(grey.modality, storedMin, storedMax);
  const span = greatest - least;
  return span > 0 ? (x) => ((x - least) / span) * WHITE : () => WHITE / 2;
}

const falls = ({ shown }: Light): boolean => shown.kind === 'window' && shown.falls === true;

/** Whether a greater modality value is shown darker; of a VOI table, whether its output is turned over. */
export const isInverted = (grey: GreyScale, light: Light): boolean =>
  ((grey.photometric === 'MONOCHROME1') !== light.negative) !== falls(light);

/** Stored values that the bits of the film can hold. */
function possible(grey: GreyScale): { readonly least: number; readonly greatest: number } {
  const span = 2 ** grey.bitsStored;
  return grey.signed ? { least: -span / 2, greatest: span / 2 - 1 } : { least: 0, greatest: span - 1 };
}

/**
 * The display grey of every stored value a film holds: `values[storedValue - firstStored]`.
 *
 * MONOCHROME1 is inverted once, here; Presentation LUT Shape INVERSE says the same thing again and is not a
 * second inversion. Padding is black whatever the inversion, and the table is long enough to cover it.
 *
 * @param storedMin - Least stored value of the film that is not padding.
 * @param storedMax - Greatest; `storedMin` or more.
 * @returns Rounded to the nearest grey. The table spans `storedMin` to `storedMax` and any padding beyond.
 */
export function displayLut(grey: GreyScale, light: Light, storedMin: number, storedMax: number): DisplayLut {
  const limits = possible(grey);
  const { padding } = grey;
  const firstStored = Math.max(Math.min(storedMin, padding?.from ?? storedMin), limits.least);
  const last = Math.min(Math.max(storedMax, padding?.to ?? storedMax), limits.greatest);
  const values = new Uint8ClampedArray(last - firstStored + 1);
  const greyOf = voi(grey, light, storedMin, storedMax);
  const inverted = isInverted(grey, light);
  for (let stored = storedMin; stored <= storedMax; stored++) {
    const shown = greyOf(modalityValue(grey.modality, stored));
    values[stored - firstStored] = Math.round(inverted ? WHITE - shown : shown);
  }
  if (padding !== null)
    values.fill(0, Math.max(padding.from - firstStored, 0), Math.max(padding.to - firstStored + 1, 0));
  return { firstStored, values };
}
