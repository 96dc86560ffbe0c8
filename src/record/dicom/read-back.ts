import { data, log } from 'dcmjs';
import type { MarkRole, MarkShape, Provenance, Tracing } from '../../case/document.ts';
import { suits } from '../../case/roles.ts';
import { canGrow, fewest, shapeOf } from '../../case/shape-points.ts';
import { failure, type Result, reasonOf, success } from '../../geometry/result.ts';
import { type FilmPoint, filmPoint } from '../../geometry/units.ts';
import {
  CONSTRUCTION_CODES,
  keyOfOwn,
  OWN_CODES,
  PROVENANCE_CODES,
  RAYBEND_SCHEME,
  ROLE_CODES,
} from './codes.ts';
import { CONTROL_POINT_LAYER } from './gsps-marks.ts';

/** A mark as it stood when the object was written. */
export interface RestoredMark {
  /** (0008,0018) of the picture it was placed on, and which picture of it, from 1; null for a single one. */
  readonly sopInstanceUid: string;
  readonly frame: number | null;
  readonly role: MarkRole;
  readonly shape: MarkShape;
  readonly provenance: Provenance;
  readonly tracing?: Tracing;
}

/** Why no marks are taken from a file. */
export type ReadBackFailure =
  | { readonly kind: 'not-dicom' }
  | { readonly kind: 'object-damaged'; readonly detail: string }
  /** DICOM, and neither a structured report nor a greyscale presentation state. */
  | { readonly kind: 'other-object'; readonly sopClassUid: string }
  /** A report or presentation state that another program wrote. */
  | { readonly kind: 'foreign'; readonly manufacturer: string }
  | { readonly kind: 'mark-unreadable'; readonly which: number; readonly problem: string };

/** A data set as dcmjs gives it; nothing in it is to be trusted. */
type Raw = Readonly<Record<string, unknown>>;

const COMPREHENSIVE_SR = '1.2.840.10008.5.1.4.1.1.88.33';
const GREYSCALE_SOFTCOPY = '1.2.840.10008.5.1.4.1.1.11.1';

/**
 * The marks kept in a report or presentation state that this program wrote.
 *
 * Fails by name for anything else; never throws for what a file holds.
 */
export function readBack(bytes: Uint8Array): Result<readonly RestoredMark[], ReadBackFailure> {
  const isDicom = String.fromCharCode(...bytes.subarray(128, 132)) === 'DICM';
  if (!isDicom) return failure({ kind: 'not-dicom' });
  // What is wrong with a file is told by the failures below, not in the console.
  for (const logger of [log, log.getLogger('validation.dcmjs')]) logger.setLevel('silent');
  let object: Raw;
  try {
    const file = data.DicomMessage.readFile(bytes.slice().buffer);
    object = data.DicomMetaDictionary.naturalizeDataset(file.dict);
  } catch (thrown) {
    return failure({
      kind: 'object-damaged',
      detail: reasonOf(thrown),
    });
  }
  const sopClassUid = textOf(object.SOPClassUID);
  if (sopClassUid !== COMPREHENSIVE_SR && sopClassUid !== GREYSCALE_SOFTCOPY) {
    return failure({ kind: 'other-object', sopClassUid });
  }
  const found = sopClassUid === COMPREHENSIVE_SR ? marksOfReport(object) : marksOfPresentation(object);
  if (found === null) return failure({ kind: 'foreign', manufacturer: textOf(object.Manufacturer) });
  const marks: RestoredMark[] = [];
  for (const [index, kept] of found.entries()) {
    const mark = restored(kept);
    if (typeof mark === 'string') {
      return failure({ kind: 'mark-unreadable', which: index + 1, problem: mark });
    }
    marks.push(mark);
  }
  return success(marks);
}

/** A mark as either object keeps it, not yet checked. */
interface KeptMark {
  readonly role: string;
  readonly construction: string;
  readonly provenance: string;
  readonly coordinates: readonly unknown[];
  readonly sopInstanceUid: string;
  readonly frame: string;
  readonly tracing: { readonly degrees: unknown; readonly basis: string } | null;
}

const itemsOf = (value: unknown): readonly Raw[] =>
  (Array.isArray(value) ? value : value === undefined ? [] : [value]).filter(
    (item): item is Raw => typeof item === 'object' && item !== null,
  );

const valuesOf = (value: unknown): readonly unknown[] =>
  Array.isArray(value) ? value : value === undefined || value === null ? [] : [value];

function textOf(value: unknown): string {
  const [first] = valuesOf(value);
  return typeof first === 'string' || typeof first === 'number' ? String(first) : '';
}

const nameIs = (item: Raw, own: { readonly value: string }): boolean =>
  itemsOf(item.ConceptNameCodeSequence).some(
    (name) => textOf(name.CodingSchemeDesignator) === RAYBEND_SCHEME && textOf(name.CodeValue) === own.value,
  );

const under = (item: Raw, own: { readonly value: string }): Raw | undefined =>
  itemsOf(item.ContentSequence).find((child) => nameIs(child, own));

