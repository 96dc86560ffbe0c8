import type { AgeGroup, Region } from './anatomy.ts';
import type { ExaminationCheck } from './check.ts';
import { FRACTURE_CHECKS } from './fracture-checks.ts';
import { HAND_CHECKS } from './hand-checks.ts';

/** In the order in which they are asked: what cannot wait comes first. */
export const EXAMINATION_CHECKS: readonly ExaminationCheck[] = [...HAND_CHECKS, ...FRACTURE_CHECKS];

/** Whether a check that was not made is a caution in itself, once the injury is known to be such. */
export const mattersUnanswered = (
  check: ExaminationCheck,
  injury: { readonly region: Region | null; readonly ageGroup: AgeGroup | null },
): boolean =>
  check.whenUnanswered !== null &&
  (check.ages === null || injury.ageGroup !== null) &&
  (check.regions === null || injury.region !== null);

/** The checks to ask for this injury, in order. What is not said of the injury leaves a check in. */
export function checksFor(injury: {
  readonly region: Region | null;
  readonly ageGroup: AgeGroup | null;
}): readonly ExaminationCheck[] {
  const fits = <Value>(wanted: readonly Value[] | null, value: Value | null) =>
    wanted === null || value === null || wanted.includes(value);
  return EXAMINATION_CHECKS.filter(
    (check) => fits(check.ages, injury.ageGroup) && fits(check.regions, injury.region),
  );
}
