import { failure, type Result, success } from '../../geometry/result.ts';
import { CODES, codeItem } from './codes.ts';
import type { Dataset } from './dicom-write.ts';
import { commonModules, type WritingFacts } from './modules.ts';
import type { SourceFilm } from './source.ts';

const SECONDARY_CAPTURE = {
  sopClassUid: '1.2.840.10008.5.1.4.1.1.7',
  modality: 'OT',
  seriesDescription: 'Raybend snapshot',
  seriesNumber: 9703,
} as const;

/** A picture, row by row from the top left, three bytes a pixel or four with opacity last. */
export interface Picture {
  readonly columns: number;
  readonly rows: number;
  readonly samplesPerPixel: 3 | 4;
  readonly bytes: Uint8Array | Uint8ClampedArray;
}

export interface SecondaryCaptureInput extends WritingFacts {
  readonly picture: Picture;
  readonly source: SourceFilm;
  /** Side of the hand in the picture (`lateralityOf`); '' where it is not known. */
  readonly laterality: 'L' | 'R' | '';
}

export type PictureFailure =
  | {
      readonly kind: 'no-pixels';
      readonly columns: number;
      readonly rows: number;
      readonly bytes: number;
      readonly expectedBytes: number;
    }
  | {
      readonly kind: 'too-large';
      readonly columns: number;
      readonly rows: number;
      readonly limitPixels: number;
      readonly limitSide: number;
    };

/** Rows and Columns are US; and a capture is of a screen or a page, which this is well above. */
const LONGEST_SIDE = 65535;
const LIMIT_PIXELS = 64_000_000;

/** Whether there is a picture, all of it, and not too much. Null: there is. */
function pictureProblem({ columns, rows, samplesPerPixel, bytes }: Picture): PictureFailure | null {
  const whole = Number.isInteger(columns) && Number.isInteger(rows) && columns > 0 && rows > 0;
  const expectedBytes = whole ? columns * rows * samplesPerPixel : 0;
  if (whole && (columns * rows > LIMIT_PIXELS || Math.max(columns, rows) > LONGEST_SIDE)) {
    return { kind: 'too-large', columns, rows, limitPixels: LIMIT_PIXELS, limitSide: LONGEST_SIDE };
  }
  return expectedBytes === 0 || bytes.length !== expectedBytes
    ? { kind: 'no-pixels', columns, rows, bytes: bytes.length, expectedBytes }
    : null;
}

/**
 * A Secondary Capture (PS3.3 A.8.1) of the annotated film, in colour, with the film it was made from. Whatever
 * is drawn is part of the picture, so it says that text is burned in.
 */
export function secondaryCaptureDataset(input: SecondaryCaptureInput): Result<Dataset, PictureFailure> {
  const { picture, source, laterality, writtenAt } = input;
  const problem = pictureProblem(picture);
  if (problem !== null) return failure(problem);
  return success({
    ...commonModules(source, SECONDARY_CAPTURE, input),
    Laterality: laterality,
    ConversionType: 'WSD',
    DateOfSecondaryCapture: writtenAt.date,
    TimeOfSecondaryCapture: writtenAt.time,
    ImageType: ['DERIVED', 'SECONDARY'],
    PatientOrientation: '',
    ContentDate: writtenAt.date,
    ContentTime: writtenAt.time,
    BurnedInAnnotation: 'YES',
    DerivationDescription: 'Film with axes and readings drawn on it by Raybend',
    SourceImageSequence: [
      {
        ReferencedSOPClassUID: source.sopClassUid,
        ReferencedSOPInstanceUID: source.sopInstanceUid,
        ...(source.frame === null ? {} : { ReferencedFrameNumber: String(source.frame) }),
        PurposeOfReferenceCodeSequence: [codeItem(CODES.sourceImage)],
      },
    ],
    LossyImageCompression: '00',
    SamplesPerPixel: 3,
    PhotometricInterpretation: 'RGB',
    PlanarConfiguration: 0,
    Rows: picture.rows,
    Columns: picture.columns,
    BitsAllocated: 8,
    BitsStored: 8,
    HighBit: 7,
    PixelRepresentation: 0,
    PixelData: opaque(picture),
  });
}

/** Three bytes a pixel; what is not opaque is laid on black. Of even length, as a value must be (PS3.5 7.1.1). */
function opaque({ columns, rows, samplesPerPixel, bytes }: Picture): ArrayBuffer {
  const pixels = columns * rows;
  const colour = new Uint8Array(pixels * 3 + ((pixels * 3) % 2));
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    const from = pixel * samplesPerPixel;
    const opacity = samplesPerPixel === 4 ? (bytes[from + 3] as number) / 255 : 1;
    for (let sample = 0; sample < 3; sample += 1) {
      colour[pixel * 3 + sample] = Math.round((bytes[from + sample] as number) * opacity);
    }
  }
  return colour.buffer;
}
