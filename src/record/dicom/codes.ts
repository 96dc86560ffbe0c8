import type { MarkRole, Provenance } from '../../case/document.ts';
import type { ApexDirection, KnownReading, Quantity } from '../../case/reading.ts';
import { ROLES, type ShapeConstruction } from '../../case/roles.ts';
import type { Ray, View } from '../../tolerance/anatomy.ts';
import type { Dataset } from './dicom-write.ts';

/** A coded concept: value, coding scheme, meaning (PS3.3 8.8). */
export interface Code {
  readonly value: string;
  readonly scheme: string;
  readonly meaning: string;
}

const code = (value: string, scheme: string, meaning: string): Code => ({ value, scheme, meaning });
const dcm = (value: string, meaning: string): Code => code(value, 'DCM', meaning);
const sct = (value: string, meaning: string): Code => code(value, 'SCT', meaning);

export const RAYBEND_SCHEME = '99RAYBEND';
const own = (value: string, meaning: string): Code => code(value, RAYBEND_SCHEME, meaning);

/**
 * Concepts of the standard, each looked up in the dictionary of pydicom by `codes.test.ts`. In comments: the
 * context group or template of PS3.16 they belong to.
 */
export const CODES = {
  // CID 7021
  imagingMeasurementReport: dcm('126000', 'Imaging Measurement Report'),
  // TID 1500, 1501, 1600
  imagingMeasurements: dcm('126010', 'Imaging Measurements'),
  measurementGroup: dcm('125007', 'Measurement Group'),
  imageLibrary: dcm('111028', 'Image Library'),
  imageLibraryGroup: dcm('126200', 'Image Library Group'),
  trackingIdentifier: dcm('112039', 'Tracking Identifier'),
  trackingUniqueIdentifier: dcm('112040', 'Tracking Unique Identifier'),
  procedureReported: dcm('121058', 'Procedure reported'),
  language: dcm('121049', 'Language of Content Item and Descendants'),
  finding: dcm('121071', 'Finding'),
  // Annex D, for any template
  comment: dcm('121106', 'Comment'),
  // TID 1002, 1004
  observerType: dcm('121005', 'Observer Type'),
  device: dcm('121007', 'Device'),
  deviceObserverUid: dcm('121012', 'Device Observer UID'),
  deviceObserverName: dcm('121013', 'Device Observer Name'),
  deviceObserverManufacturer: dcm('121014', 'Device Observer Manufacturer'),
  deviceObserverModelName: dcm('121015', 'Device Observer Model Name'),
  // TID 1602, 4019
  modality: dcm('121139', 'Modality'),
  imageView: dcm('111031', 'Image View'),
  algorithmName: dcm('111001', 'Algorithm Name'),
  algorithmVersion: dcm('111003', 'Algorithm Version'),
  // TID 320
  path: dcm('121055', 'Path'),
  // CID 7202
  sourceImage: dcm('121322', 'Source image for image processing operation'),
  // CID 12304
  angle: sct('1483009', 'Angle'),
  length: sct('410668003', 'Length'),
  // CID 9000
  findingSite: sct('363698007', 'Finding Site'),
  measurementMethod: sct('370129005', 'Measurement Method'),
  // CID 1006
  metacarpal: sct('36455000', 'Metacarpal'),
  // CID 210
  laterality: sct('272741003', 'Laterality'),
  topographicalModifier: sct('106233006', 'Topographical modifier'),
  // CID 244
  left: sct('7771000', 'Left'),
  right: sct('24028007', 'Right'),
  // CID 225
  uncertainty: sct('371884006', '+/-, range of measurement uncertainty'),
  // CID 7050
  basicProfile: dcm('113100', 'Basic Application Confidentiality Profile'),
  cleanGraphics: dcm('113103', 'Clean Graphics Option'),
  cleanStructuredContent: dcm('113104', 'Clean Structured Content Option'),
  modifiedDates: dcm('113107', 'Retain Longitudinal Temporal Information Modified Dates Option'),
} as const satisfies Readonly<Record<string, Code>>;

/** CID 4010. */
export const VIEW_CODES: Readonly<Record<View, Code>> = {
  lateral: sct('399067008', 'lateral'),
  pa: sct('272479007', 'postero-anterior'),
  oblique: sct('399182000', 'oblique'),
};

