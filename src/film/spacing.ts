import type { Spacing } from '../geometry/spacing.ts';

/**
 * What a file says of the size of its pixels, as numbers (NaN where a text is none) and not yet judged. Pairs
 * are row spacing (vertical) first, then column spacing (horizontal): PS3.3 10.7.1.3.
 */
export interface SpacingStatements {
  /** (0028,0030), mm, in the patient when it has been corrected or calibrated. */
  readonly pixelSpacing: readonly number[];
  /** (0018,1164), mm, at the front plane of the detector housing; never adjusted for magnification. */
  readonly imagerPixelSpacing: readonly number[];
  /** (0018,2010), mm, on the film that was digitised. */
  readonly nominalScannedPixelSpacing: readonly number[];
  /** (0028,0034), vertical and horizontal size of a pixel, without a unit. */
  readonly pixelAspectRatio: readonly number[];
  /** (0028,0A02). */
  readonly calibrationType: string | null;
  /** (0028,0A04). */
  readonly calibrationDescription: string | null;
  /** (0018,1114): source-image distance over source-object distance. */
  readonly estimatedMagnification: number | null;
  /** (0018,1110). */
  readonly distanceSourceToDetectorMm: number | null;
  /** (0018,1111). */
  readonly distanceSourceToPatientMm: number | null;
}

interface Pair {
  readonly rowSpacingMm: number;
  readonly columnSpacingMm: number;
}

type Millimetre = Extract<Spacing, { kind: 'millimetres' }>;

/** Two spacings that differ by less are the same one, written with different rounding. */
const SAME_WITHIN = 0.001;
/** Common practice, no source: plates and detectors have pixels between these sizes. */
const USUAL_MM = { least: 0.02, greatest: 2 };

/** Common practice, no source: no pixel is more than this many times as long as it is wide. */
const LONGEST_PIXEL = 10;

const NAMES = {
  pixelSpacing: 'Pixel Spacing',
  imagerPixelSpacing: 'Imager Pixel Spacing',
  nominalScannedPixelSpacing: 'Nominal Scanned Pixel Spacing',
  pixelAspectRatio: 'Pixel Aspect Ratio',
} as const;

/** A usable pair, or null with a sentence where something was stated and cannot be used. */
function readPair(
  statements: SpacingStatements,
  which: keyof typeof NAMES,
  conflicts: string[],
): Pair | null {
  const values = statements[which];
  if (values.length === 0) return null;
  const [rowSpacingMm, columnSpacingMm] = values;
  const usable = (value: number | undefined): value is number =>
    value !== undefined && Number.isFinite(value) && value > 0;
  if (values.length !== 2 || !usable(rowSpacingMm) || !usable(columnSpacingMm)) {
    conflicts.push(`${NAMES[which]} cannot be used: it needs two numbers above 0 and says ${said(values)}.`);
    return null;
  }
  const ratio = rowSpacingMm / columnSpacingMm;
  if (ratio > LONGEST_PIXEL || ratio < 1 / LONGEST_PIXEL) {
    conflicts.push(`${NAMES[which]} cannot be used: no pixel is as long as ${said(values)} would make it.`);
    return null;
  }
  return { rowSpacingMm, columnSpacingMm };
}

const said = (values: readonly number[]) =>
  values.map((value) => (Number.isNaN(value) ? 'no number' : String(value))).join(' and ');

const text = (pair: Pair) => `${pair.rowSpacingMm} × ${pair.columnSpacingMm} mm`;

const differs = (a: number, b: number) => Math.abs(a / b - 1) > SAME_WITHIN;

const same = (a: Pair, b: Pair) =>
  !differs(a.rowSpacingMm, b.rowSpacingMm) && !differs(a.columnSpacingMm, b.columnSpacingMm);

function readMagnification(statements: SpacingStatements, conflicts: string[]): number | null {
  const stated = statements.estimatedMagnification;
  if (stated === null) return null;
  if (!Number.isFinite(stated) || stated < 1) {
    conflicts.push(
      `Estimated Radiographic Magnification Factor cannot be used: it must be 1 or more and is ${said([stated])}.`,
    );
    return null;
  }
  const detector = statements.distanceSourceToDetectorMm ?? Number.NaN;
  const patient = statements.distanceSourceToPatientMm ?? Number.NaN;
  const byDistances = detector / patient;
  if (patient > 0 && Number.isFinite(byDistances) && Math.abs(byDistances / stated - 1) > 0.02) {
    conflicts.push(
      `The stated magnification is ${stated}; the stated distances (${detector} and ${patient} mm) give ${byDistances.toFixed(2)}.`,
    );
  }
  return stated;
}

function readCalibrationType(
  statements: SpacingStatements,
  conflicts: string[],
): Millimetre['calibrationType'] {
  const stated = statements.calibrationType;
  if (stated === null || stated === 'GEOMETRY' || stated === 'FIDUCIAL') return stated;
  conflicts.push(`Pixel Spacing Calibration Type “${stated}” is not known; it is left out.`);
  return null;
}

