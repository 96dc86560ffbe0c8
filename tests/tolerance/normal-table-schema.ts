import { z } from 'zod';
import { CONSTRUCTIONS, RAYS, REGIONS, VIEWS } from '../../src/tolerance/anatomy.ts';
import type { NormalTable } from '../../src/tolerance/normal-tables.ts';

/** What a shipped file of published normals must hold; the app takes it as checked. */
export const normalTableSchema: z.ZodType<NormalTable> = z.strictObject({
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
  bend: z
    .strictObject({
      citation: z.string().min(1),
      rows: z
        .array(
          z.strictObject({
            rays: z.array(z.enum(RAYS)).min(1),
            meanPercent: z.number().min(0).max(100),
            standardDeviationPercent: z.number().positive(),
            leastPercent: z.number().min(0).max(100),
            mostPercent: z.number().min(0).max(100),
          }),
        )
        .min(1),
    })
    .optional(),
});