/** UCUM, with the meanings of PS3.16 CID 82 and 7181. */
export const UNITS: Readonly<Record<KnownReading['unit'], Code>> = {
  degrees: code('deg', 'UCUM', 'degree'),
  millimetres: code('mm', 'UCUM', 'millimeter'),
  'percent of bone': code('%', 'UCUM', 'Percent'),
  'percent of shaft width': code('%', 'UCUM', 'Percent'),
  'percent of nail width': code('%', 'UCUM', 'Percent'),
};
export const PERCENT = code('%', 'UCUM', 'Percent');

/**
 * Not in pydicom's dictionary. 125605004 is used so by SNOMED International's own example templates; 363680008 is
 * from memory, and RFC 5646 is the language tag itself.
 */
export const FRACTURE = sct('125605004', 'Fracture of bone');
export const RADIOGRAPHY = sct('363680008', 'Radiographic imaging procedure');
export const ENGLISH = code('en-GB', 'RFC5646', 'English (United Kingdom)');

/** PS3.16 knows the metacarpal and not which one; numbered from the thumb. */
export const RAY_CODES: Readonly<Record<Ray, Code>> = {
  thumb: own('MC1', 'First metacarpal (thumb)'),
  index: own('MC2', 'Second metacarpal (index finger)'),
  middle: own('MC3', 'Third metacarpal (middle finger)'),
  ring: own('MC4', 'Fourth metacarpal (ring finger)'),
  small: own('MC5', 'Fifth metacarpal (small finger)'),
};

export const OWN_CODES = {
  share: own('SHARE', 'Length as a share of another'),
  kindOfReading: own('READING', 'Kind of reading'),
  apex: own('APEX', 'Apex direction'),
  coverage: own('COVERAGE', 'Coverage probability of the uncertainty interval'),
  definition: own('DEFINITION', 'Definition of the reading'),
  leavesOut: own('LEAVES-OUT', 'What the uncertainty interval leaves out'),
  scale: own('SCALE', 'Where the scale of lengths comes from'),
  placedMarks: own('PLACED-MARKS', 'Placed marks'),
  placedMark: own('PLACED-MARK', 'Placed mark'),
  role: own('ROLE', 'Role of the mark'),
  construction: own('CONSTRUCTION', 'Construction of the mark'),
  provenance: own('PROVENANCE', 'How the mark came about'),
  controlPoints: own('CONTROL-POINTS', 'Control points in the order of placing'),
  tracingUncertainty: own('TRACE-SD', 'Standard uncertainty of a traced direction'),
  tracingBasis: own('TRACE-BASIS', 'Basis of the uncertainty of a traced direction'),
} as const satisfies Readonly<Record<string, Code>>;

export const QUANTITY_CODES: Readonly<Record<Quantity, Code>> = {
  angulation: own('ANGULATION', 'Angulation as measured'),
  normal: own('NORMAL', 'Normal angle of a sound bone'),
  deformity: own('DEFORMITY', 'Measured angulation less the normal'),
  'bend-place': own('BEND-PLACE', 'Place of the bend from the base, as a share of the length'),
  length: own('LENGTH', 'Length of the bone'),
  'shortening-by-other-hand': own('SHORT-OTHER', 'Shortening, by the length of the other hand'),
  'shortening-by-neighbours': own('SHORT-NEIGHBOUR', 'Shortening, by ratios to a neighbouring bone'),
  'shortening-by-head-line': own('SHORT-HEAD-LINE', 'Shortening, by the line through two heads'),
  'shortening-by-overlap': own('SHORT-OVERLAP', 'Shortening, by the overlap of the fragments'),
  'head-line-distance': own('HEAD-LINE-DIST', 'Distance of the head from the line through two heads'),
  translation: own('TRANSLATION', 'Offset of the fragments across the axis'),
  'translation-of-width': own('TRANSL-OF-WIDTH', 'Offset of the fragments as a share of the shaft width'),
  'joint-step': own('JOINT-STEP', 'Step in a joint surface'),
  'joint-gap': own('JOINT-GAP', 'Gap in a joint surface'),
  'spatial-angle': own('SPATIAL-ANGLE', 'Angle in space, from two views'),
  'spatial-direction': own('SPATIAL-PLANE', 'Plane of the angle in space, from two views'),
  'nail-direction': own('NAIL-DIRECTION', 'Direction of a nail against a reference finger'),
  'nail-direction-difference': own('NAIL-DIFFERENCE', 'Direction of a nail against the other hand'),
  'nail-overlap': own('NAIL-OVERLAP', 'Cover of the neighbouring nail as a share of its width'),
};

