import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readSpacing, type SpacingStatements } from '../../src/film/spacing.ts';
import { planeScale } from '../../src/geometry/spacing.ts';

const NOTHING: SpacingStatements = {
  pixelSpacing: [],
  imagerPixelSpacing: [],
  nominalScannedPixelSpacing: [],
  pixelAspectRatio: [],
  calibrationType: null,
  calibrationDescription: null,
  estimatedMagnification: null,
  distanceSourceToDetectorMm: null,
  distanceSourceToPatientMm: null,
};

const PS = [0.13, 0.13] as const;
const IPS = [0.139, 0.139] as const;

/** One row for each state a file can be in, with the clause of PS3.3 that decides it. */
const rows: readonly {
  readonly state: string;
  readonly clause: string;
  readonly given: Partial<SpacingStatements>;
  readonly expected: object;
}[] = [
  {
    state: 'Pixel Spacing calibrated by a fiducial',
    clause: '10.7.1.2, 10.7.1.3',
    given: {
      pixelSpacing: PS,
      imagerPixelSpacing: IPS,
      calibrationType: 'FIDUCIAL',
      calibrationDescription: '25 mm ball',
    },
    expected: {
      rowSpacingMm: 0.13,
      plane: 'patient',
      origin: 'PixelSpacing',
      calibrationType: 'FIDUCIAL',
      calibrationDescription: '25 mm ball',
      conflicts: [],
    },
  },
  {
    state: 'Pixel Spacing corrected by geometry; the magnification is then spent',
    clause: '10.7.1.2, 10.7.1.3',
    given: {
      pixelSpacing: PS,
      imagerPixelSpacing: IPS,
      calibrationType: 'GEOMETRY',
      estimatedMagnification: 1.07,
    },
    expected: { plane: 'patient', calibrationType: 'GEOMETRY', estimatedMagnification: null, conflicts: [] },
  },
  {
    state: 'Pixel Spacing that differs from the detector’s without a type',
    clause: '10.7.1.1',
    given: { pixelSpacing: PS, imagerPixelSpacing: IPS },
    expected: {
      rowSpacingMm: 0.13,
      plane: 'patient',
      origin: 'PixelSpacing',
      calibrationType: null,
      conflicts: [expect.stringMatching(/differs from Imager Pixel Spacing.*does not say how/)],
    },
  },
  {
    state: 'Pixel Spacing that differs from the scanner’s without a type',
    clause: '10.7.1.1',
    given: { pixelSpacing: PS, nominalScannedPixelSpacing: IPS },
    expected: {
      plane: 'patient',
      origin: 'PixelSpacing',
      conflicts: [expect.stringMatching(/differs from Nominal Scanned Pixel Spacing/)],
    },
  },
  {
    state: 'marked as calibrated but equal to the detector’s',
    clause: '10.7.1.1',
    given: { pixelSpacing: IPS, imagerPixelSpacing: IPS, calibrationType: 'FIDUCIAL' },
    expected: {
      plane: 'patient',
      calibrationType: 'FIDUCIAL',
      conflicts: [expect.stringMatching(/marked as calibrated \(FIDUCIAL\) but equals Imager/)],
    },
  },
  {
    state: 'Imager Pixel Spacing with a magnification, stated and not applied',
    clause: 'C.8.11.4 (DX Detector), (0018,1114)',
    given: { imagerPixelSpacing: IPS, estimatedMagnification: 1.03 },
    expected: {
      rowSpacingMm: 0.139,
      columnSpacingMm: 0.139,
      plane: 'detector',
      origin: 'ImagerPixelSpacing',
      estimatedMagnification: 1.03,
      conflicts: [],
    },
  },
  {
    state: 'Imager Pixel Spacing alone',
    clause: '10.7.1.1, C.8.11.4',
    given: { imagerPixelSpacing: IPS },
    expected: {
      plane: 'detector',
      origin: 'ImagerPixelSpacing',
      estimatedMagnification: null,
      conflicts: [],
    },
  },
  {
    state: 'Pixel Spacing equal to Imager Pixel Spacing',
    clause: '10.7.1.1',
    given: { pixelSpacing: IPS, imagerPixelSpacing: IPS },
    expected: { plane: 'detector', origin: 'ImagerPixelSpacing', conflicts: [] },
  },
  {
    state: 'equal but for the decimals written',
    clause: '10.7.1.1',
    given: { pixelSpacing: [0.1390001, 0.139], imagerPixelSpacing: IPS },
    expected: { plane: 'detector', rowSpacingMm: 0.139, conflicts: [] },
  },
  {
    state: 'Nominal Scanned Pixel Spacing alone',
    clause: 'C.8.14 (film digitiser), (0018,2010)',
    given: { nominalScannedPixelSpacing: [0.168, 0.168] },
    expected: { rowSpacingMm: 0.168, plane: 'film', origin: 'NominalScannedPixelSpacing', conflicts: [] },
  },
  {
    state: 'Nominal Scanned and Pixel Spacing, equal',
    clause: '10.7.1.1',
    given: { nominalScannedPixelSpacing: IPS, pixelSpacing: IPS },
    expected: { plane: 'film', origin: 'NominalScannedPixelSpacing' },
  },
  {
    state: 'two physical spacings that disagree',
    clause: '10.7.1.1',
    given: { nominalScannedPixelSpacing: [0.168, 0.168], imagerPixelSpacing: IPS },
    expected: {
      plane: 'detector',
      conflicts: [expect.stringMatching(/Imager.*and Nominal Scanned.*differ; the first is used/)],
    },
  },
  {
    state: 'Pixel Spacing alone: what it refers to cannot be known',
    clause: '10.7.1.1',
    given: { pixelSpacing: PS },
    expected: { rowSpacingMm: 0.13, plane: 'not-known', origin: 'PixelSpacing', conflicts: [] },
  },
  {
    state: 'Pixel Spacing alone with a type',
    clause: '10.7.1.2',
    given: { pixelSpacing: PS, calibrationType: 'GEOMETRY' },
    expected: { plane: 'patient', calibrationType: 'GEOMETRY', conflicts: [] },
  },
  {
    state: 'row spacing first, then column spacing',
    clause: '10.7.1.3',
    given: { imagerPixelSpacing: [0.3, 0.25] },
    expected: { rowSpacingMm: 0.3, columnSpacingMm: 0.25 },
  },
  {
    state: 'Pixel Aspect Ratio alone',
    clause: 'C.7.6.3.1.7',
    given: { pixelAspectRatio: [6, 5] },
    expected: { kind: 'ratio', rowToColumn: 1.2, origin: 'PixelAspectRatio', conflicts: [] },
  },
  {
    state: 'Pixel Aspect Ratio against the spacing',
    clause: 'C.7.6.3.1.7: not used where a spacing is given',
    given: { pixelAspectRatio: [6, 5], imagerPixelSpacing: IPS },
    expected: {
      kind: 'millimetres',
      rowSpacingMm: 0.139,
      conflicts: [expect.stringMatching(/Pixel Aspect Ratio says 6 to 5/)],
    },
  },
  {
    state: 'nothing at all',
    clause: 'C.7.6.3.1.7: square by default',
    given: {},
    expected: { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts: [] },
  },
  ...(
    [
      ['zero', [0, 0]],
      ['negative', [-0.1, 0.1]],
      ['unreadable', [Number.NaN, 0.1]],
      ['infinite', [Number.POSITIVE_INFINITY, 0.1]],
      ['one number', [0.1]],
      ['three numbers', [0.1, 0.1, 0.1]],
    ] as const
  ).map(([what, pixelSpacing]) => ({
    state: `Pixel Spacing ${what}`,
    clause: '10.7.1.3: positive and not zero',
    given: { pixelSpacing },
    expected: {
      kind: 'ratio',
      origin: 'assumed-square',
      conflicts: [expect.stringMatching(/^Pixel Spacing cannot be used/)],
    },
  })),
  {
    state: 'Pixel Aspect Ratio of a pixel eleven times as high as wide',
    clause: 'common practice, no source',
    given: { pixelAspectRatio: [11, 1] },
    expected: {
      kind: 'ratio',
      rowToColumn: 1,
      conflicts: [expect.stringMatching(/Pixel Aspect Ratio cannot be used: no pixel/)],
    },
  },
  {
    state: 'a bad Pixel Spacing beside a good Imager Pixel Spacing',
    clause: '10.7.1.3',
    given: { pixelSpacing: [0, 0], imagerPixelSpacing: IPS },
    expected: {
      plane: 'detector',
      rowSpacingMm: 0.139,
      conflicts: [expect.stringMatching(/Pixel Spacing cannot be used.*says 0 and 0/)],
    },
  },
  ...[0, 0.9, -1, Number.NaN].map((estimatedMagnification) => ({
    state: `a magnification of ${estimatedMagnification}`,
    clause: '(0018,1114): source-image over source-object distance, 1 or more',
    given: { imagerPixelSpacing: IPS, estimatedMagnification },
    expected: {
      plane: 'detector',
      estimatedMagnification: null,
      conflicts: [expect.stringMatching(/Magnification Factor cannot be used/)],
    },
  })),
  {
    state: 'a magnification that the distances contradict',
    clause: '(0018,1114) = (0018,1110) / distance to the object',
    // 1000 / 900 = 1.11.
    given: {
      imagerPixelSpacing: IPS,
      estimatedMagnification: 1.5,
      distanceSourceToDetectorMm: 1000,
      distanceSourceToPatientMm: 900,
    },
    expected: {
      estimatedMagnification: 1.5,
      conflicts: [expect.stringMatching(/stated magnification is 1.5.*give 1.11/)],
    },
  },
  {
    state: 'an unknown calibration type',
    clause: '(0028,0A02): GEOMETRY or FIDUCIAL',
    given: { pixelSpacing: PS, imagerPixelSpacing: IPS, calibrationType: 'GUESS' },
    expected: { calibrationType: null, conflicts: [expect.stringMatching(/GUESS/), expect.any(String)] },
  },
  {
    state: 'pixels of 15 mm',
    clause: 'common practice, no source',
    given: { imagerPixelSpacing: [15, 15] },
    expected: { rowSpacingMm: 15, conflicts: [expect.stringMatching(/unusual for a radiograph/)] },
  },
];

describe('which spacing holds (PS3.3 10.7)', () => {
  it.each(rows)('$state — $clause', ({ given, expected }) => {
    expect(readSpacing({ ...NOTHING, ...given })).toMatchObject(expected);
  });

  it('never gives a spacing that is not finite and above 0', () => {
    const value = fc.oneof(fc.double(), fc.constantFrom(0, -0, -1, 0.1, 0.139));
    const values = fc.array(value, { maxLength: 3 });
    fc.assert(
      fc.property(values, values, values, values, value, (pixel, imager, scanned, aspect, factor) => {
        const spacing = readSpacing({
          ...NOTHING,
          pixelSpacing: pixel,
          imagerPixelSpacing: imager,
          nominalScannedPixelSpacing: scanned,
          pixelAspectRatio: aspect,
          estimatedMagnification: factor,
        });
        const { perColumn, perRow } = planeScale(spacing);
        return Number.isFinite(perColumn) && Number.isFinite(perRow) && perColumn > 0 && perRow > 0;
      }),
      { seed: 20_251_125 },
    );
  });
});
