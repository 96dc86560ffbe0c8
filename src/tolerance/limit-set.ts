import type { AgeGroup, Construction, Ray, Region, View } from './anatomy.ts';

/** What a limit is compared with. */
export type AppliesTo = 'measured' | 'deformity' | 'not stated';

export const LIMIT_QUANTITIES = ['apex-dorsal', 'coronal', 'shortening', 'rotation', 'joint-step'] as const;
export type LimitQuantity = (typeof LIMIT_QUANTITIES)[number];

/** Angles are in degrees, displacements in millimetres; a row in another unit is refused. */
export const QUANTITY_UNIT = {
  'apex-dorsal': 'degrees',
  coronal: 'degrees',
  rotation: 'degrees',
  shortening: 'millimetres',
  'joint-step': 'millimetres',
} as const satisfies Readonly<Record<LimitQuantity, 'degrees' | 'millimetres'>>;

/** Where a number comes from. */
interface LimitSource {
  readonly kind: 'published' | 'common-practice' | 'local';
  /** Authors, title, year, page or table; or "common practice, no single source". */
  readonly citation: string;
  /** Null where the text seen bears no date. */
  readonly year: number | null;
}

/**
 * The range over which opinion runs from accepted to not accepted, in the unit of its row; lo = hi for a
 * single number. Both ≥ 0, lo ≤ hi.
 */
export interface Band {
  readonly lo: number;
  readonly hi: number;
}

/**
 * One limit. `band` is null where nothing is tolerated or the limit is not a number; the row's note then
 * says what applies instead.
 */
export interface LimitRow {
  readonly id: string;
  readonly rays: readonly Ray[];
  readonly regions: readonly Region[];
  readonly quantity: LimitQuantity;
  readonly band: Band | null;
  readonly unit: 'degrees' | 'millimetres';
  /** `less than`: the bound itself is no longer accepted. Shown; it moves no outcome of a measured value. */
  readonly comparison: 'up to' | 'less than';
  readonly note: string | null;
}

/**
 * How the source draws its angle, as far as it says. Null: the source does not say, and no mismatch can be
 * found.
 */
export interface LimitMethod {
  readonly view: View | null;
  /** Constructions of the proximal and of the distal axis. */
  readonly constructions: { readonly proximal: Construction; readonly distal: Construction } | null;
  /** Degrees that the source itself takes off the measured angle for the normal tilt. */
  readonly normalSubtractedDegrees: number | null;
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
  readonly method: LimitMethod;
  readonly population: AgeGroup;
  readonly source: LimitSource;
  /** What a reader should know of the set as a whole; null when there is nothing. */
  readonly note: string | null;
  readonly local: boolean;
  readonly rows: readonly LimitRow[];
}
