import type { Assessment, KnownReading, Reading } from '../case/assessment.ts';

/** A reading of any kind. */
export type AnyReading = Reading;

/** A reading of any kind that has a value. */
export type AnyKnownReading = KnownReading;

/** Every reading: angles and lengths of each film, then what goes beyond one view. */
export const allReadings = ({ readings }: Assessment): readonly AnyReading[] => readings;

/** Every reading that has a value. */
export const knownReadings = (assessment: Assessment): readonly AnyKnownReading[] =>
  allReadings(assessment).flatMap((reading) => (reading.state === 'known' ? [reading] : []));
