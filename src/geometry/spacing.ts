import { type FilmPoint, filmPoint, type PlanePoint, planePoint } from './units.ts';

/** Where the stated millimetres hold. */
export type SpacingPlane = 'detector' | 'patient' | 'film' | 'not-known';

/** Which statement the spacing was taken from; DICOM keywords where it is one. */
export type SpacingOrigin =
  | 'ImagerPixelSpacing'
  | 'PixelSpacing'
  | 'NominalScannedPixelSpacing'
  | 'object-of-known-size'
  | 'invented-film';

/**
 * What is known of a film's scale. Rows and columns are kept apart: DICOM gives the row spacing (the
 * vertical one) first (PS3.3 10.7.1.3).
 */
export type Spacing =
  | {
      readonly kind: 'millimetres';
      /** Distance between the centres of neighbouring rows, vertically, in mm. Finite, > 0. */
      readonly rowSpacingMm: number;
      /** Distance between the centres of neighbouring columns, horizontally, in mm. Finite, > 0. */
      readonly columnSpacingMm: number;
      readonly plane: SpacingPlane;
      readonly origin: SpacingOrigin;
      /** (0028,0A02) Pixel Spacing Calibration Type, where present. */
      readonly calibrationType: 'GEOMETRY' | 'FIDUCIAL' | null;
      /** (0028,0A04) Pixel Spacing Calibration Description, or what the user measured. */
      readonly calibrationDescription: string | null;
      /** (0018,1114) Estimated Radiographic Magnification Factor; 1 or more. Stated, not applied. */
      readonly estimatedMagnification: number | null;
      /** One standard deviation of the scale as a share of it; 0 when nothing is known against it. */
      readonly relativeStandardUncertainty: number;
      /** Statements in the file that contradict the one used, as sentences. */
      readonly conflicts: readonly string[];
    }
  | {
      readonly kind: 'ratio';
      /** Row spacing divided by column spacing. 1 when nothing is stated. */
      readonly rowToColumn: number;
      /** (0028,0034) Pixel Aspect Ratio, or the assumption of square pixels. */
      readonly origin: 'PixelAspectRatio' | 'assumed-square';
      /** Statements in the file that could not be used, as sentences. */
      readonly conflicts: readonly string[];
    };

/** The factors from film to plane coordinates. `unit` says what one plane unit is. */
export interface PlaneScale {
  readonly unit: 'mm' | 'column';
  readonly perColumn: number;
  readonly perRow: number;
}

/** Plane units are millimetres where the spacing is known, columns of the film where only its ratio is. */
export function planeScale(spacing: Spacing): PlaneScale {
  return spacing.kind === 'millimetres'
    ? { unit: 'mm', perColumn: spacing.columnSpacingMm, perRow: spacing.rowSpacingMm }
    : { unit: 'column', perColumn: 1, perRow: spacing.rowToColumn };
}

/** A film point in the plane of the scale: mm, or widths of a pixel where only the ratio is known. */
export const toPlane = (point: FilmPoint, scale: PlaneScale): PlanePoint =>
  planePoint(point.column * scale.perColumn, point.row * scale.perRow);

/** The inverse of `toPlane`. */
export const toFilm = (point: PlanePoint, scale: PlaneScale): FilmPoint =>
  filmPoint(point.x / scale.perColumn, point.y / scale.perRow);
