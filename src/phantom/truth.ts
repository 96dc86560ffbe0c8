import type { FilmPoint } from '../geometry/units.ts';
import type { InventedFilmSpec, PhantomRay } from './spec.ts';

/**
 * What is known of an invented film because it was invented. Points are in film coordinates (pixels, centre
 * of the first pixel at (0.5, 0.5)), lengths in millimetres of the bone itself, angles in degrees.
 */

/** A directed line on the film, from proximal to distal. */
export interface TruthAxis {
  readonly from: FilmPoint;
  readonly to: FilmPoint;
}

/** Where a ray's own directions point on the film; (0, 0) where they point along the beam. */
export interface FilmDirection {
  readonly columns: number;
  readonly rows: number;
}

/** One metacarpal, broken or not. */
export interface RayTruth {
  readonly ray: PhantomRay;
  /** Middle of the base's joint surface. */
  readonly base: FilmPoint;
  /** Centre of the head's ball. */
  readonly headCentre: FilmPoint;
  readonly headRadiusMm: number;
  /** The ball's radius on the film, in pixels (pixels are square). */
  readonly headRadiusPixels: number;
  /** Joint surface to joint surface along the straight line, before any injury. */
  readonly intactLengthMm: number;
  /** The same after the injury; equal to `intactLengthMm` if there is none. */
  readonly lengthMm: number;
  /** Unit vector of the ray's dorsal side on the film, scaled by how much of it lies in the film's plane. */
  readonly dorsal: FilmDirection;
  readonly radial: FilmDirection;
  /**
   * Axis of the proximal part and of the distal part. In a broken bone they are those of the fragments. In
   * an unbroken one they are drawn as if the neck were broken, so that the other hand gives the normal.
   */
  readonly proximalAxis: TruthAxis;
  readonly distalAxis: TruthAxis;
  /** Angle between the two axes as drawn on the film, 0 to 180. */
  readonly projectedAngleDegrees: number;
  /** Angle between the two axes in space. */
  readonly spatialAngleDegrees: number;
  /** The open growth plate of a young hand; left out where there is none. Not the break, and not part of any angle. */
  readonly growthPlate?: {
    readonly end: 'base' | 'head';
    /** Its middle on the film, where it lies after the injury. */
    readonly middle: FilmPoint;
    /** Thickness of the cartilage along the bone. */
    readonly thicknessMm: number;
  };
  /** How the two axes were made. */
  readonly axesBy: 'fragment-centrelines' | 'shaft-and-head-centre' | 'short-base-fragment';
}

export interface FractureTruth {
  readonly ray: PhantomRay;
  readonly region: 'head' | 'neck' | 'shaft' | 'base';
  /** Middle of the break from the base, as a share of the intact length. */
  readonly level: number;
  /** Middle of the proximal fragment's broken surface, and of the distal fragment's. */
  readonly proximalBrokenEnd: FilmPoint;
  readonly distalBrokenEnd: FilmPoint;
  /** Where the two axes, prolonged, cross on the film; null when they are within 1° of parallel. */
  readonly apex: FilmPoint | null;
  readonly projectedAngleDegrees: number;
  readonly spatialAngleDegrees: number;
  /** Angle between the axes within the ray's own sagittal and coronal plane; apex dorsal and apex radial positive. */
  readonly apexDorsalDegrees: number;
  readonly apexRadialDegrees: number;
  /** How far the distal fragment was swung about its hinge; turn about its own axis not counted. */
  readonly fragmentTurnDegrees: number;
  readonly fragmentTurnDorsalDegrees: number;
  readonly fragmentTurnRadialDegrees: number;
  /**
   * Angle between the axes in space less the fragment's swing: the bow of the shaft and the tilt of the neck,
   * which are part of every reading although nothing was broken there.
   */
  readonly axesLessTurnDegrees: number;
  readonly axialTurnDegrees: number;
  readonly shorteningAppliedMm: number;
  /** Loss of straight length, base to head, from turning and shortening together. */
  readonly lengthLostMm: number;
  readonly translationDorsalMm: number;
  readonly translationRadialMm: number;
}

export interface KnownObjectTruth {
  readonly shape: 'ball' | 'disc';
  readonly diameterMm: number;
  readonly centre: FilmPoint;
  /** Diameter on the film, in pixels, across the direction of the film's centre. */
  readonly diameterPixels: number;
  readonly magnification: number;
}

export interface MarkerGridTruth {
  readonly pitchMm: number;
  readonly diameterMm: number;
  /** The discs lie on the detector itself: nothing magnifies them. */
  readonly plane: 'detector';
  /** From one disc to the next on the film, along rows and columns. */
  readonly pitchPixels: number;
  /** The disc under the tube; the others stand whole pitches from it. */
  readonly centre: FilmPoint;
  /** How many stand in a row and in a column: those that lie wholly on the film. */
  readonly columns: number;
  readonly rows: number;
}

export interface FilmTruth {
  readonly invented: true;
  /** The number from which all chance of this film was drawn. */
  readonly filmSeed: number;
  readonly spec: InventedFilmSpec;
  readonly columns: number;
  readonly rows: number;
  /** Pitch of the detector. */
  readonly pitchMm: number;
  /** The spacing that the film states, and the plane in which it holds. */
  readonly statedSpacingMm: number;
  readonly statedPlane: 'detector' | 'patient';
  /** Magnification at the middle of the first broken bone, else of the middle metacarpal. 1 in a parallel beam. */
  readonly magnification: number;
  readonly side: 'left' | 'right';
  readonly view: 'pa' | 'oblique' | 'lateral';
  readonly rays: readonly RayTruth[];
  readonly fractures: readonly FractureTruth[];
  readonly knownObject: KnownObjectTruth | null;
  /** Left out where there is none. */
  readonly markerGrid?: MarkerGridTruth;
}