/** Sentences about a pair that was chosen although something in the file speaks against it. */
function doubts(pair: Pair, aspect: Pair | null): readonly string[] {
  const sentences: string[] = [];
  const { rowSpacingMm: row, columnSpacingMm: column } = pair;
  if (Math.min(row, column) < USUAL_MM.least || Math.max(row, column) > USUAL_MM.greatest) {
    sentences.push(
      `A pixel of ${text(pair)} is unusual for a radiograph; check the scale with an object of known size.`,
    );
  }
  if (aspect !== null && differs(aspect.rowSpacingMm / aspect.columnSpacingMm, row / column)) {
    sentences.push(
      `Pixel Aspect Ratio says ${aspect.rowSpacingMm} to ${aspect.columnSpacingMm}, which the spacing of ${text(pair)} contradicts; the spacing is used.`,
    );
  }
  return sentences;
}

/**
 * Which spacing holds, by PS3.3 10.7.1: the first rule that fits, with what contradicts it as sentences.
 *
 * 1. Pixel Spacing, where a calibration type is given or it differs from the detector's or film's: patient.
 * 2. Imager Pixel Spacing, alone or equal to Pixel Spacing: detector plane, with the estimated magnification
 *    stated where the file has it and not applied.
 * 3. Nominal Scanned Pixel Spacing, alone or equal to Pixel Spacing: the plane of the film.
 * 4. Pixel Spacing alone: what it refers to cannot be known (10.7.1.1).
 * 5. Pixel Aspect Ratio, else square pixels: a ratio, no millimetres.
 *
 * Zero, negative or unreadable values are never used; each leaves a sentence. Never throws.
 */
export function readSpacing(statements: SpacingStatements): Spacing {
  const conflicts: string[] = [];
  const pixel = readPair(statements, 'pixelSpacing', conflicts);
  const imager = readPair(statements, 'imagerPixelSpacing', conflicts);
  const scanned = readPair(statements, 'nominalScannedPixelSpacing', conflicts);
  const aspect = readPair(statements, 'pixelAspectRatio', conflicts);
  const calibrationType = readCalibrationType(statements, conflicts);
  const magnification = readMagnification(statements, conflicts);

  const millimetres = (
    pair: Pair,
    plane: Millimetre['plane'],
    origin: Millimetre['origin'],
    calibrated: boolean,
  ): Spacing => ({
    kind: 'millimetres',
    ...pair,
    plane,
    origin,
    calibrationType: calibrated ? calibrationType : null,
    calibrationDescription: calibrated ? statements.calibrationDescription : null,
    estimatedMagnification: plane === 'detector' ? magnification : null,
    relativeStandardUncertainty: 0,
    conflicts: [...conflicts, ...doubts(pair, aspect)],
  });

  const physical = imager ?? scanned;
  const physicalName = imager === null ? NAMES.nominalScannedPixelSpacing : NAMES.imagerPixelSpacing;
  if (pixel !== null && physical !== null && !same(pixel, physical)) {
    // 10.7.1.1: differing from the physical spacing, it has been corrected or calibrated.
    if (calibrationType === null) {
      conflicts.push(
        `Pixel Spacing (${text(pixel)}) differs from ${physicalName} (${text(physical)}) and the file does not say how it was calibrated.`,
      );
    }
    return millimetres(pixel, 'patient', 'PixelSpacing', true);
  }
  if (pixel !== null && calibrationType !== null) {
    if (physical !== null) {
      conflicts.push(
        `Pixel Spacing is marked as calibrated (${calibrationType}) but equals ${physicalName}.`,
      );
    }
    return millimetres(pixel, 'patient', 'PixelSpacing', true);
  }
  if (imager !== null) {
    if (scanned !== null && !same(imager, scanned)) {
      conflicts.push(
        `Imager Pixel Spacing (${text(imager)}) and Nominal Scanned Pixel Spacing (${text(scanned)}) differ; the first is used.`,
      );
    }
    return millimetres(imager, 'detector', 'ImagerPixelSpacing', false);
  }
  if (scanned !== null) return millimetres(scanned, 'film', 'NominalScannedPixelSpacing', false);
  if (pixel !== null) return millimetres(pixel, 'not-known', 'PixelSpacing', false);
  return aspect === null
    ? { kind: 'ratio', rowToColumn: 1, origin: 'assumed-square', conflicts }
    : {
        kind: 'ratio',
        rowToColumn: aspect.rowSpacingMm / aspect.columnSpacingMm,
        origin: 'PixelAspectRatio',
        conflicts,
      };
}

/** A picture format says nothing of millimetres: square pixels, no scale. */
export const SQUARE_PIXELS: Spacing = {
  kind: 'ratio',
  rowToColumn: 1,
  origin: 'assumed-square',
  conflicts: [],
};
