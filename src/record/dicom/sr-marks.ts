import type { MarkRecord } from '../../case/document.ts';
import { pointsOf } from '../../case/shape-points.ts';
import { CONSTRUCTION_CODES, OWN_CODES, PROVENANCE_CODES, ROLE_CODES, UNITS } from './codes.ts';
import { coded, container, type ImageReference, num, related, spatialCoordinates, text } from './content.ts';
import type { Dataset } from './dicom-write.ts';

/**
 * The marks as they were placed, so that they can be put back: role, construction, how they came about, and
 * every control point in the order of placing. Coordinates are single floats (VR FL), good to 1/4000 of a
 * pixel on a film of 4000 columns.
 */
export function placedMarks(
  marks: readonly { readonly mark: MarkRecord; readonly on: ImageReference }[],
): Dataset {
  return container(
    OWN_CODES.placedMarks,
    null,
    marks.map(({ mark, on }) => related('CONTAINS', placedMark(mark, on))),
  );
}

function placedMark({ role, shape, provenance, tracing }: MarkRecord, on: ImageReference): Dataset {
  const items = [
    coded(OWN_CODES.role, ROLE_CODES[role]),
    coded(OWN_CODES.construction, CONSTRUCTION_CODES[shape.construction]),
    coded(OWN_CODES.provenance, PROVENANCE_CODES[provenance]),
    ...(tracing === undefined
      ? []
      : [
          num(
            OWN_CODES.tracingUncertainty,
            tracing.directionUncertaintyDegrees,
            tracing.directionUncertaintyDegrees.toFixed(2),
            UNITS.degrees,
          ),
          text(OWN_CODES.tracingBasis, tracing.basis),
        ]),
    spatialCoordinates(
      OWN_CODES.controlPoints,
      shape.construction === 'point' ? 'POINT' : 'MULTIPOINT',
      pointsOf(shape),
      on,
    ),
  ];
  return container(
    OWN_CODES.placedMark,
    null,
    items.map((item) => related('CONTAINS', item)),
  );
}