/** Null where the report has no placed marks of ours. */
function marksOfReport(report: Raw): readonly KeptMark[] | null {
  const kept = under(report, OWN_CODES.placedMarks);
  if (kept === undefined) return null;
  return itemsOf(kept.ContentSequence)
    .filter((item) => nameIs(item, OWN_CODES.placedMark))
    .map((mark) => {
      const points = under(mark, OWN_CODES.controlPoints);
      const picture = itemsOf(points?.ContentSequence)[0];
      const reference = itemsOf(picture?.ReferencedSOPSequence)[0];
      const deviation = under(mark, OWN_CODES.tracingUncertainty);
      return {
        role: codeValueOf(mark, OWN_CODES.role),
        construction: codeValueOf(mark, OWN_CODES.construction),
        provenance: codeValueOf(mark, OWN_CODES.provenance),
        coordinates: valuesOf(points?.GraphicData),
        sopInstanceUid: textOf(reference?.ReferencedSOPInstanceUID),
        frame: textOf(reference?.ReferencedFrameNumber),
        tracing:
          deviation === undefined
            ? null
            : {
                degrees: valuesOf(itemsOf(deviation.MeasuredValueSequence)[0]?.FloatingPointValue)[0],
                basis: textOf(under(mark, OWN_CODES.tracingBasis)?.TextValue),
              },
      };
    });
}

/** The value of a coded item under a mark, with its scheme: of another scheme it is no value of ours. */
function codeValueOf(mark: Raw, name: { readonly value: string }): string {
  const value = itemsOf(under(mark, name)?.ConceptCodeSequence)[0];
  return textOf(value?.CodingSchemeDesignator) === RAYBEND_SCHEME ? textOf(value?.CodeValue) : '';
}

/** Null where the presentation state has no layer of control points of ours. */
function marksOfPresentation(presentation: Raw): readonly KeptMark[] | null {
  const layer = itemsOf(presentation.GraphicAnnotationSequence).find(
    (annotation) => textOf(annotation.GraphicLayer) === CONTROL_POINT_LAYER,
  );
  const groups = itemsOf(presentation.GraphicGroupSequence).filter((group) =>
    textOf(group.GraphicGroupLabel).startsWith(`${RAYBEND_SCHEME}/`),
  );
  if (layer === undefined || groups.length === 0) return null;
  const reference = itemsOf(layer.ReferencedImageSequence)[0];
  return groups.map((group) => {
    const [, role = '', construction = '', provenance = ''] = textOf(group.GraphicGroupLabel).split('/');
    return {
      role,
      construction,
      provenance,
      coordinates: itemsOf(layer.GraphicObjectSequence)
        .filter((graphic) => textOf(graphic.GraphicGroupID) === textOf(group.GraphicGroupID))
        .flatMap((graphic) => valuesOf(graphic.GraphicData)),
      sopInstanceUid: textOf(reference?.ReferencedSOPInstanceUID),
      frame: textOf(reference?.ReferencedFrameNumber),
      tracing: null,
    };
  });
}

/** The mark, or what is wrong with it. */
function restored(kept: KeptMark): RestoredMark | string {
  const own = (value: string) => ({ value, scheme: RAYBEND_SCHEME });
  const role = keyOfOwn(ROLE_CODES, own(kept.role));
  if (role === null) return `its role ${kept.role || '(none)'} is not known`;
  const construction = keyOfOwn(CONSTRUCTION_CODES, own(kept.construction));
  if (construction === null) return `its construction ${kept.construction || '(none)'} is not known`;
  if (!suits(role, construction)) return `a ${construction} makes no ${role}`;
  const provenance = keyOfOwn(PROVENANCE_CODES, own(kept.provenance));
  if (provenance === null) return 'it does not say how it came about';
  if (kept.sopInstanceUid === '') return 'it does not say which film it belongs to';
  const points = pointsFrom(kept.coordinates);
  if (points === null) return 'its coordinates are not pairs of numbers';
  const needed = pointsNeeded(construction);
  if (points.length < needed.least || (needed.exactly && points.length !== needed.least)) {
    return `it has ${points.length} points and needs ${needed.least}`;
  }
  if (needed.even && points.length % 2 !== 0) return `its last level has one point and needs two`;
  const { tracing } = kept;
  const traced =
    tracing !== null && typeof tracing.degrees === 'number' && tracing.degrees > 0
      ? { tracing: { directionUncertaintyDegrees: tracing.degrees, basis: tracing.basis } }
      : {};
  // Without its uncertainty a traced mark is one whose tracing no longer counts.
  const stands = provenance === 'traced' && !('tracing' in traced) ? 'traced-and-corrected' : provenance;
  return {
    sopInstanceUid: kept.sopInstanceUid,
    frame: kept.frame === '' ? null : Number(kept.frame),
    role,
    shape: shapeOf(construction, points),
    provenance: stands,
    ...traced,
  };
}

function pointsFrom(coordinates: readonly unknown[]): readonly FilmPoint[] | null {
  if (coordinates.length === 0 || coordinates.length % 2 !== 0) return null;
  const points: FilmPoint[] = [];
  for (let index = 0; index < coordinates.length; index += 2) {
    const [column, row] = [coordinates[index], coordinates[index + 1]];
    if (typeof column !== 'number' || typeof row !== 'number') return null;
    if (!Number.isFinite(column) || !Number.isFinite(row)) return null;
    points.push(filmPoint(column, row));
  }
  return points;
}

/** How many control points a construction has: its levels have two each, a head has one beside its rim. */
function pointsNeeded(construction: MarkShape['construction']): {
  readonly least: number;
  readonly exactly: boolean;
  readonly even: boolean;
} {
  const even = construction === 'canal' || construction === 'cortex-pair';
  const least = fewest(construction) * (even ? 2 : 1) + (construction === 'head' ? 1 : 0);
  return { least, exactly: !canGrow(construction), even };
}
