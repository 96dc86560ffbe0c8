import type { Measured } from '../../geometry/propagate.ts';
import type { KnownReading, MissingReading } from '../assessment.ts';
import type { FilmRecord, RecordId } from '../document.ts';

/** The id of a reading on a film; the same from one assessment to the next. */
export const readingId = (filmId: RecordId, quantity: string): string => `${filmId}/${quantity}`;

/** What a reading is, beside its numbers. */
export type ReadingFacts = Pick<
  KnownReading,
  'unit' | 'signed' | 'apex' | 'constructions' | 'definition' | 'leavesOut' | 'basis'
>;

/** A measured value as a reading of a film. */
export const known = <Of extends string>(
  film: FilmRecord,
  quantity: Of,
  measured: Measured,
  facts: ReadingFacts,
): KnownReading<Of> => ({
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
export const missing = <Of extends string>(
  film: FilmRecord,
  quantity: Of,
  lacks: string,
): MissingReading<Of> => ({
  state: 'missing',
  id: readingId(film.id, quantity),
  quantity,
  filmId: film.id,
  lacks,
});
