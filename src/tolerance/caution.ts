export type CautionGrade = 'stop' | 'warn' | 'note';

/** A caution: what is wrong, why it matters, what is usually done, and who says so. */
export interface Caution {
  readonly id: string;
  /** `stop`: settle this before the number is used at all. `warn`: the number may mislead. `note`: know this. */
  readonly grade: CautionGrade;
  readonly title: string;
  /** Why it matters. */
  readonly why: string;
  /** What is usually done; local protocol and a licensed clinician decide. */
  readonly usually: string;
  /** Publication, or "common practice, no source". */
  readonly source: string;
  readonly about: 'examination' | 'film' | 'reading' | 'use';
  /** Names of the films it concerns; empty unless it is about a film. */
  readonly films: readonly string[];
}

/** The words of a caution, without what they are about. */
type CautionText = Omit<Caution, 'about' | 'films'>;

/** A caution that is raised when its facts say so; `detail` adds a sentence to the reason. */
export interface CautionRule<Facts> extends CautionText {
  readonly applies: (facts: Facts) => boolean;
  readonly detail?: (facts: Facts) => string | null;
}

/** The caution of a rule for these facts, or null when it does not apply. */
export function raise<Facts>(
  rule: CautionRule<Facts>,
  facts: Facts,
  about: Caution['about'],
): Caution | null {
  if (!rule.applies(facts)) return null;
  const detail = rule.detail?.(facts) ?? null;
  const { id, grade, title, usually, source } = rule;
  const why = detail === null ? rule.why : `${rule.why} ${detail}`;
  return { id, grade, title, why, usually, source, about, films: [] };
}

export const COMMON_PRACTICE = 'common practice, no source';
