import { type Caution, type CautionRule, COMMON_PRACTICE, raise } from './caution.ts';
import type { CautionFacts, ReadingFacts } from './caution-facts.ts';

/** What a rule about readings looks at: all readings of the case, and whose bone it is. */
type Facts = Pick<CautionFacts, 'readings' | 'injury'>;

const comparisonsOf = (facts: Facts) => facts.readings.flatMap((reading) => reading.comparisons);

const some = (test: (reading: ReadingFacts) => boolean) => (facts: Facts) => facts.readings.some(test);

/** Each sentence once, joined; null for none. */
const sentences = (parts: readonly (string | null)[]): string | null => {
  const said = [...new Set(parts.filter((part) => part !== null))];
  return said.length === 0 ? null : said.join(' ');
};

/** Outcomes of one reading that contradict each other; a set without a limit contradicts nothing. */
const setsDisagree = (reading: ReadingFacts): boolean =>
  new Set(
    reading.comparisons
      .map((comparison) => comparison.outcome)
      .filter((outcome) => outcome !== 'no limit on file'),
  ).size > 1;

const READING_RULES: readonly CautionRule<Facts>[] = [
  {
    id: 'limits-of-another-age',
    grade: 'warn',
    title: 'Limits for another age',
    why: 'A limit set for one age group says nothing of the other.',
    usually: 'Usually a set for the right age group is chosen, or none.',
    source: COMMON_PRACTICE,
    applies: (facts) =>
      facts.injury.ageGroup !== null &&
      comparisonsOf(facts).some((comparison) => comparison.population !== facts.injury.ageGroup),
    detail: (facts) =>
      sentences(
        comparisonsOf(facts)
          .filter((comparison) => comparison.population !== facts.injury.ageGroup)
          .map(
            (comparison) =>
              `“${comparison.limitSetTitle}” is for ${comparison.population === 'child' ? 'children' : 'adults'}.`,
          ),
      ),
  },
  {
    id: 'cannot-tell',
    grade: 'warn',
    title: 'Cannot tell on which side of the limit',
    why: 'The reading, its interval and the limit do not settle the question; it is not the same as inside.',
    usually:
      'Usually a true lateral, a film of the other hand or a second measurement narrows it, and the hand itself decides.',
    source: 'JCGM 106:2012, decision rules with a guard band; common practice',
    applies: (facts) => comparisonsOf(facts).some((comparison) => comparison.outcome === 'cannot tell'),
    // With several sets chosen the one in words may be settled while another is not.
    detail: (facts) =>
      sentences(
        comparisonsOf(facts)
          .filter((comparison) => comparison.outcome === 'cannot tell')
          .map((comparison) => `By “${comparison.limitSetTitle}”.`),
      ),
  },
  {
    id: 'limit-sets-disagree',
    grade: 'warn',
    title: 'The limit sets disagree',
    why: 'The same reading comes out differently against the chosen sets: published limits for the small finger neck alone run from 15° to 70°.',
    usually: 'Usually the local protocol names the set that counts.',
    source:
      'French osteotomy series of 14 hands (15°); van Aaken et al., Arch Orthop Trauma Surg 2016;136:135-142 (70°)',
    applies: some(setsDisagree),
  },
  {
    id: 'limit-drawn-otherwise',
    grade: 'warn',
    title: 'The limit belongs to another way of measuring',
    why: 'Different constructions on the same film give different angles, so the limit and the reading are not of one kind.',
    usually: 'Usually the axes are drawn as the source of the limit draws them.',
    source: 'Sletten et al., J Hand Surg Eur, doi 10.1177/1753193412461582',
    applies: (facts) => comparisonsOf(facts).some((comparison) => comparison.methodMismatch !== null),
    detail: (facts) => sentences(comparisonsOf(facts).map((comparison) => comparison.methodMismatch)),
  },
  {
    id: 'normal-drawn-otherwise',
    grade: 'warn',
    title: 'The normal belongs to another way of measuring',
    why: 'The published normal was measured with other lines than these, so the deformity carries the difference.',
    usually: 'Usually the other hand is filmed and measured in the same way.',
    source: 'Sletten et al., J Hand Surg Eur, doi 10.1177/1753193412461582',
    applies: some((reading) => reading.normalMismatch !== null),
    detail: (facts) => sentences(facts.readings.map((reading) => reading.normalMismatch)),
  },
  {
    id: 'normal-from-table',
    grade: 'warn',
    title: 'Normal from a table, not from the other hand',
    why: 'Normal tilt in the lateral view differs between people by a standard deviation of about 5°, which alone makes the deformity uncertain by about 10°.',
    usually: 'Usually the other hand is filmed in the same view where the decision hangs on it.',
    source: 'Bhandari et al., Plast Aesthet Res 2017;4:174-177, Table 1',
    applies: some((reading) => reading.normalFrom === 'published'),
    detail: (facts) =>
      facts.readings.some((reading) => reading.normalSpreadAssumed)
        ? 'The spread used here is an assumption: the publication gives none that was seen.'
        : null,
  },
  {
    id: 'normal-taken-as-zero',
    grade: 'warn',
    title: 'Normal taken as zero',
    why: 'A whole metacarpal is not straight in the lateral view, so the deformity is overstated by its normal tilt.',
    usually: 'Usually the other hand is filmed and measured in the same way.',
    source: 'Rivlin et al., Hand 2015;10(4):756-761',
    applies: some((reading) => reading.normalFrom === 'zero'),
  },
  {
    id: 'direction-not-marked',
    grade: 'note',
    title: 'Direction of the bend not marked',
    why: 'Until the dorsal or radial side is tapped, the angle has no sign, and it is compared as if it bent the way the limit means.',
    usually: 'Usually marked once for each film.',
    source: COMMON_PRACTICE,
    applies: some((reading) => !reading.signed),
  },
  {
    id: 'angle-is-not-decision',
    grade: 'note',
    title: 'The angle is not the decision',
    why: 'Surgeons who were shown the measured angle chose surgery more often; in one series angle and function were unrelated.',
    usually:
      'Usually rotation, skin, stability, and what the patient needs the hand for are weighed with it.',
    source: 'Tosti et al., J Hand Surg Am 2014;39(9):1722-1727; Porter et al., Arch Emerg Med 1988;5:212-215',
    applies: (facts) => comparisonsOf(facts).some((comparison) => comparison.outcome !== 'no limit on file'),
  },
];

/** Cautions about the readings, their normals and the limits they were compared with. */
export function cautionsByReading(facts: Facts): readonly Caution[] {
  return READING_RULES.map((rule) => raise(rule, facts, 'reading')).filter((caution) => caution !== null);
}
