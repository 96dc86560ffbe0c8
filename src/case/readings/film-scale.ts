import type { Segment } from '../../geometry/length.ts';
import { type LengthScale, magnificationRange } from '../../geometry/length-scale.ts';
import { planeScale, toPlane } from '../../geometry/spacing.ts';
import type { MarkRecord } from '../document.ts';
import type { MarkedFilm } from '../film-marks.ts';
import { lengthSegment } from '../film-placing.ts';

/**
 * How a plane length becomes one that can be shown: millimetres, or a share of the bone where the film has no
 * scale and the length of the bone is placed. Null when it has neither.
 */
export function lengthScaleOf({ film, marks }: MarkedFilm): LengthScale | null {
  const { spacing } = film;
  if (spacing.kind === 'millimetres') {
    return {
      kind: 'millimetres',
      relativeStandardUncertainty: spacing.relativeStandardUncertainty,
      magnification: magnificationRange(spacing),
    };
  }
  const bone = lengthSegment(marks, planeScale(spacing));
  return bone === null || (bone.from.x === bone.to.x && bone.from.y === bone.to.y)
    ? null
    : { kind: 'share', bone };
}

/** The two ends of a line mark in the plane; null when it is not placed. */
export function segmentOn({ film }: MarkedFilm, mark: MarkRecord | undefined): Segment | null {
  if (mark?.shape.construction !== 'segment') return null;
  const scale = planeScale(film.spacing);
  return { from: toPlane(mark.shape.from, scale), to: toPlane(mark.shape.to, scale) };
}

/** What a length on this film has been divided by, as the end of its definition. */
export const magnificationWords = (scale: LengthScale): string =>
  scale.kind === 'millimetres' && scale.magnification !== null
    ? `, divided by the middle of the magnification to reckon with (${scale.magnification.basis})`
    : '';
