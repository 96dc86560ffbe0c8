import {
  angleQuantityIn,
  type Comparable,
  compareWithSet,
  type SetComparison,
} from '../tolerance/compare-with-set.ts';
import { limitMethodMismatch } from '../tolerance/limit-method.ts';
import type { LimitSet } from '../tolerance/limit-set.ts';
import type { Comparison } from './comparison.ts';
import type { InjuryRecord } from './document.ts';
import type { Reading } from './reading.ts';
import type { FilmDeformity } from './readings/deformity.ts';
import { readingId } from './readings/known.ts';
import type { MeasuredFilm } from './readings/normal.ts';

/**
 * The angle of one film against each chosen set, in the order chosen. Empty until the view, the finger and the
 * part of the bone are said.
 */
export function angleComparisons(
  { film, angle }: MeasuredFilm,
  { measured: deformity, normal }: FilmDeformity,
  injury: InjuryRecord,
  chosen: readonly LimitSet[],
): readonly Comparison[] {
  const { ray, region } = injury;
  const quantity = angleQuantityIn(film.view);
  if (ray === null || region === null || quantity === null) return [];
  const comparable: Comparable = {
    quantity,
    measured: angle.measured,
    deformity,
    signed: angle.measured.signed,
  };
  const method = { view: film.view, proximal: angle.proximal, distal: angle.distal };
  const takenOff = normal === null ? null : normal.measured.value;
  return chosen.map((limitSet) => {
    const compared = compareWithSet(limitSet, { ray, region }, comparable);
    return {
      ...compared,
      limitSet,
      readingId: readingId(film.id, quantityCompared(compared, deformity !== null)),
      methodMismatch: limitMethodMismatch(limitSet, method, takenOff),
    };
  });
}

/** The reading that the ruler shows: the one that was compared, and the measured angle where both were. */
const quantityCompared = (
  { comparedWith }: SetComparison,
  hasDeformity: boolean,
): 'angulation' | 'deformity' => (comparedWith === 'deformity' && hasDeformity ? 'deformity' : 'angulation');

/** The displacements that limit sets speak of, and what they call them. */
const LIMITED = {
  'shortening-by-other-hand': 'shortening',
  'shortening-by-neighbours': 'shortening',
  'shortening-by-head-line': 'shortening',
  'shortening-by-overlap': 'shortening',
  'joint-step': 'joint-step',
} as const;

/** Each displacement in millimetres against each chosen set. */
export function displacementComparisons(
  readings: readonly Reading[],
  { ray, region }: InjuryRecord,
  chosen: readonly LimitSet[],
): readonly Comparison[] {
  if (ray === null || region === null) return [];
  return readings.flatMap((reading) => {
    if (reading.state === 'missing' || reading.unit !== 'millimetres' || !isLimited(reading.quantity))
      return [];
    const quantity = LIMITED[reading.quantity];
    return chosen.map((limitSet) => ({
      ...compareWithSet(limitSet, { ray, region }, { quantity, value: reading }),
      limitSet,
      readingId: reading.id,
      methodMismatch: null,
    }));
  });
}

const isLimited = (quantity: string): quantity is keyof typeof LIMITED => Object.hasOwn(LIMITED, quantity);
