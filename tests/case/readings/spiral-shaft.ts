import { assess } from '../../../src/case/assess.ts';
import type { CaseRecord, FilmRecord } from '../../../src/case/document.ts';
import type { KnownReading, Quantity, Reading } from '../../../src/case/reading.ts';
import { SHIPPED_LIMIT_SETS } from '../../../src/tolerance/limit-sets.ts';
import { caseOf, film, injury, settings } from '../samples.ts';

/** Pixels of 0.1 mm at the bone itself, so that no magnification is reckoned with. */
const { spacing: atDetector } = film('any');
export const spacing = { ...atDetector, plane: 'patient' } as FilmRecord['spacing'];
export const noScale: FilmRecord['spacing'] = {
  kind: 'ratio',
  rowToColumn: 1,
  origin: 'assumed-square',
  conflicts: [],
};

export const pa = (id: string, overrides: Partial<FilmRecord> = {}) =>
  film(id, { view: 'pa', spacing, ...overrides });

export const furtherOf = (...records: readonly CaseRecord[]) =>
  assess(caseOf(injury({ region: 'shaft', pattern: 'spiral' }), settings(), ...records), SHIPPED_LIMIT_SETS);
export type Further = ReturnType<typeof furtherOf>;

export const find = ({ readings }: Further, quantity: Quantity): Reading => {
  const found = readings.find((reading) => reading.quantity === quantity);
  if (found === undefined) throw new Error(`no ${quantity} among ${readings.map((one) => one.quantity)}`);
  return found;
};
export const known = (further: Further, quantity: Quantity): KnownReading => {
  const found = find(further, quantity);
  if (found.state === 'missing') throw new Error(found.lacks);
  return found;
};
