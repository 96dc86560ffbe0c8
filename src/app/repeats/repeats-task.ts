import type { MarkShape, RecordId } from '../../case/document.ts';
import type { ShapeConstruction } from '../../case/roles.ts';

/** One axis being placed again and again, with every mark out of sight. */
export interface Repeats {
  readonly filmId: RecordId;
  readonly construction: ShapeConstruction;
  readonly placings: readonly MarkShape[];
}
