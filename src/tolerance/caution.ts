export type CautionGrade = 'stop' | 'warn' | 'note';

/** A caution: what is wrong, why it matters, what is usually done, and who says so. */
export interface Caution {
  readonly id: string;
  /** `stop`: settle this before the number is used at all. `warn`: the number may mislead. `note`: know this. */
  readonly grade: CautionGrade;
  readonly title: string;
  /** Why it matters, one sentence. */
  readonly why: string;
  /** What is usually done, one sentence. */
  readonly usually: string;
  /** Publication, or "common practice, no source". */
  readonly source: string;
  readonly about: 'examination' | 'film' | 'reading' | 'use';
}
