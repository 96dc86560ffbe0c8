import type { Construction, Ray, Region, View } from './anatomy.ts';
import capitalAxis from './normals/capital-axis-2015.json';
import conventionalHeadNeck from './normals/conventional-head-neck.json';
import dorsalCortex from './normals/dorsal-cortex-2017.json';
import shaftBend from './normals/shaft-bend-2015.json';
import straightInPa from './normals/straight-in-pa.json';

/** One publication's normal tilt of whole metacarpals, apex dorsal positive (PA: apex radial). */
export interface NormalTable {
  readonly id: string;
  readonly title: string;
  readonly citation: string;
  readonly year: number;
  readonly view: View;
  /** Parts of the bone at which a fracture's two axes span what was measured. */
  readonly regions: readonly Region[];
  /** Constructions of the proximal and distal axis that draw what the publication drew. */
  readonly proximal: readonly Construction[];
  readonly distal: readonly Construction[];
  /** `assumed`: the text seen gives no standard deviation, and the one in the rows is ours. */
  readonly spread: 'published' | 'assumed';
  /** Why its construction never quite matches, as a clause; null when it can match. */
  readonly caveat: string | null;
  readonly note: string | null;
  readonly rows: readonly {
    readonly rays: readonly Ray[];
    readonly meanDegrees: number;
    readonly standardDeviationDegrees: number;
  }[];
  /** Where along the bone the lines of the publication cross, from the base, in % of the length, where it says so. */
  readonly bend?:
    | {
        readonly citation: string;
        readonly rows: readonly {
          readonly rays: readonly Ray[];
          readonly meanPercent: number;
          readonly standardDeviationPercent: number;
          readonly leastPercent: number;
          readonly mostPercent: number;
        }[];
      }
    | undefined;
}

/**
 * In order of preference where two fit a reading equally well: measured before quoted. The tests check the shape
 * of each.
 */
export const NORMAL_TABLES = [
  capitalAxis,
  dorsalCortex,
  shaftBend,
  conventionalHeadNeck,
  straightInPa,
] as unknown as readonly NormalTable[];
