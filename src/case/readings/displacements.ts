import { middleOf } from '../../geometry/axis.ts';
import { jointSurface } from '../../geometry/joint-surface.ts';
import { planeScale, toPlane } from '../../geometry/spacing.ts';
import { type TranslationFailure, translation } from '../../geometry/translation.ts';
import type { FilmRecord, InjuryRecord, SettingsRecord } from '../document.ts';
import type { Reading } from '../reading.ts';
import { sideRole } from './film-angle.ts';
import { magnificationWords, segmentOn } from './film-scale.ts';
import { displacement, type FilmToRead, groundLacks, groundOf } from './further.ts';
import { known, missing } from './known.ts';

/** Sideways offset of the fragments at the fracture, as a length and as a share of the shaft's width. */
export function translationOn(
  film: FilmToRead,
  injury: InjuryRecord,
  settings: SettingsRecord,
): readonly Reading[] {
  const level = segmentOn(film, film.marks['fracture-level']);
  if (level === null) return [];
  const axes = film.angle?.angle?.measured.axes;
  if (axes === undefined) {
    return [missing(film.film, 'translation', `The offset on the ${film.name} needs both axes: place them.`)];
  }
  const ground = groundOf(film, settings, injury);
  if (ground === null) return [missing(film.film, 'translation', groundLacks(film.name))];
  const side = film.marks[sideRole(film.film)]?.shape;
  const result = translation({
    axes,
    fracture: middleOf(level.from, level.to),
    shaftWidth: level,
    ...ground,
    side: side?.construction === 'point' ? toPlane(side.at, planeScale(film.film.spacing)) : null,
  });
  if (!result.ok) return [missing(film.film, 'translation', translationLacks(result.error, film.name))];
  const { offset, ofShaftWidth, way } = result.value;
  const leavesOut =
    'The interval leaves out that an offset along the line of sight is not seen in this view.';
  const basis = way === null ? null : `Distal fragment ${wayWords(film.film, way)}`;
  return [
    displacement(film.film, 'translation', offset, {
      definition: `Offset of the distal axis from the proximal one at the fracture level on the ${film.name}, across the proximal axis${magnificationWords(ground.scale)}.`,
      leavesOut,
      basis,
    }),
    known(film.film, 'translation-of-width', ofShaftWidth, {
      unit: 'percent of shaft width',
      signed: false,
      apex: null,
      constructions: [],
      provenances: [],
      definition: `The same offset as a share of the width of the shaft at the fracture level on the ${film.name}.`,
      leavesOut,
      basis,
    }),
  ];
}

function wayWords(film: FilmRecord, way: 'towards the tapped side' | 'away from the tapped side'): string {
  const [towards, away] = film.view === 'pa' ? ['radial', 'ulnar'] : ['dorsal', 'volar'];
  return `displaced to the ${way === 'towards the tapped side' ? towards : away} side`;
}

function translationLacks(error: TranslationFailure, film: string): string {
  switch (error.kind) {
    case 'too-steep':
      return `The axes on the ${film} are ${Math.round(error.angle)}° apart, and beyond ${error.limit}° there is no offset to speak of: look at the angle.`;
    case 'no-shaft-width':
      return `The fracture level on the ${film} has no width across the bone: place its ends on the two outer cortices.`;
  }
}

/** Step and gap of a broken joint surface. */
export function jointOn(
  film: FilmToRead,
  injury: InjuryRecord,
  settings: SettingsRecord,
): readonly Reading[] {
  const [surface, edges] = [
    segmentOn(film, film.marks['joint-surface']),
    segmentOn(film, film.marks['joint-edges']),
  ];
  if (surface === null && edges === null) return [];
  if (surface === null || edges === null) {
    const lacks = `Step and gap on the ${film.name} need the ${surface === null ? 'joint surface too: place it' : 'broken edges of the joint surface too: place them'}.`;
    return [missing(film.film, 'joint-step', lacks)];
  }
  const ground = groundOf(film, settings, injury);
  if (ground === null) return [missing(film.film, 'joint-step', groundLacks(film.name))];
  const ends = { one: edges.from, other: edges.to };
  const result = jointSurface(surface, ends, ground.placing, ground.scale);
  if (!result.ok) {
    const lacks = `The joint surface on the ${film.name} is too short to have a direction: place its points farther apart.`;
    return [missing(film.film, 'joint-step', lacks)];
  }
  const words = (across: string) => ({
    definition: `Distance of the two broken edges ${across} the joint surface on the ${film.name}${magnificationWords(ground.scale)}.`,
    leavesOut:
      'The interval leaves out that the surface is curved, and that a step along the line of sight is not seen.',
    basis: null,
  });
  return [
    displacement(film.film, 'joint-step', result.value.step, words('across')),
    displacement(film.film, 'joint-gap', result.value.gap, words('along')),
  ];
}
