import { assess } from '../../src/case/assess.ts';
import type { Assessment } from '../../src/case/assessment.ts';
import type { CaseRecord, FilmRecord, MarkShape } from '../../src/case/document.ts';
import type { KnownReading, Quantity, Reading } from '../../src/case/reading.ts';
import { filmPoint } from '../../src/geometry/units.ts';
import { SHIPPED_LIMIT_SETS } from '../../src/tolerance/limit-sets.ts';
import { caseOf, film, free, injury, mark } from './samples.ts';

/** Made cases of one or two hands, and what is read on them. */

export const at = filmPoint;
export const radians = (degrees: number) => (degrees * Math.PI) / 180;

/**
 * A lateral film with a proximal axis of 40 mm straight up and a distal axis of 30 mm turned by `apart`
 * degrees to the right of it. At 0.1 mm a pixel these are 400 and 300 pixels.
 */
export function films(
  id: string,
  apart: number,
  overrides: Partial<FilmRecord> = {},
  tapped: 'left' | 'right' | null = 'left',
): readonly CaseRecord[] {
  const [sine, cosine] = [Math.sin(radians(apart)), Math.cos(radians(apart))];
  const distal = free([1000, 1500], [1000 + 300 * sine, 1500 - 300 * cosine]);
  const side: MarkShape = { construction: 'point', at: at(tapped === 'left' ? 400 : 1600, 1700) };
  const role = overrides.view === 'pa' ? 'radial-side' : 'dorsal-side';
  return [
    film(id, overrides),
    mark(`${id}/proximal-axis`, id, 'proximal-axis', free([1000, 2000], [1000, 1600])),
    mark(`${id}/distal-axis`, id, 'distal-axis', distal),
    ...(tapped === null ? [] : [mark(`${id}/side`, id, role, side)]),
  ];
}

export const assessed = (...records: readonly CaseRecord[]): Assessment =>
  assess(caseOf(injury(), ...records), SHIPPED_LIMIT_SETS);

export const reading = (assessment: Assessment, id: string, quantity: Quantity): Reading => {
  const found = assessment.readings.find((one) => one.filmId === id && one.quantity === quantity);
  if (found === undefined) throw new Error(`no ${quantity} on ${id}`);
  return found;
};

export const knownReading = (assessment: Assessment, id: string, quantity: Quantity): KnownReading => {
  const found = reading(assessment, id, quantity);
  if (found.state !== 'known') throw new Error(found.lacks);
  return found;
};

/*
 * Two-point axes of 40 and 30 mm, each coordinate placed to 0.5 mm (measurements.md, "Uncertainty"):
 * u = 0.5 · √2 · √(1/40² + 1/30²) rad = 0.7071068 · 0.0416667 rad = 0.0294628 rad = 1.68810°,
 * and the 95 % interval is 1.959964 · 1.68810° = 3.30861° either way.
 */
export const U = 1.6881;
export const EXPANDED = 3.30861;
