import type { Assessment } from '../case/assessment.ts';
import type { KnownReading } from '../case/reading.ts';

/** Every reading that has a value, in the order of the assessment. */
export const knownReadings = ({ readings }: Assessment): readonly KnownReading[] =>
  readings.flatMap((reading) => (reading.state === 'known' ? [reading] : []));
