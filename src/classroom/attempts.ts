import { z } from 'zod';
import { firstIssue } from '../case/first-issue.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { csvCell } from '../geometry/statistics/ratings-csv.ts';
import { PHANTOM_RAYS } from '../phantom/spec.ts';
import { type Cause, causesOf } from './causes.ts';
import type { Exercise } from './exercise.ts';
import { type ClassroomFileError, headOf } from './file-head.ts';
import { ASKED } from './film-set.ts';
import type { Reveal } from './reveal.ts';

export const ATTEMPTS_FORMAT = 'raybend-attempts';
const ATTEMPTS_VERSION = 1;

const attemptSchema = z.strictObject({
  /** ISO 8601, when the truth was shown. */
  at: z.iso.datetime(),
  exerciseId: z.string().max(100),
  title: z.string().max(200),
  /** What it belonged to: a lesson, a set, a level. */
  from: z.string().max(200),
  ray: z.enum(PHANTOM_RAYS),
  asked: z.enum(ASKED),
  constructions: z.array(z.string().max(40)).max(2),
  value: z.number(),
  expandedUncertainty: z.number().positive(),
  truth: z.number(),
  verdict: z.enum(['inside', 'outside']),
  /** Kinds of causes, largest first. */
  causes: z.array(z.string().max(40)).max(20),
});

/** One film measured and looked up. Kept in this browser only, and exported when asked. */
export type Attempt = z.output<typeof attemptSchema>;

const fileSchema = z.strictObject({
  format: z.literal(ATTEMPTS_FORMAT),
  version: z.literal(ATTEMPTS_VERSION),
  attempts: z.array(attemptSchema).max(20_000),
});

/** A reveal as it is kept. @param at - ISO 8601. @param from - The lesson, set or level it belonged to. */
export const attemptOf = (exercise: Exercise, found: Reveal, at: string, from: string): Attempt => ({
  at,
  exerciseId: exercise.id.slice(0, 100),
  title: exercise.title.slice(0, 200),
  from: from.slice(0, 200),
  ray: found.ray,
  asked: found.asked,
  constructions: [...found.reading.constructions],
  value: found.value,
  expandedUncertainty: found.reading.expandedUncertainty,
  truth: found.truth,
  verdict: found.verdict,
  causes: causesOf(found).map(({ kind }) => kind),
});

export const writeAttempts = (attempts: readonly Attempt[]): string =>
  JSON.stringify({ format: ATTEMPTS_FORMAT, version: ATTEMPTS_VERSION, attempts });

export function readAttempts(text: string): Result<readonly Attempt[], ClassroomFileError> {
  const head = headOf(text, ATTEMPTS_FORMAT, ATTEMPTS_VERSION);
  if (!head.ok) return head;
  const parsed = fileSchema.safeParse(head.value);
  if (parsed.success) return success(parsed.data.attempts);
  return failure({ kind: 'invalid', ...firstIssue(parsed.error) });
}

const COLUMNS = [
  'at',
  'from',
  'film',
  'finger',
  'asked',
  'axes',
  'value_deg',
  'expanded_uncertainty_deg',
  'truth_deg',
  'error_deg',
  'verdict',
  'causes',
] as const;

/** One attempt on a line, angles in degrees; RFC 4180. */
export const attemptsCsv = (attempts: readonly Attempt[]): string =>
  [
    [...COLUMNS],
    ...attempts.map((attempt) => [
      attempt.at,
      attempt.from,
      attempt.title,
      attempt.ray,
      attempt.asked,
      attempt.constructions.join(' + '),
      attempt.value.toFixed(2),
      attempt.expandedUncertainty.toFixed(2),
      attempt.truth.toFixed(2),
      (attempt.value - attempt.truth).toFixed(2),
      attempt.verdict,
      attempt.causes.join(' '),
    ]),
  ]
    .map((cells) => `${cells.map(csvCell).join(',')}\r\n`)
    .join('');

/** How the attempts so far went, in order of time. */
export interface Progress {
  readonly attempts: number;
  /** Share whose interval held the truth; it should be about 0.95. */
  readonly inside: number;
  /** Mean error with its sign, and root mean squared error, degrees. */
  readonly meanError: number;
  readonly rmsError: number;
  readonly meanHalfWidth: number;
  /** Kinds of causes by how often they came first, most frequent first. */
  readonly causes: readonly { readonly kind: Cause['kind']; readonly count: number }[];
}

/** Null without attempts. */
export function progressOf(attempts: readonly Attempt[]): Progress | null {
  const count = attempts.length;
  if (count === 0) return null;
  const mean = (of: (attempt: Attempt) => number) => attempts.reduce((sum, one) => sum + of(one), 0) / count;
  const counts = new Map<string, number>();
  for (const { causes } of attempts) {
    const [first] = causes;
    if (first !== undefined) counts.set(first, (counts.get(first) ?? 0) + 1);
  }
  return {
    attempts: count,
    inside: mean(({ verdict }) => Number(verdict === 'inside')),
    meanError: mean(({ value, truth }) => value - truth),
    rmsError: Math.sqrt(mean(({ value, truth }) => (value - truth) ** 2)),
    meanHalfWidth: mean(({ expandedUncertainty }) => expandedUncertainty),
    causes: [...counts]
      .map(([kind, times]) => ({ kind: kind as Cause['kind'], count: times }))
      .toSorted((one, other) => other.count - one.count),
  };
}
