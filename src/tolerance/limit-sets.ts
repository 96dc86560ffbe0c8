import type { Ray, Region } from './anatomy.ts';
import type { LimitQuantity, LimitRow, LimitSet } from './limit-set.ts';
import clinicalAdvisor from './sets/clinical-advisor.json';
import commonPracticeAdult from './sets/common-practice-adult.json';
import emergencyAtlas from './sets/emergency-atlas.json';
import emergencyPearl from './sets/emergency-pearl.json';
import examNotes from './sets/exam-notes.json';
import familyPracticeShortening from './sets/family-practice-shortening.json';
import goalsAfterReduction from './sets/goals-after-reduction.json';
import obliqueShaftShortening from './sets/oblique-shaft-shortening.json';
import paediatricShaft from './sets/paediatric-shaft.json';
import strictNeck from './sets/strict-neck.json';
import subtractTheNormalFirst from './sets/subtract-the-normal-first.json';
import textbookChapter from './sets/textbook-chapter.json';
import thumbBaseJoint from './sets/thumb-base-joint.json';
import thumbOutsideJoint from './sets/thumb-outside-joint.json';

/**
 * The limit sets that ship, in the order they are offered; the first is the default. That each file is what its
 * schema asks for is checked by the tests, so that the schema need not be fetched to show a limit.
 */
export const SHIPPED_LIMIT_SETS = [
  commonPracticeAdult,
  textbookChapter,
  subtractTheNormalFirst,
  strictNeck,
  emergencyAtlas,
  emergencyPearl,
  clinicalAdvisor,
  examNotes,
  goalsAfterReduction,
  familyPracticeShortening,
  obliqueShaftShortening,
  thumbOutsideJoint,
  thumbBaseJoint,
  paediatricShaft,
] as unknown as readonly LimitSet[];

export const DEFAULT_LIMIT_SET_ID = 'common-practice-adult';

/** The row that answers for this finger, part and quantity; null: no limit on file. Sets hold one at most. */
export function findRow(set: LimitSet, ray: Ray, region: Region, quantity: LimitQuantity): LimitRow | null {
  return (
    set.rows.find(
      (row) => row.quantity === quantity && row.rays.includes(ray) && row.regions.includes(region),
    ) ?? null
  );
}
