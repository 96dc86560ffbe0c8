import type { Assessment, FurtherQuantity, KnownReading, Quantity } from '../case/assessment.ts';

/** A reading of any kind that has a value. */
export type AnyKnownReading = KnownReading<Quantity | FurtherQuantity>;

/** Every reading that has a value: angles and lengths of each film, then what goes beyond one view. */
export const knownReadings = ({ readings, further }: Assessment): readonly AnyKnownReading[] =>
  [...readings, ...further.readings].flatMap((reading) => (reading.state === 'known' ? [reading] : []));
