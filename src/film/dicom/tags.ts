/** The attributes read from a film, here and in `record`, by keyword (PS3.6), as dicom-parser names their tags. */
export const TAGS = {
  TransferSyntaxUID: 'x00020010',
  MediaStorageSOPClassUID: 'x00020002',
  DirectoryRecordSequence: 'x00041220',
  SpecificCharacterSet: 'x00080005',
  SOPClassUID: 'x00080016',
  SOPInstanceUID: 'x00080018',
  StudyDate: 'x00080020',
  StudyTime: 'x00080030',
  AccessionNumber: 'x00080050',
  Modality: 'x00080060',
  PresentationIntentType: 'x00080068',
  ReferringPhysicianName: 'x00080090',
  CodeValue: 'x00080100',
  PatientName: 'x00100010',
  PatientID: 'x00100020',
  IssuerOfPatientID: 'x00100021',
  PatientBirthDate: 'x00100030',
  PatientSex: 'x00100040',
  DistanceSourceToDetector: 'x00181110',
  DistanceSourceToPatient: 'x00181111',
  EstimatedRadiographicMagnificationFactor: 'x00181114',
  ImagerPixelSpacing: 'x00181164',
  NominalScannedPixelSpacing: 'x00182010',
  ViewPosition: 'x00185101',
  StudyInstanceUID: 'x0020000d',
  SeriesInstanceUID: 'x0020000e',
  StudyID: 'x00200010',
  PatientOrientation: 'x00200020',
  Laterality: 'x00200060',
  ImageLaterality: 'x00200062',
  SamplesPerPixel: 'x00280002',
  PhotometricInterpretation: 'x00280004',
  PlanarConfiguration: 'x00280006',
  NumberOfFrames: 'x00280008',
  Rows: 'x00280010',
  Columns: 'x00280011',
  PixelSpacing: 'x00280030',
  PixelAspectRatio: 'x00280034',
  BitsAllocated: 'x00280100',
  BitsStored: 'x00280101',
  HighBit: 'x00280102',
  PixelRepresentation: 'x00280103',
  PixelPaddingValue: 'x00280120',
  PixelPaddingRangeLimit: 'x00280121',
  BurnedInAnnotation: 'x00280301',
  PixelSpacingCalibrationType: 'x00280a02',
  PixelSpacingCalibrationDescription: 'x00280a04',
  WindowCenter: 'x00281050',
  WindowWidth: 'x00281051',
  RescaleIntercept: 'x00281052',
  RescaleSlope: 'x00281053',
  WindowCenterWidthExplanation: 'x00281055',
  VOILUTFunction: 'x00281056',
  RedPaletteColorLookupTableDescriptor: 'x00281101',
  GreenPaletteColorLookupTableDescriptor: 'x00281102',
  BluePaletteColorLookupTableDescriptor: 'x00281103',
  RedPaletteColorLookupTableData: 'x00281201',
  GreenPaletteColorLookupTableData: 'x00281202',
  BluePaletteColorLookupTableData: 'x00281203',
  LossyImageCompression: 'x00282110',
  LossyImageCompressionRatio: 'x00282112',
  ModalityLUTSequence: 'x00283000',
  LUTDescriptor: 'x00283002',
  LUTExplanation: 'x00283003',
  LUTData: 'x00283006',
  VOILUTSequence: 'x00283010',
  PixelMeasuresSequence: 'x00289110',
  PresentationLUTShape: 'x20500020',
  ViewCodeSequence: 'x00540220',
  SharedFunctionalGroupsSequence: 'x52009229',
  PixelData: 'x7fe00010',
} as const;

export type Keyword = keyof typeof TAGS;

/** A tag as the standard writes it: `(0028,0010)`. */
export function tagOf(keyword: Keyword): string {
  const tag = TAGS[keyword];
  return `(${tag.slice(1, 5)},${tag.slice(5)})`.toUpperCase();
}

const SEQUENCES: ReadonlySet<string> = new Set([
  TAGS.DirectoryRecordSequence,
  TAGS.ModalityLUTSequence,
  TAGS.VOILUTSequence,
  TAGS.PixelMeasuresSequence,
  TAGS.ViewCodeSequence,
  TAGS.SharedFunctionalGroupsSequence,
]);

/**
 * The value representation of the tags where a guess from the bytes could go wrong in implicit VR: pixel data
 * may begin with the bytes of an item tag. Undefined leaves the parser to look.
 */
export function implicitVrOf(tag: string): string | undefined {
  if (tag === TAGS.PixelData) return 'OW';
  return SEQUENCES.has(tag) ? 'SQ' : undefined;
}
