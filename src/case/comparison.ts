import type { Outcome } from '../tolerance/compare.ts';
import type { ComparisonReason, SetComparison } from '../tolerance/compare-with-set.ts';
import type { LimitRow, LimitSet } from '../tolerance/limit-set.ts';
import type { KnownReading } from './reading.ts';

/** A reading against a limit set. */
export interface Comparison {
  readonly readingId: string;
  readonly limitSet: LimitSet;
  readonly row: LimitRow | null;
  readonly comparedWith: SetComparison['comparedWith'];
  readonly outcome: Outcome;
  readonly reason: ComparisonReason;
  /** Probability that the value lies past the upper end of the band; null without a limit. */
  readonly probabilityPast: number | null;
  /** One sentence: the outcome with the limit and how sure it is. */
  readonly words: string;
  /** How the set's source measures otherwise than this reading, as one sentence; null when alike or not said. */
  readonly methodMismatch: string | null;
}

/**
 * The value of a reading as it stands against a limit, in the unit of the reading: a coronal angle by its size,
 * since sideways limits have no side; everything else as it is.
 */
export const valueAgainstLimit = ({ quantity, view, value }: KnownReading): number =>
  view === 'pa' && (quantity === 'angulation' || quantity === 'deformity') ? Math.abs(value) : value;
