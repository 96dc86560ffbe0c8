import type { Pattern } from './anatomy.ts';
import { type Caution, type CautionRule, raise } from './caution.ts';
import type { CautionFacts, InjuryFacts } from './caution-facts.ts';
import type { CheckCaution, ExaminationCheck } from './check.ts';
import { checksFor, mattersUnanswered } from './checks.ts';

/** A pattern picked on the worksheet answers this check, unless the check itself was answered. */
const IMPLIED_BY_PATTERN: Readonly<Partial<Record<Pattern, string>>> = {
  comminuted: 'comminuted',
  articular: 'joint-surface',
};

/** What the kind of injury itself asks for, before any answer. */
const INJURY_RULES: readonly CautionRule<InjuryFacts>[] = [
  {
    id: 'small-finger-base',
    grade: 'warn',
    title: 'Base of the small finger metacarpal',
    why: 'This fracture tends to slip into a dislocation of its joint, and the ulnar nerve runs beside it; no limit of angulation is on file.',
    usually: 'Usually referred, whatever the angle.',
    source: 'Family practice residency reference card, Metacarpal base fracture',
    applies: (injury) => injury.ray === 'small' && injury.region === 'base',
  },
  {
    id: 'thumb-base',
    grade: 'warn',
    title: 'Base of the thumb: is the joint involved?',
    why: 'A tilt of 20–30° is tolerated outside the joint; in the joint it is the step and whether the joint stays in place that count, from 1–2 mm upwards.',
    usually: 'Usually a true AP film of the thumb is added, and a fracture into the joint is referred.',
    source:
      'OrthoVellum, Thumb base fractures; Wheeless, Textbook of Orthopaedics, Extra-articular thumb metacarpal fractures; Xing and Tang, review (special views)',
    applies: (injury) => injury.ray === 'thumb' && injury.region === 'base',
  },
  {
    id: 'thumb-own-rules',
    grade: 'note',
    title: 'The thumb has its own rules',
    why: 'It moves in another plane than the fingers, its films are taken in other positions, and the limits for fingers do not apply to it.',
    usually: 'Usually judged by limits and views made for the thumb only.',
    source: 'Xing and Tang, review (special views); common practice',
    applies: (injury) => injury.ray === 'thumb' && injury.region !== 'base',
  },
  {
    id: 'child',
    grade: 'warn',
    title: 'A child’s hand',
    why: 'Limits for children are few and disagree: one text is stricter than for adults, others allow more while growth remains.',
    usually: 'Usually judged by those who treat children’s hands, with the growth plates in view.',
    source:
      'Pediatric digital and metacarpal injuries, book chapter, 2017 posting; Royal Children’s Hospital Melbourne, Metacarpal fractures, emergency department guideline',
    applies: (injury) => injury.ageGroup === 'child',
    detail: (injury) => (injury.ray === 'thumb' ? 'The thumb of a child needs its own guideline.' : null),
  },
];

/** Cautions from the answers, the answers that are missing, and the kind of injury. */
export function cautionsByExamination(facts: CautionFacts): readonly Caution[] {
  const byAnswer = checksFor(facts.injury).flatMap((check) => {
    const answer = answerTo(check, facts);
    if (answer === check.worrying) return [asCaution(check.id, check.whenWorrying)];
    if (answer === null && check.whenUnanswered !== null && mattersUnanswered(check, facts.injury))
      return [asCaution(`${check.id}-not-checked`, check.whenUnanswered)];
    return [];
  });
  const byInjury = INJURY_RULES.map((rule) => raise(rule, facts.injury, 'examination'));
  return [...byAnswer, ...byInjury.filter((caution) => caution !== null)];
}

function answerTo(check: ExaminationCheck, facts: CautionFacts): 'yes' | 'no' | null {
  const given = facts.answers[check.id];
  if (given !== undefined) return given;
  const { pattern } = facts.injury;
  return pattern !== null && IMPLIED_BY_PATTERN[pattern] === check.id ? check.worrying : null;
}

const asCaution = (id: string, text: CheckCaution): Caution => ({
  id,
  ...text,
  about: 'examination',
  films: [],
});
