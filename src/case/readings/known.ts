import type { Measured } from '../../geometry/propagate.ts';
import type { FilmRecord, RecordId } from '../document.ts';
import type { KnownReading, MissingReading, Quantity } from '../reading.ts';

/** The id of a reading on a film; the same from one assessment to the next. */
export const readingId = (filmId: RecordId, quantity: string): string => `${filmId}/${quantity}`;

/** What a reading is, beside its numbers. */
export type ReadingFacts = Pick<
  KnownReading,
  'unit' | 'signed' | 'apex' | 'constructions' | 'provenances' | 'definition' | 'leavesOut' | 'basis'
>;

/** A measured value as a reading of a film. */
export const known = (
  film: FilmRecord,
  quantity: Quantity,
  measured: Measured,
  facts: ReadingFacts,
): KnownReading => ({
  state: 'known',
  id: readingId(film.id, quantity),
  quantity,
  filmId: film.id,
  view: film.view,
  value: measured.value,
  standardUncertainty: measured.standardUncertainty,
  degreesOfFreedom: measured.degreesOfFreedom,
  expandedUncertainty: measured.expandedUncertainty,
  budget: measured.budget,
  ...facts,
});

/** A reading that cannot be had yet. `lacks` is a whole sentence. */
export const missing = (film: FilmRecord, quantity: Quantity, lacks: string): MissingReading => ({
  state: 'missing',
  id: readingId(film.id, quantity),
  quantity,
  filmId: film.id,
  lacks,
});
