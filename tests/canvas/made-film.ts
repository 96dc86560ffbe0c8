import type { Film, GreyScale } from '../../src/film/film.ts';
import { pyramid } from '../../src/film/pyramid.ts';
import type { Spacing } from '../../src/geometry/spacing.ts';

/** A film made for a test: every pixel from a function of its column and row, 12 bits unless told. */
export function madeFilm(
  columns: number,
  rows: number,
  valueAt: (column: number, row: number) => number,
  spacing: Spacing = squareMillimetres(0.15),
): Film {
  const pixels = new Uint16Array(columns * rows);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) pixels[row * columns + column] = valueAt(column, row);
  }
  let storedMin = Number.POSITIVE_INFINITY;
  let storedMax = Number.NEGATIVE_INFINITY;
  for (const value of pixels) {
    storedMin = Math.min(storedMin, value);
    storedMax = Math.max(storedMax, value);
  }
  return {
    columns,
    rows,
    levels: pyramid({ columns, rows, pixels }, null),
    storedMin,
    storedMax,
    grey: TWELVE_BITS,
    spacing,
    facts: {
      format: 'dicom',
      modality: 'DX',
      sopClassUid: null,
      transferSyntaxUid: null,
      viewPosition: null,
      laterality: null,
      patientOrientation: null,
      lossy: false,
      burnedIn: false,
      wasColour: false,
      notes: [],
    },
  };
}

const TWELVE_BITS: GreyScale = {
  bitsStored: 12,
  signed: false,
  photometric: 'MONOCHROME2',
  modality: { kind: 'rescale', slope: 1, intercept: 0 },
  windows: [{ center: 2048, width: 4096, function: 'LINEAR', explanation: null }],
  voiTables: [],
  padding: null,
};

export const squareMillimetres = (spacingMm: number): Spacing => millimetres(spacingMm, spacingMm);

/** Row spacing first, as DICOM has it. */
export const millimetres = (rowSpacingMm: number, columnSpacingMm: number): Spacing => ({
  kind: 'millimetres',
  rowSpacingMm,
  columnSpacingMm,
  plane: 'detector',
  origin: 'ImagerPixelSpacing',
  calibrationType: null,
  calibrationDescription: null,
  estimatedMagnification: null,
  relativeStandardUncertainty: 0,
  conflicts: [],
});

/** No millimetres stated, only how high a pixel is for its width. */
export const ratioOnly = (rowToColumn: number): Spacing => ({
  kind: 'ratio',
  rowToColumn,
  origin: 'PixelAspectRatio',
  conflicts: [],
});
