import type { Caution } from '../tolerance/caution.ts';
import type { Comparison } from './comparison.ts';
import type { CourseSeries } from './course/course-series.ts';
import type { RecordId } from './document.ts';
import type { Reading } from './reading.ts';

/** Raised whenever a formula, a default or a definition changes, so that a frozen record can be told apart. */
export const MEASUREMENT_VERSION = 3;

/** Everything `assess` derives from a case. Nothing here is ever stored as truth. */
export interface Assessment {
  readonly measurementVersion: number;
  /** Film by film the angle, its normal, the deformity and the length; then displacements, angles in space, photographs of the fist. */
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

export interface NextStep {
  readonly section: 'injury' | 'film' | 'axes' | 'readings' | 'examination' | 'record';
  /** Id of the line that wants doing, e.g. `hand`, `proximal-axis`, `rotation`. */
  readonly line: string;
  /** The film it is to be done on, where it matters. */
  readonly filmId: RecordId | null;
}
