import { z } from 'zod';
import {
  CONSTRUCTIONS,
  type Construction,
  RAYS,
  type Ray,
  REGIONS,
  type Region,
  VIEWS,
  type View,
} from './anatomy.ts';
import capitalAxis from './normals/capital-axis-2015.json';
import conventionalHeadNeck from './normals/conventional-head-neck.json';
import dorsalCortex from './normals/dorsal-cortex-2017.json';
import shaftBend from './normals/shaft-bend-2015.json';
import straightInPa from './normals/straight-in-pa.json';

// See limit-set-schema.ts: the page's Content-Security-Policy forbids compiled validators.
z.config({ jitless: true });

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
}

const normalTableSchema: z.ZodType<NormalTable> = z.strictObject({
  id: z.string().min(1),
  title: z.string().min(1),
  citation: z.string().min(1),
  year: z.int(),
  view: z.enum(VIEWS),
  regions: z.array(z.enum(REGIONS)).min(1),
  proximal: z.array(z.enum(CONSTRUCTIONS)).min(1),
  distal: z.array(z.enum(CONSTRUCTIONS)).min(1),
  spread: z.enum(['published', 'assumed']),
  caveat: z.string().min(1).nullable(),
  note: z.string().min(1).nullable(),
  rows: z
    .array(
      z.strictObject({
        rays: z.array(z.enum(RAYS)).min(1),
        meanDegrees: z.number().min(0).max(45),
        standardDeviationDegrees: z.number().positive(),
      }),
    )
    .min(1),
});

/** In order of preference where two fit a reading equally well: measured before quoted. */
export const NORMAL_TABLES: readonly NormalTable[] = [
  capitalAxis,
  dorsalCortex,
  shaftBend,
  conventionalHeadNeck,
  straightInPa,
].map((file) => normalTableSchema.parse(file));
