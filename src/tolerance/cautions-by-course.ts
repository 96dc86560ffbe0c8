import { type Caution, type CautionRule, COMMON_PRACTICE, raise } from './caution.ts';
import type { CautionFacts, ChangeFacts } from './caution-facts.ts';

type Facts = Pick<CautionFacts, 'changes'>;

const SMALLEST_CHANGE =
  'smallest detectable change 1.96·√(u₁² + u₂²), as the repeatability of Bland and Altman, BMJ 1996;313:744';

const SHAFT_CARD = 'Family practice residency reference card, Metacarpal shaft fracture';

const lost = ({ since, verdict }: ChangeFacts): boolean => since === 'reduction' && verdict === 'worse';
const moved = ({ since, verdict }: ChangeFacts): boolean => since === 'first-film' && verdict === 'worse';
const unlike = ({ verdict }: ChangeFacts): boolean => verdict === 'drawn-differently';

const named = (changes: readonly ChangeFacts[]): string =>
  changes
    .map(({ what, fromFilm, toFilm, words }) => `${what}, from the ${fromFilm} to the ${toFilm}: ${words}.`)
    .join(' ');

const COURSE_RULES: readonly CautionRule<Facts>[] = [
  {
    id: 'lost-correction-on-films',
    grade: 'stop',
    title: 'Correction lost since the reduction',
    why: 'The last film reads farther out of line than the film after the reduction, by more than both readings leave open: a position that slips back is unstable, and the limits are meant for a position that stays.',
    usually:
      'Usually both films are laid side by side and measured again in the same way, and a fracture that does not hold is referred.',
    source: `${SHAFT_CARD} (cannot reduce or hold); ${SMALLEST_CHANGE}`,
    applies: ({ changes }) => changes.some(lost),
    detail: ({ changes }) => named(changes.filter(lost)),
  },
  {
    id: 'displaced-further',
    grade: 'warn',
    title: 'Farther out of line than on the first film',
    why: 'The last film reads farther out of line than the first, by more than both readings leave open.',
    usually: 'Usually both films are measured again in the same way, and stability is judged anew.',
    source: `${COMMON_PRACTICE}; ${SMALLEST_CHANGE}`,
    applies: ({ changes }) => changes.some(moved),
    detail: ({ changes }) => named(changes.filter(moved)),
  },
  {
    id: 'films-drawn-differently',
    grade: 'note',
    title: 'Axes drawn in different ways on different films',
    why: 'Different constructions on the same bone give different angles, so a difference between these films is not put down to the bone.',
    usually: 'Usually the axes are drawn in the same way on every film of one injury.',
    source: 'Sletten et al., J Hand Surg Eur, doi 10.1177/1753193412461582',
    applies: ({ changes }) => changes.some(unlike),
    detail: ({ changes }) => named(changes.filter(unlike)),
  },
];

/** Cautions about what has changed from film to film. */
export const cautionsByCourse = (facts: Facts): readonly Caution[] =>
  COURSE_RULES.map((rule) => raise(rule, facts, 'reading')).filter((caution) => caution !== null);
