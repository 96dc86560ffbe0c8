import type { Construction, View } from '../tolerance/anatomy.ts';
import type { Caution } from '../tolerance/caution.ts';
import type { Outcome } from '../tolerance/compare.ts';
import type { ComparisonReason, SetComparison } from '../tolerance/compare-with-set.ts';
import type { LimitRow, LimitSet } from '../tolerance/limit-set.ts';
import type { CourseSeries } from './course/series.ts';
import type { RecordId } from './document.ts';

/** Raised whenever a formula, a default or a definition changes, so that a frozen record can be told apart. */
export const MEASUREMENT_VERSION = 2;

/** Everything `assess` derives from a case. Nothing here is ever stored as truth. */
export interface Assessment {
  readonly measurementVersion: number;
  /** Film by film the angle, its normal, the deformity and the length; then displacements and angles in space. */
  readonly readings: readonly Reading[];
  /** One for each reading and chosen limit set that it can be compared with. */
  readonly comparisons: readonly Comparison[];
  /** The readings of the injured hand over time, and what has changed. */
  readonly course: readonly CourseSeries[];
  /** Chosen limit sets that are not on this computer; nothing was compared with them. */
  readonly missingLimitSetIds: readonly string[];
  /** Worst first. */
  readonly cautions: readonly Caution[];
  /** What the worksheet marks as next; null when nothing is missing. */
  readonly next: NextStep | null;
}

/** The method of a shortening is part of what it is: the methods do not agree with one another. */
export type Quantity =
  | 'angulation'
  | 'normal'
  | 'deformity'
  | 'length'
  | 'shortening-by-other-hand'
  | 'shortening-by-neighbours'
  | 'shortening-by-head-line'
  | 'shortening-by-overlap'
  | 'head-line-distance'
  | 'translation'
  | 'translation-of-width'
  | 'joint-step'
  | 'joint-gap'
  | 'spatial-angle'
  | 'spatial-direction';

/** A bending direction in words; null until the dorsal or radial side has been tapped. */
export type ApexDirection = 'apex dorsal' | 'apex volar' | 'apex radial' | 'apex ulnar' | null;

/** One source in an uncertainty budget. Shares add up to 1. */
export interface BudgetLine {
  readonly source: string;
  /** Standard uncertainty this source alone would give, in the unit of the reading. */
  readonly standardUncertainty: number;
  readonly share: number;
  /** What the size rests on: "assumed", "from 6 repeats", "published SD, Bhandari 2017". */
  readonly basis: string;
}

export interface KnownReading {
  readonly state: 'known';
  readonly id: string;
  readonly quantity: Quantity;
  readonly filmId: RecordId;
  readonly view: View | null;
  /**
   * In `unit`. Angles carry a sign once the side is known, and are ≥ 0 until then; a deformity is negative
   * where less was measured than is normal.
   */
  readonly value: number;
  /** For angles, whether the dorsal or radial side has been tapped, so that the sign means something. */
  readonly signed: boolean;
  readonly unit: 'degrees' | 'millimetres' | 'percent of bone' | 'percent of shaft width';
  readonly standardUncertainty: number;
  /** Effective; Infinity when every source is of known variance. */
  readonly degreesOfFreedom: number;
  /** Half-width of the 95 % interval: k from the t distribution times the standard uncertainty. */
  readonly expandedUncertainty: number;
  readonly apex: ApexDirection;
  readonly budget: readonly BudgetLine[];
  /** The constructions the reading rests on: proximal, then distal. */
  readonly constructions: readonly Construction[];
  /** What was measured, in one sentence. */
  readonly definition: string;
  /** What the interval leaves out, in one sentence. */
  readonly leavesOut: string;
  /** Where the value comes from when it is not measured on this film ("other hand, film 3"). */
  readonly basis: string | null;
}

export interface MissingReading {
  readonly state: 'missing';
  readonly id: string;
  readonly quantity: Quantity;
  readonly filmId: RecordId;
  /** What it lacks and what to do, as one sentence. */
  readonly lacks: string;
}

export type Reading = KnownReading | MissingReading;

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

export interface NextStep {
  readonly section: 'injury' | 'film' | 'axes' | 'readings' | 'examination' | 'record';
  /** Id of the line that wants doing, e.g. `hand`, `proximal-axis`, `rotation`. */
  readonly line: string;
  /** The film it is to be done on, where it matters. */
  readonly filmId: RecordId | null;
}
