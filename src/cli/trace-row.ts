import { z } from 'zod';
import { failure, type Result, success } from '../geometry/result.ts';
import { type FilmPoint, filmPoint } from '../geometry/units.ts';

const point = z
  .union([
    z.strictObject({ column: z.number(), row: z.number() }),
    z.strictObject({ x: z.number(), y: z.number() }).transform(({ x, y }) => ({ column: x, row: y })),
    z.tuple([z.number(), z.number()]).transform(([column, row]) => ({ column, row })),
  ])
  .transform(({ column, row }): FilmPoint => filmPoint(column, row));

const rowSchema = z.looseObject({
  /** Relative to the manifest. */
  film: z.string().min(1),
  /** Of a square pixel, in the plane that the angle is wanted in. */
  pixelMm: z.number().positive().max(10),
  region: z.enum(['shaft', 'neck']),
  /** One standard deviation of a tap per coordinate. */
  tapErrorMm: z.number().positive().max(10),
  taps: z.strictObject({ base: point, proximalEnd: point, distalEnd: point, head: point }),
  view: z.enum(['pa', 'oblique', 'lateral']).nullable().default(null),
  bone: z.enum(['bright', 'dark']).default('bright'),
});

/** What one line of a manifest asks for. */
export type TraceRow = z.infer<typeof rowSchema>;

export type RowError =
  | { readonly kind: 'not-json'; readonly detail: string }
  | { readonly kind: 'bad-row'; readonly field: string; readonly detail: string };

/** One line of a manifest; fails with `not-json` or `bad-row`, naming the first field that is wrong. */
export function parseTraceRow(line: string): Result<TraceRow, RowError> {
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch (problem) {
    return failure({
      kind: 'not-json',
      detail: problem instanceof Error ? problem.message : String(problem),
    });
  }
  const parsed = rowSchema.safeParse(value);
  if (parsed.success) return success(parsed.data);
  const [issue] = parsed.error.issues;
  return failure({
    kind: 'bad-row',
    field: issue?.path.join('.') || 'the row',
    detail: issue?.message ?? 'not as wanted',
  });
}

/** Says what is wrong with a row, and what to do next. */
export function rowErrorSentence(error: RowError): string {
  return error.kind === 'not-json'
    ? `This line is not JSON (${error.detail}). Write one object a line.`
    : `${error.field}: ${error.detail}. A row holds film, pixelMm, region ("shaft" or "neck"), tapErrorMm and taps with base, proximalEnd, distalEnd and head.`;
}
