import { segmentLength } from '../../geometry/length.ts';
import { planeScale } from '../../geometry/spacing.ts';
import type { Ray } from '../../tolerance/anatomy.ts';
import type { SettingsRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { lengthSegment, placingOn } from '../film-placing.ts';
import type { Reading } from '../reading.ts';
import { lengthScaleOf, magnificationWords, segmentOn } from './film-scale.ts';
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
  if (lengthSegment(marks, planeScale(spacing)) === null) return null;
  if (spacing.kind === 'ratio') {
    return missing(
      film,
      'length',
      `The ${name} has no scale, so the bone has no length in millimetres: measure an object of known size on it.`,
    );
  }
  const segment = segmentOn(marked, marks.length);
  const scale = lengthScaleOf(marked);
  const placing = placingOn(marked, settings, ray);
  const measured = segment && placing && scale && segmentLength(segment, placing, scale);
  if (!measured?.ok) {
    return missing(film, 'length', `The two ends of the length on the ${name} coincide: move them apart.`);
  }
  return known(film, 'length', measured.value, {
    unit: measured.value.unit,
    signed: false,
    apex: null,
    constructions: [],
    provenances: [],
    definition: `Straight line from the base to the farthest point of the head on the ${name}${scale === null ? '' : magnificationWords(scale)}.`,
    leavesOut: 'The interval leaves out foreshortening: a bone tilted out of the film looks shorter.',
    basis: null,
  });
}
