import { type Caution, type CautionGrade, COMMON_PRACTICE } from './caution.ts';
import type { CautionFacts } from './caution-facts.ts';
import { cautionsByCourse } from './cautions-by-course.ts';
import { cautionsByExamination } from './cautions-by-examination.ts';
import { cautionsByFilm } from './cautions-by-film.ts';
import { cautionsByReading } from './cautions-by-reading.ts';

/** Always on, in every case and every record. */
const SECOND_LOOK_ONLY: Caution = {
  id: 'second-look-only',
  grade: 'note',
  title: 'For education and a second look only',
  why: 'This is not a medical device: its numbers have not been proven in the care of patients.',
  usually: 'A licensed clinician and the local protocol decide.',
  source: COMMON_PRACTICE,
  about: 'use',
  films: [],
};

const GRADE_ORDER: Readonly<Record<CautionGrade, number>> = { stop: 0, warn: 1, note: 2 };

/**
 * Every caution the facts give rise to, worst first; within a grade what the hand shows comes before what
 * the film does, then the course, the reading and the use. The order is the same for the same facts.
 */
export function cautionsFor(facts: CautionFacts): readonly Caution[] {
  return [
    ...cautionsByExamination(facts),
    ...cautionsByFilm(facts),
    ...cautionsByCourse(facts),
    ...cautionsByReading(facts),
    SECOND_LOOK_ONLY,
  ].toSorted((one, other) => GRADE_ORDER[one.grade] - GRADE_ORDER[other.grade]);
}
