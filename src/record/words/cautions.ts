import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument } from '../../case/document.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { checksFor } from '../../tolerance/checks.ts';

/** Questions of the examination that nobody has answered. */
export function openChecks(document: CaseDocument) {
  const { answers } = examinationOf(document);
  return checksFor(injuryOf(document)).filter(({ id }) => answers[id] === undefined);
}

/** The cautions of a case, worst first, without the lines on what the program is for. */
export interface SortedCautions {
  /** Titles of those that stand only because a question is open: the questions are listed beside them. */
  readonly open: readonly string[];
  readonly rest: readonly Caution[];
}

/** Cautions parted into those that an unanswered check raises, by title, and the rest, each worst first. */
export function sortedCautions(document: CaseDocument, { cautions }: Assessment): SortedCautions {
  const unanswered = new Set(openChecks(document).map(({ whenUnanswered }) => whenUnanswered?.title));
  const all = cautions.filter(({ about }) => about !== 'use');
  return {
    open: all.filter(({ title }) => unanswered.has(title)).map(({ title }) => title),
    rest: all.filter(({ title }) => !unanswered.has(title)),
  };
}
