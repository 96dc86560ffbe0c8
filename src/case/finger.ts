import type { Ray } from '../tolerance/anatomy.ts';
import type { CaseDocument, FilmRecord, InjuryRecord } from './document.ts';
import { injuryOf } from './fixed-records.ts';

/** "small finger", "thumb". */
export const fingerName = (ray: Ray): string => (ray === 'thumb' ? 'thumb' : `${ray} finger`);

/**
 * The finger that is measured on a film: the broken one, unless a film of the other hand says another. Null: not
 * said.
 */
export const fingerOn = ({ hand, ray }: FilmRecord, injury: Pick<InjuryRecord, 'ray'>): Ray | null =>
  (hand === 'other' ? ray : undefined) ?? injury.ray;

/** Why a film of the other hand cannot stand against this injury, as one sentence; null where the fingers agree. */
export function otherFinger(
  film: FilmRecord,
  name: string,
  injury: Pick<InjuryRecord, 'ray'>,
): string | null {
  const there = fingerOn(film, injury);
  if (there === null || injury.ray === null || there === injury.ray) return null;
  const broken = fingerName(injury.ray);
  return `The ${fingerName(there)} is measured on the ${name}, and the ${broken} is broken, so the two cannot be compared: measure the ${broken} there, and say so under Film.`;
}

/**
 * The films to put when another finger is chosen as the broken one: films of the other hand that bear marks keep the
 * finger they were measured on, since nobody has measured another one there.
 */
export function filmsKeepingFinger(document: CaseDocument, ray: Ray | null): readonly FilmRecord[] {
  const { ray: before } = injuryOf(document);
  if (before === null || before === ray) return [];
  const records = Object.values(document.records);
  const measured = new Set(records.flatMap((record) => (record.kind === 'mark' ? [record.filmId] : [])));
  return records.flatMap((record) =>
    record.kind === 'film' && record.hand === 'other' && record.ray === undefined && measured.has(record.id)
      ? [{ ...record, ray: before }]
      : [],
  );
}
