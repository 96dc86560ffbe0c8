import type { z } from 'zod';

/** What is wrong first with a value that was checked: where it stands, and what, in words for a person. */
export function firstIssue({ issues: [first] }: Pick<z.ZodError, 'issues'>): {
  readonly path: string;
  readonly problem: string;
} {
  return {
    path: (first?.path ?? []).map(String).join('.'),
    problem: plainly(first?.message ?? 'is not valid'),
  };
}

/** The checker's “received undefined” is said of a field that is not there. */
const plainly = (message: string): string => message.replace(/, received undefined$/, ', and it is missing');
