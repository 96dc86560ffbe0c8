import type { Result } from '../geometry/result.ts';
import { type Code, codeItem, VIEW_CODES } from './dicom/codes.ts';
import {
  type Dataset,
  decimalString,
  type HoldsBackslash,
  type ValueTooLong,
  writeDicom,
} from './dicom/dicom-write.ts';

/** A digital radiograph of a hand, ready to be written. Nothing of it may come from a person. */
export interface DxFilm {
  readonly columns: number;
  readonly rows: number;
  /** Stored values, bone bright, row by row. */
  readonly pixels: Uint16Array;
  readonly bitsStored: number;
  readonly window: { readonly center: number; readonly width: number };
  /** (0018,1164) at the detector, mm. */
  readonly imagerPixelSpacingMm: number;
  /** (0028,0030) corrected for magnification, with its explanation; null: not corrected. */
  readonly patientSpacing: { readonly spacingMm: number; readonly description: string } | null;
  /** (0018,1114), or null. */
  readonly magnification: number | null;
  readonly distanceSourceToDetectorMm: number | null;
  readonly side: 'left' | 'right';
  readonly view: 'pa' | 'oblique' | 'lateral';
  /** (0018,5101). */
  readonly viewPosition: string;
  readonly seriesDescription: string;
  readonly instanceNumber: number;
  /** Energy of the beam as a tube voltage, kV. */
  readonly kilovolts: number;
  readonly uids: { readonly study: string; readonly series: string; readonly instance: string };
  readonly patient: { readonly name: string; readonly id: string };
  /** DA and TM of an invented moment. */
  readonly takenAt: { readonly date: string; readonly time: string };
}

const DX_FOR_PRESENTATION = '1.2.840.10008.5.1.4.1.1.1.1';

/** PS3.16 CID 4009, DX Anatomy Imaged. */
const HAND: Code = { value: '85562004', scheme: 'SCT', meaning: 'Hand' };

/**
 * (0020,0020): where the film's right edge and its lower edge lie on a patient standing with the palms
 * forward (PS3.3 C.7.6.1.1.1). Fingers point to the feet, so the lower edge is towards the head.
 */
const ORIENTATIONS = {
  right: { pa: ['L', 'H'], oblique: ['LP', 'H'], lateral: ['P', 'H'] },
  left: { pa: ['L', 'H'], oblique: ['LA', 'H'], lateral: ['A', 'H'] },
} as const;

/** Photon energy and detector are not described further than the standard asks. */
function imageModules(film: DxFilm): Dataset {
  const spacing = decimalString(film.imagerPixelSpacingMm);
  return {
    ImageType: ['ORIGINAL', 'PRIMARY', ''],
    SamplesPerPixel: 1,
    PhotometricInterpretation: 'MONOCHROME2',
    Rows: film.rows,
    Columns: film.columns,
    BitsAllocated: 16,
    BitsStored: film.bitsStored,
    HighBit: film.bitsStored - 1,
    PixelRepresentation: 0,
    // Bone is bright, so a larger value means fewer photons (PS3.3 C.8.11.3.1.2).
    PixelIntensityRelationship: 'LOG',
    PixelIntensityRelationshipSign: -1,
    RescaleIntercept: '0',
    RescaleSlope: '1',
    RescaleType: 'US',
    PresentationLUTShape: 'IDENTITY',
    LossyImageCompression: '00',
    BurnedInAnnotation: 'NO',
    WindowCenter: decimalString(film.window.center),
    WindowWidth: decimalString(film.window.width),
    PositionerType: '',
    DetectorType: 'SCINTILLATOR',
    ImagerPixelSpacing: [spacing, spacing],
    KVP: decimalString(film.kilovolts),
    ...(film.magnification === null
      ? {}
      : { EstimatedRadiographicMagnificationFactor: decimalString(film.magnification) }),
    ...(film.distanceSourceToDetectorMm === null
      ? {}
      : { DistanceSourceToDetector: decimalString(film.distanceSourceToDetectorMm) }),
    ...(film.patientSpacing === null
      ? {}
      : {
          PixelSpacing: [
            decimalString(film.patientSpacing.spacingMm),
            decimalString(film.patientSpacing.spacingMm),
          ],
          PixelSpacingCalibrationType: 'GEOMETRY',
          PixelSpacingCalibrationDescription: film.patientSpacing.description,
        }),
  };
}

/**
 * The bytes of a Digital X-Ray Image, For Presentation (PS3.3 A.26.3), uncompressed.
 *
 * The same input gives the same bytes: time and UIDs are passed in.
 */
export function writeDx(film: DxFilm): Result<Uint8Array<ArrayBuffer>, ValueTooLong | HoldsBackslash> {
  const bytes = new DataView(new ArrayBuffer(film.pixels.length * 2));
  film.pixels.forEach((value, i) => {
    bytes.setUint16(2 * i, value, true);
  });
  const { date, time } = film.takenAt;
  return writeDicom({
    SOPClassUID: DX_FOR_PRESENTATION,
    SOPInstanceUID: film.uids.instance,
    PatientName: film.patient.name,
    PatientID: film.patient.id,
    PatientBirthDate: '',
    PatientSex: '',
    StudyInstanceUID: film.uids.study,
    StudyDate: date,
    StudyTime: time,
    ReferringPhysicianName: '',
    StudyID: '',
    AccessionNumber: '',
    SeriesInstanceUID: film.uids.series,
    SeriesNumber: String(film.instanceNumber),
    SeriesDescription: film.seriesDescription,
    Modality: 'DX',
    PresentationIntentType: 'FOR PRESENTATION',
    Manufacturer: 'Raybend',
    ManufacturerModelName: 'Invented film',
    BodyPartExamined: 'HAND',
    PatientOrientation: [...ORIENTATIONS[film.side][film.view]],
    InstanceNumber: String(film.instanceNumber),
    ContentDate: date,
    ContentTime: time,
    AcquisitionDate: date,
    AcquisitionTime: time,
    AcquisitionContextSequence: [],
    ImageLaterality: film.side === 'left' ? 'L' : 'R',
    AnatomicRegionSequence: [codeItem(HAND)],
    ViewPosition: film.viewPosition,
    ViewCodeSequence: [codeItem(VIEW_CODES[film.view])],
    ...imageModules(film),
    PixelData: bytes.buffer,
  });
}
