/**
 * What happens to each attribute that this program writes when the patient must not be named: the actions of
 * PS3.15 Annex E, and which of the allowed ones is taken here.
 *
 * An attribute in neither list is not written at all.
 */

/** What is done here. */
export type Action =
  /** Left out. */
  | 'remove'
  /** Written without a value. */
  | 'empty'
  /** The code of the subject, the same for all objects of one patient. */
  | 'subject-code'
  /** The same code as a person's name. */
  | 'subject-name'
  /** Another UID, the same at every export from this computer. */
  | 'replace-uid'
  /** Moved back by the subject's own number of days, so that intervals stay. */
  | 'shift-date'
  /** Midnight, where a time must be there. */
  | 'midnight'
  /** A sequence that stays; each of its items is treated by this same table. */
  | 'clean-items';

export interface ActionRow {
  readonly keyword: string;
  /** Action of the Basic Profile in PS3.15 table E.1-1: X remove, Z empty or dummy, D dummy, U replace, C clean. */
  readonly annexE: string;
  readonly action: Action;
}

const row = (keyword: string, annexE: string, action: Action): ActionRow => ({ keyword, annexE, action });

export const ACTIONS: readonly ActionRow[] = [
  row('PatientName', 'Z', 'subject-name'),
  row('PatientID', 'Z', 'subject-code'),
  row('IssuerOfPatientID', 'X', 'remove'),
  row('PatientBirthDate', 'Z', 'empty'),
  row('PatientSex', 'Z', 'empty'),
  row('StudyDate', 'Z', 'shift-date'),
  row('StudyTime', 'Z', 'empty'),
  row('AccessionNumber', 'Z', 'empty'),
  row('ReferringPhysicianName', 'Z', 'empty'),
  row('StudyID', 'Z', 'empty'),
  row('StudyInstanceUID', 'U', 'replace-uid'),
  row('SeriesInstanceUID', 'U', 'replace-uid'),
  row('SOPInstanceUID', 'U', 'replace-uid'),
  row('ReferencedSOPInstanceUID', 'U', 'replace-uid'),
  row('UID', 'U', 'replace-uid'),
  row('SeriesDescription', 'X', 'remove'),
  row('DerivationDescription', 'X', 'remove'),
  row('ContentDate', 'Z/D', 'shift-date'),
  row('ContentTime', 'Z/D', 'midnight'),
  row('TimezoneOffsetFromUTC', 'X', 'remove'),
  row('ContentCreatorName', 'Z/D', 'empty'),
  row('ReferencedPerformedProcedureStepSequence', 'X/Z/D', 'empty'),
  row('ReferencedImageSequence', 'X/Z/U*', 'clean-items'),
  row('SourceImageSequence', 'X/Z/U*', 'clean-items'),
  // With the options Clean Structured Content and Clean Graphics: the content is ours and holds fixed words only.
  row('ContentSequence', 'D', 'clean-items'),
  row('GraphicAnnotationSequence', 'D', 'clean-items'),
];

/**
 * Not in the edition of table E.1-1 that the tests hold (`annex-e.json`); later ones say X of all four. Each is a
 * moment at which somebody sat at this computer.
 */
export const STRICTER: readonly { readonly keyword: string; readonly action: Action }[] = [
  { keyword: 'DateOfSecondaryCapture', action: 'remove' },
  { keyword: 'TimeOfSecondaryCapture', action: 'remove' },
  // Type 1 in a presentation state.
  { keyword: 'PresentationCreationDate', action: 'shift-date' },
  { keyword: 'PresentationCreationTime', action: 'midnight' },
];

/** Not in table E.1-1: what an object is, how its pixels are meant, codes, geometry. Kept as they are. */
export const KEPT: ReadonlySet<string> = new Set([
  // What it is
  'SpecificCharacterSet',
  'SOPClassUID',
  'Modality',
  'Manufacturer',
  'ManufacturerModelName',
  'SoftwareVersions',
  'SeriesNumber',
  'InstanceNumber',
  'Laterality',
  'PatientOrientation',
  'ImageType',
  'ConversionType',
  'BurnedInAnnotation',
  'LossyImageCompression',
  // Codes
  'CodingSchemeIdentificationSequence',
  'CodingSchemeDesignator',
  'CodingSchemeVersion',
  'CodingSchemeName',
  'CodingSchemeResponsibleOrganization',
  'CodeValue',
  'CodeMeaning',
  'ConceptNameCodeSequence',
  'ConceptCodeSequence',
  'MeasurementUnitsCodeSequence',
  'PurposeOfReferenceCodeSequence',
  // References
  'ReferencedSeriesSequence',
  'ReferencedSOPSequence',
  'ReferencedSOPClassUID',
  'ReferencedFrameNumber',
  'CurrentRequestedProcedureEvidenceSequence',
  'PerformedProcedureCodeSequence',
  // Report
  'CompletionFlag',
  'VerificationFlag',
  'ValueType',
  'RelationshipType',
  'ContinuityOfContent',
  'ContentTemplateSequence',
  'MappingResource',
  'TemplateIdentifier',
  'TextValue',
  'MeasuredValueSequence',
  'NumericValue',
  'FloatingPointValue',
  // Graphics and presentation
  'GraphicType',
  'GraphicData',
  'GraphicFilled',
  'GraphicDimensions',
  'GraphicAnnotationUnits',
  'NumberOfGraphicPoints',
  'GraphicObjectSequence',
  'GraphicGroupID',
  'GraphicGroupLabel',
  'GraphicGroupSequence',
  'GraphicLayer',
  'GraphicLayerOrder',
  'GraphicLayerSequence',
  'TextObjectSequence',
  'UnformattedTextValue',
  'AnchorPoint',
  'AnchorPointAnnotationUnits',
  'AnchorPointVisibility',
  'ContentLabel',
  'ContentDescription',
  'DisplayedAreaSelectionSequence',
  'DisplayedAreaTopLeftHandCorner',
  'DisplayedAreaBottomRightHandCorner',
  'PresentationSizeMode',
  'PresentationPixelSpacing',
  'PresentationPixelAspectRatio',
  'ImageRotation',
  'ImageHorizontalFlip',
  'PresentationLUTShape',
  'RescaleIntercept',
  'RescaleSlope',
  'RescaleType',
  'ModalityLUTSequence',
  'ModalityLUTType',
  'SoftcopyVOILUTSequence',
  'VOILUTSequence',
  'VOILUTFunction',
  'WindowCenter',
  'WindowWidth',
  'LUTDescriptor',
  'LUTData',
  // Pixels
  'SamplesPerPixel',
  'PhotometricInterpretation',
  'PlanarConfiguration',
  'Rows',
  'Columns',
  'BitsAllocated',
  'BitsStored',
  'HighBit',
  'PixelRepresentation',
  'PixelData',
]);
