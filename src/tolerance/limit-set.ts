import type { AgeGroup, Ray, Region } from './anatomy.ts';

/** What a limit is compared with. */
export type AppliesTo = 'measured' | 'deformity' | 'not stated';

export type LimitQuantity = 'apex-dorsal' | 'coronal' | 'shortening' | 'rotation' | 'joint-step';

/** Where a number comes from. `citation` is null only for common practice. */
export interface LimitSource {
  readonly kind: 'published' | 'common-practice' | 'local';
  /** Authors, title, year, page or table; or "common practice, no source". */
  readonly citation: string;
  readonly year: number | null;
}

/**
 * One limit: a band [lo, hi] in degrees or millimetres; lo = hi for a single number. `null` bounds mean
 * that nothing is tolerated by number and the row's note says what applies instead.
 */
export interface LimitRow {
  readonly id: string;
  readonly rays: readonly Ray[];
  readonly regions: readonly Region[];
  readonly quantity: LimitQuantity;
  readonly band: { readonly lo: number; readonly hi: number } | null;
  readonly unit: 'degrees' | 'millimetres';
  readonly note: string | null;
}

/** A limit set is data, validated by the schema in `limit-set-schema.ts`, one file each in `sets/`. */
export interface LimitSet {
  readonly format: 'raybend-limit-set';
  readonly version: 1;
  readonly id: string;
  /** Raised at each change of any number, so that a record can name what it was compared with. */
  readonly revision: number;
  readonly title: string;
  readonly appliesTo: AppliesTo;
  readonly population: AgeGroup;
  readonly source: LimitSource;
  readonly local: boolean;
  readonly rows: readonly LimitRow[];
}
