import { type BendPlaceFailure, bendPlace } from '../../geometry/bend-place.ts';
import type { Ray } from '../../tolerance/anatomy.ts';
import { normalBend } from '../../tolerance/normal-bend.ts';
import type { InjuryRecord, SettingsRecord } from '../document.ts';
import { placingOn } from '../film-placing.ts';
import { fingerName } from '../finger.ts';
import type { Reading } from '../reading.ts';
import { segmentOn } from './film-scale.ts';
import type { FilmToRead } from './further.ts';
import { known, missing } from './known.ts';

/**
 * Where along the bone the axes cross; nothing while the axes or the length of the bone are not placed.
 *
 * @param length - The length of the bone on this film, where it is known.
 */
export function bendPlaceOn(
  film: FilmToRead,
  injury: InjuryRecord,
  settings: SettingsRecord,
  length: Reading | null,
): readonly Reading[] {
  const angle = film.angle?.angle;
  const bone = segmentOn(film, film.marks.length);
  const placing = placingOn(film, settings, injury.ray);
  if (!angle || bone === null || placing === null) return [];
  const { value, standardUncertainty } = angle.measured;
  const result = bendPlace({
    ...angle.pair,
    bone,
    placing,
    angle: { size: Math.abs(value), standardUncertainty },
  });
  if (!result.ok) {
    const lacks = bendPlaceLacks(result.error, film.name);
    return lacks === null ? [] : [missing(film.film, 'bend-place', lacks)];
  }
  const millimetres =
    length?.state === 'known' && length.unit === 'millimetres'
      ? `${Math.round((result.value.value * length.value) / 100)}\u2009mm from the base`
      : null;
  return [
    known(film.film, 'bend-place', result.value, {
      unit: 'percent of bone',
      signed: false,
      apex: null,
      constructions: [],
      provenances: [],
      definition: `Where the axes cross on the ${film.name}, from the base along the length.`,
      leavesOut: 'The interval leaves out that an offset of the fragments moves the crossing.',
      basis:
        [millimetres, film.film.view === 'pa' ? null : soundWords(injury.ray)]
          .filter((words) => words !== null)
          .join('; ') || null,
    }),
  ];
}

/** "a sound small finger bends at 50.3 % (SD 12.4; …)"; null where nobody has measured it. */
function soundWords(ray: Ray | null): string | null {
  const bend = ray === null ? null : normalBend(ray);
  if (ray === null || bend === null) return null;
  return `a sound ${fingerName(ray)} bends at ${bend.meanPercent}\u2009% (SD ${bend.standardDeviationPercent}; ${bend.citation})`;
}

function bendPlaceLacks(error: BendPlaceFailure, film: string): string | null {
  switch (error.kind) {
    case 'nearly-parallel':
      return `The axes on the ${film} are ${Math.round(error.angle)}° apart, and below ${Math.ceil(error.needed)}° it cannot be told where along the bone they cross: look at the angle alone, or place the points of the axes farther apart.`;
    case 'off-the-bone':
      return `The axes on the ${film} cross beyond the ${error.percent < 0 ? 'base' : 'head'}, so they give no place of a bend: the fragments are displaced sideways, or a point of an axis lies wrong.`;
    case 'no-length':
      // The length itself says that its ends coincide.
      return null;
  }
}
