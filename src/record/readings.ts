import type { Assessment, KnownReading } from '../case/assessment.ts';

/** Every reading that has a value, in the order of the assessment. */
export const knownReadings = ({ readings }: Assessment): readonly KnownReading[] =>
  readings.flatMap((reading) => (reading.state === 'known' ? [reading] : []));
