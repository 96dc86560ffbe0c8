import { segmentLength } from '../../geometry/length.ts';
import { magnificationRange } from '../../geometry/length-scale.ts';
import { planeScale } from '../../geometry/spacing.ts';
import type { Ray } from '../../tolerance/anatomy.ts';
import type { Reading } from '../assessment.ts';
import type { SettingsRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { lengthSegment, placingOn } from '../film-placing.ts';
import { known, missing } from './known.ts';

/** The length of the bone on one film; null while it is not placed there. */
export function filmLength(
  marked: MarkedFilm,
  settings: SettingsRecord,
  ray: Ray | null,
  name: string,
): Reading | null {
  const { film, marks } = marked;
  const { spacing } = film;
  const segment = lengthSegment(marks, planeScale(spacing));
  if (segment === null) return null;
  if (spacing.kind === 'ratio') {
    return missing(
      film,
      'length',
      `The ${name} has no scale, so the bone has no length in millimetres: measure an object of known size on it.`,
    );
  }
  const placing = placingOn(marked, settings, ray);
  const measured =
    placing &&
    segmentLength(segment, placing, {
      kind: 'millimetres',
      relativeStandardUncertainty: spacing.relativeStandardUncertainty,
      magnification: magnificationRange(spacing),
    });
  if (!measured?.ok) {
    return missing(film, 'length', `The two ends of the length on the ${name} coincide: move them apart.`);
  }
  const { magnification, unit } = measured.value;
  return known(film, 'length', measured.value, {
    unit,
    signed: false,
    apex: null,
    constructions: [],
    definition: `Straight line from the base to the farthest point of the head on the ${name}${
      magnification === null
        ? ''
        : `, divided by the middle of the magnification to reckon with (${magnification.basis})`
    }.`,
    leavesOut: 'The interval leaves out foreshortening: a bone tilted out of the film looks shorter.',
    basis: null,
  });
}
