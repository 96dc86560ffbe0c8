import type { Construction, View } from './anatomy.ts';
import type { LimitSet } from './limit-set.ts';

/** How a reading was drawn, for comparing with how a source draws its limit or its normal. */
export interface ReadingMethod {
  readonly view: View | null;
  readonly proximal: Construction;
  readonly distal: Construction;
}

export const VIEW_WORDS = { pa: 'PA', oblique: 'oblique', lateral: 'lateral' } as const;

export const CONSTRUCTION_WORDS = {
  free: 'two free points',
  'cortex-pair': 'the outer cortices',
  canal: 'the canal',
  'dorsal-cortex': 'the dorsal cortex',
  head: 'the centre of the head',
} as const satisfies Readonly<Record<Construction, string>>;

/**
 * One sentence on how the source of a set measures otherwise than this reading; null when it measures alike
 * or does not say.
 *
 * @param normalTakenOff - Normal in degrees taken off this reading, or null.
 */
export function limitMethodMismatch(
  set: LimitSet,
  reading: ReadingMethod,
  normalTakenOff: number | null,
): string | null {
  const { view, constructions, normalSubtractedDegrees } = set.method;
  const differences: string[] = [];
  if (view !== null && reading.view !== null && view !== reading.view)
    differences.push(`is for the ${VIEW_WORDS[view]} view, and this is the ${VIEW_WORDS[reading.view]} one`);
  if (
    constructions !== null &&
    (constructions.proximal !== reading.proximal || constructions.distal !== reading.distal)
  )
    differences.push(
      `draws its axes by ${CONSTRUCTION_WORDS[constructions.proximal]} and ${CONSTRUCTION_WORDS[constructions.distal]}, here they are drawn by ${CONSTRUCTION_WORDS[reading.proximal]} and ${CONSTRUCTION_WORDS[reading.distal]}`,
    );
  // A twentieth of a degree is less than any reading shows.
  if (
    normalSubtractedDegrees !== null &&
    normalTakenOff !== null &&
    Math.abs(normalSubtractedDegrees - normalTakenOff) > 0.05
  )
    differences.push(
      `takes a fixed ${normalSubtractedDegrees}° off the measured angle, here ${Math.round(normalTakenOff * 10) / 10}° was taken off`,
    );
  return differences.length === 0 ? null : `“${set.title}” ${differences.join('; it ')}.`;
}
