import type { Band } from '../../tolerance/limit-set.ts';
import type { Comparison } from '../comparison.ts';
import type { FilmRecord } from '../document.ts';
import type { KnownReading, Quantity } from '../reading.ts';

/** How a reading differs from an earlier one of the same quantity and view. */
export interface CourseChange {
  /** The earlier film, as sentences name it. */
  readonly fromName: string;
  /** Later less earlier, in the unit of the readings; of the sizes where a side is not marked on both films. */
  readonly difference: number;
  /** In the same unit. */
  readonly smallestDetectable: number;
  /**
   * `worse`, `better`: a change beyond what both uncertainties explain, away from or towards zero. `drawn-differently`:
   * the axes were built in different ways, so that no difference can be put down to the bone.
   */
  readonly verdict: 'worse' | 'better' | 'not-told' | 'drawn-differently';
  /** "12° more: a change, farther out of line", "3° less: too small to call a change (from 10° on)". */
  readonly words: string;
}

/** One reading of a series, with what has changed since. */
export interface CoursePoint {
  readonly film: FilmRecord;
  /** As sentences name the film. */
  readonly name: string;
  /** What is shown and compared with the limit. */
  readonly reading: KnownReading;
  /** The same before the normal is taken off: what changes are told from. */
  readonly measured: KnownReading;
  /** Against the first chosen limit set; null where it has nothing to say. */
  readonly comparison: Comparison | null;
  /** Null for the first, and for films without a day. */
  readonly sinceLast: CourseChange | null;
  /** Since the last film after a reduction before this one; null without such a film. */
  readonly sinceReduction: CourseChange | null;
}

/** One quantity in one view over time. */
export interface CourseSeries {
  readonly id: string;
  /** "Angulation, measured, lateral view", "Coronal angulation, measured, PA view". */
  readonly title: string;
  readonly quantity: Quantity;
  readonly unit: KnownReading['unit'];
  /** Of the first chosen limit set, where it applies to what is shown; null: none. */
  readonly band: Band | null;
  readonly limitSetTitle: string | null;
  /** In the order of treatment. */
  readonly points: readonly CoursePoint[];
}
