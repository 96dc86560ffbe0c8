import type { FilmPoint } from '../../geometry/units.ts';
import { withPlainSpaces } from '../words/sentence.ts';
import { type Code, codeItem } from './codes.ts';
import { type Dataset, decimalString } from './dicom-write.ts';

/**
 * Content items of a structured report (PS3.3 C.17.3): each function makes one, ready to be put under another
 * with its relationship.
 */

export type Relationship =
  | 'CONTAINS'
  | 'HAS CONCEPT MOD'
  | 'HAS OBS CONTEXT'
  | 'HAS ACQ CONTEXT'
  | 'HAS PROPERTIES'
  | 'INFERRED FROM'
  | 'SELECTED FROM';

/** A picture that is referred to; `frame` from 1, null where there is one picture. */
export interface ImageReference {
  readonly sopClassUid: string;
  readonly sopInstanceUid: string;
  readonly frame: number | null;
}

/** A content item under its parent. */
export const related = (relationship: Relationship, item: Dataset): Dataset => ({
  RelationshipType: relationship,
  ...item,
});

/** An item with further items under it; none adds no sequence. */
const withContent = (item: Dataset, content: readonly Dataset[]): Dataset =>
  content.length === 0 ? item : { ...item, ContentSequence: content };

const named = (valueType: string, name: Code): Dataset => ({
  ValueType: valueType,
  ConceptNameCodeSequence: [codeItem(name)],
});

/** @param template - Number of the template of PS3.16 that the container follows, or null. */
export const container = (name: Code, template: string | null, content: readonly Dataset[]): Dataset =>
  withContent(
    {
      ...named('CONTAINER', name),
      ContinuityOfContent: 'SEPARATE',
      ...(template === null
        ? {}
        : { ContentTemplateSequence: [{ MappingResource: 'DCMR', TemplateIdentifier: template }] }),
    },
    content,
  );

export const coded = (name: Code, value: Code, content: readonly Dataset[] = []): Dataset =>
  withContent({ ...named('CODE', name), ConceptCodeSequence: [codeItem(value)] }, content);

export const text = (name: Code, value: string): Dataset => ({
  ...named('TEXT', name),
  TextValue: withPlainSpaces(value),
});

export const uidReference = (name: Code, uid: string): Dataset => ({ ...named('UIDREF', name), UID: uid });

/**
 * A number with its unit.
 *
 * @param shown - As reported, with the decimals that are claimed; `value` is kept in full beside it
 *   ((0040,A161) Floating Point Value).
 */
export const num = (
  name: Code,
  value: number,
  shown: string,
  unit: Code,
  content: readonly Dataset[] = [],
): Dataset =>
  withContent(
    {
      ...named('NUM', name),
      MeasuredValueSequence: [
        {
          MeasurementUnitsCodeSequence: [codeItem(unit)],
          NumericValue: decimalString(Number(shown)),
          FloatingPointValue: value,
        },
      ],
    },
    content,
  );

const referenced = ({ sopClassUid, sopInstanceUid, frame }: ImageReference): Dataset => ({
  ReferencedSOPSequence: [
    {
      ReferencedSOPClassUID: sopClassUid,
      ReferencedSOPInstanceUID: sopInstanceUid,
      ...(frame === null ? {} : { ReferencedFrameNumber: String(frame) }),
    },
  ],
});

export const image = (reference: ImageReference, content: readonly Dataset[] = []): Dataset =>
  withContent({ ValueType: 'IMAGE', ...referenced(reference) }, content);

/**
 * Points on a picture. Graphic data are column and row with the origin at the top left corner of the top left
 * pixel, whose centre is (0.5, 0.5): the film coordinates of this program (PS3.3 C.18.6.1.1).
 */
export const spatialCoordinates = (
  name: Code,
  graphic: 'POINT' | 'MULTIPOINT' | 'POLYLINE',
  points: readonly FilmPoint[],
  on: ImageReference,
): Dataset => ({
  ...named('SCOORD', name),
  GraphicType: graphic,
  GraphicData: points.flatMap(({ column, row }) => [column, row]),
  ContentSequence: [related('SELECTED FROM', image(on))],
});