const BY_DEFINITION = own('BY-DEFINITION', 'As the definition of the reading says');

export const METHOD_CODES: Readonly<Record<Quantity, Code>> = {
  angulation: own('AXES', 'Angle between the axes of the two fragments'),
  normal: own('NORM', 'Other hand, published mean, or zero, as the definition says'),
  deformity: own('LESS-NORMAL', 'Difference of two angles'),
  'bend-place': own('CROSSING', 'Where the axes of the two fragments cross'),
  length: own('BASE-TO-HEAD', 'Straight line from the base to the farthest point of the head'),
  'shortening-by-other-hand': BY_DEFINITION,
  'shortening-by-neighbours': BY_DEFINITION,
  'shortening-by-head-line': BY_DEFINITION,
  'shortening-by-overlap': BY_DEFINITION,
  'head-line-distance': BY_DEFINITION,
  translation: own('ACROSS-AXIS', 'Distance between the axes across the proximal one'),
  'translation-of-width': own('ACROSS-AXIS', 'Distance between the axes across the proximal one'),
  'joint-step': own('ACROSS-JOINT', 'Distance of the broken edges across the joint surface'),
  'joint-gap': own('ALONG-JOINT', 'Distance of the broken edges along the joint surface'),
  'spatial-angle': own('TWO-VIEWS', 'Solved from the angles in two views'),
  'spatial-direction': own('TWO-VIEWS', 'Solved from the angles in two views'),
  'nail-direction': BY_DEFINITION,
  'nail-direction-difference': BY_DEFINITION,
  'nail-overlap': BY_DEFINITION,
};

export const APEX_CODES: Readonly<Record<NonNullable<ApexDirection>, Code>> = {
  'apex dorsal': own('APEX-DORSAL', 'Apex dorsal'),
  'apex volar': own('APEX-VOLAR', 'Apex volar'),
  'apex radial': own('APEX-RADIAL', 'Apex radial'),
  'apex ulnar': own('APEX-ULNAR', 'Apex ulnar'),
};

export const PROVENANCE_CODES: Readonly<Record<Provenance, Code>> = {
  placed: own('PLACED', 'Placed by hand'),
  traced: own('TRACED', 'Traced'),
  'traced-and-corrected': own('TRACED-CORRECTED', 'Traced, then corrected by hand'),
};

export const CONSTRUCTION_CODES: Readonly<Record<ShapeConstruction, Code>> = {
  free: own('FREE', 'Two free points'),
  segment: own('SEGMENT', 'Line between two points'),
  point: own('POINT', 'Point'),
  'cortex-pair': own('CORTEX-PAIR', 'Mid-points between the outer cortices'),
  canal: own('CANAL', 'Mid-points between the inner cortices'),
  'dorsal-cortex': own('DORSAL-CORTEX', 'Line along the dorsal cortex'),
  circle: own('CIRCLE', 'Circle through the rim of a round object'),
  head: own('HEAD', 'Centre of the head and middle of the broken end'),
};

/** The code value of a role is its id in capitals: at most 16 characters (SH). */
export const ROLE_CODES: Readonly<Record<MarkRole, Code>> = Object.fromEntries(
  Object.entries(ROLES).map(([role, { name }]) => [
    role,
    own(role.toUpperCase(), `${name.charAt(0).toUpperCase()}${name.slice(1)}`),
  ]),
) as Record<MarkRole, Code>;

/** A code as an item of a code sequence. */
export const codeItem = ({ value, scheme, meaning }: Code): Dataset => ({
  CodeValue: value,
  CodingSchemeDesignator: scheme,
  CodeMeaning: meaning,
});

/** The key of a table whose code has this value in our own scheme; null for any other. */
export function keyOfOwn<Key extends string>(
  table: Readonly<Record<Key, Code>>,
  found: { readonly value: string; readonly scheme: string },
): Key | null {
  if (found.scheme !== RAYBEND_SCHEME) return null;
  const entry = (Object.entries(table) as [Key, Code][]).find(([, { value }]) => value === found.value);
  return entry?.[0] ?? null;
}

/** (0008,0110): declares the scheme of our own codes (PS3.3 C.12.1.1.7). */
export const OWN_SCHEME_DECLARED: Dataset = {
  CodingSchemeDesignator: RAYBEND_SCHEME,
  CodingSchemeVersion: '1',
  CodingSchemeName: 'Raybend codes, defined in its conformance statement',
  CodingSchemeResponsibleOrganization: 'Raybend',
};
