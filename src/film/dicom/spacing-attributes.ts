import type { SpacingStatements } from '../spacing.ts';
import type { Attributes } from './attributes.ts';

/** Everything a DICOM file says of its spacing, as numbers and not yet judged. */
export function spacingAttributes(attributes: Attributes): SpacingStatements {
  // Enhanced objects keep Pixel Spacing in a functional group shared by all frames (PS3.3 C.7.6.16.2.1).
  const shared = attributes.items('SharedFunctionalGroupsSequence')[0]?.items('PixelMeasuresSequence')[0];
  const own = attributes.numbers('PixelSpacing');
  return {
    pixelSpacing: own.length > 0 ? own : (shared?.numbers('PixelSpacing') ?? []),
    imagerPixelSpacing: attributes.numbers('ImagerPixelSpacing'),
    nominalScannedPixelSpacing: attributes.numbers('NominalScannedPixelSpacing'),
    pixelAspectRatio: attributes.numbers('PixelAspectRatio'),
    calibrationType: attributes.string('PixelSpacingCalibrationType'),
    calibrationDescription: attributes.text('PixelSpacingCalibrationDescription'),
    estimatedMagnification: attributes.number('EstimatedRadiographicMagnificationFactor'),
    distanceSourceToDetectorMm: attributes.number('DistanceSourceToDetector'),
    distanceSourceToPatientMm: attributes.number('DistanceSourceToPatient'),
  };
}
