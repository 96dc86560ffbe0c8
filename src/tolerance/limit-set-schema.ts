import { z } from 'zod';
import { CONSTRUCTIONS, RAYS, REGIONS, VIEWS } from './anatomy.ts';
import { LIMIT_QUANTITIES, type LimitSet, QUANTITY_UNIT } from './limit-set.ts';

// Before the first schema: zod otherwise compiles validators from strings, which the page's
// Content-Security-Policy forbids.
z.config({ jitless: true });

const text = z.string().trim().min(1, 'is empty');
const bound = z.number({ error: 'is not a number' }).min(0, 'is below zero').max(180, 'is above 180');

const band = z
  .strictObject({ lo: bound, hi: bound })
  .refine((b) => b.lo <= b.hi, { error: 'has its lower end above its upper end' });

const row = z
  .strictObject({
    id: text,
    rays: z.array(z.enum(RAYS)).min(1, 'names no finger'),
    regions: z.array(z.enum(REGIONS)).min(1, 'names no part of the bone'),
    quantity: z.enum(LIMIT_QUANTITIES),
    band: band.nullable(),
    unit: z.enum(['degrees', 'millimetres']),
    comparison: z.enum(['up to', 'less than']),
    note: text.nullable(),
  })
  .refine((r) => r.unit === QUANTITY_UNIT[r.quantity], {
    error: 'angles are in degrees, shortening and steps in millimetres',
    path: ['unit'],
  })
  .refine((r) => r.band !== null || r.note !== null, {
    error: 'a row without numbers needs a note that says what applies instead',
    path: ['note'],
  });

/** Two rows must not answer the same question, else the outcome would hang on their order. */
function addClashes(set: Pick<LimitSet, 'rows'>, report: (rowIndex: number, message: string) => void) {
  const taken = new Map<string, string>();
  const ids = new Set<string>();
  set.rows.forEach((candidate, index) => {
    if (ids.has(candidate.id)) report(index, `a row before it has the same id`);
    ids.add(candidate.id);
    for (const ray of candidate.rays)
      for (const region of candidate.regions) {
        const question = `${ray} ${region} ${candidate.quantity}`;
        const holder = taken.get(question);
        if (holder !== undefined) report(index, `${question} is already answered by row "${holder}"`);
        else taken.set(question, candidate.id);
      }
  });
}

/**
 * A limit set as it stands in a file. Unknown keys are refused, so that a misspelt one is named instead of
 * quietly ignored.
 */
export const limitSetSchema: z.ZodType<LimitSet> = z
  .strictObject({
    format: z.literal('raybend-limit-set'),
    version: z.literal(1),
    id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'is not lower-case words joined by hyphens'),
    revision: z.int().min(1, 'is below 1'),
    title: text,
    appliesTo: z.enum(['measured', 'deformity', 'not stated']),
    method: z.strictObject({
      view: z.enum(VIEWS).nullable(),
      constructions: z
        .strictObject({ proximal: z.enum(CONSTRUCTIONS), distal: z.enum(CONSTRUCTIONS) })
        .nullable(),
      normalSubtractedDegrees: z.number().min(0).max(90).nullable(),
    }),
    population: z.enum(['adult', 'child']),
    source: z.strictObject({
      kind: z.enum(['published', 'common-practice', 'local']),
      citation: text,
      year: z.int().min(1800).max(2200).nullable(),
    }),
    note: text.nullable(),
    local: z.boolean(),
    rows: z.array(row).min(1, 'has no rows'),
  })
  .superRefine((set, context) =>
    addClashes(set, (index, message) => context.addIssue({ code: 'custom', path: ['rows', index], message })),
  );
