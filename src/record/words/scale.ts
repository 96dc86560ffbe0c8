import type { Spacing } from '../../geometry/spacing.ts';

/** Where the scale of a film comes from and where its millimetres hold, in one sentence. Fixed words only. */
export function scaleSentence(spacing: Spacing): string {
  if (spacing.kind === 'ratio') {
    return spacing.origin === 'PixelAspectRatio'
      ? 'No scale: the file states the shape of a pixel and not its size.'
      : 'No scale: pixels are taken to be square, of unknown size.';
  }
  switch (spacing.origin) {
    case 'object-of-known-size':
      return 'Scale set by the user from one or two objects of known size on the film.';
    case 'invented-film':
      return 'Scale of an invented film, known exactly.';
    case 'NominalScannedPixelSpacing':
      return 'Scale from Nominal Scanned Pixel Spacing (0018,2010), in the plane of the film that was scanned.';
    case 'ImagerPixelSpacing':
      return `Scale from Imager Pixel Spacing (0018,1164), at the detector; the bone is shown larger ${
        spacing.estimatedMagnification === null
          ? 'by an unknown factor, commonly 1 to 3 %'
          : `by an estimated factor of ${spacing.estimatedMagnification.toFixed(3)}`
      }.`;
    case 'PixelSpacing':
      return `Scale from Pixel Spacing (0028,0030), ${PIXEL_SPACING_PLANE[spacing.plane]}${
        spacing.calibrationType === null ? '' : `, calibration type ${spacing.calibrationType}`
      }.`;
  }
}

const PIXEL_SPACING_PLANE: Readonly<Record<Extract<Spacing, { kind: 'millimetres' }>['plane'], string>> = {
  patient: 'calibrated in the file for the patient',
  detector: 'at the detector',
  film: 'in the plane of the film',
  'not-known': 'and the file does not say whether it holds at the detector or at the bone',
};
