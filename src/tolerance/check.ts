import type { AgeGroup, Region } from './anatomy.ts';
import type { CautionGrade } from './caution.ts';

/** The words shown for one state of a check. */
export interface CheckCaution {
  readonly grade: CautionGrade;
  readonly title: string;
  readonly why: string;
  readonly usually: string;
  readonly source: string;
}

/** What belongs together on the form, in the order in which it is asked. */
export const CHECK_GROUPS = ['skin', 'blood and nerve', 'rotation', 'fracture', 'stability', 'age'] as const;
export type CheckGroup = (typeof CHECK_GROUPS)[number];

/** One question of the examination, answered by yes or no; an answer that is absent was not given. */
export interface ExaminationCheck {
  readonly id: string;
  /** The whole question. */
  readonly question: string;
  /** The same as a line of the form has it, read with `words` as its answers. */
  readonly short: string;
  readonly group: CheckGroup;
  readonly words: { readonly no: string; readonly yes: string };
  readonly worrying: 'yes' | 'no';
  /** Null: any. Where the case does not say, the check is asked. */
  readonly ages: readonly AgeGroup[] | null;
  readonly regions: readonly Region[] | null;
  readonly whenWorrying: CheckCaution;
  /** Only for checks that must not be passed over. */
  readonly whenUnanswered: CheckCaution | null;
}

/** Answers in plain words. */
export const YES_NO = { no: 'no', yes: 'yes' } as const;
