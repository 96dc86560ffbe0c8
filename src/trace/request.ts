import type { PlaneScale } from '../geometry/spacing.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { BonePicture } from './picture.ts';

/** Which part of the metacarpal is broken, as far as the tracer must know it: it decides what the distal axis is. */
export type TraceSite = 'shaft' | 'neck';

/** How the hand lies; decides how far bow and neck tilt may carry an axis past the taps. */
export type TraceView = 'pa' | 'oblique' | 'lateral';

/** Where the user tapped, in film coordinates. */
export interface Taps {
  /** Middle of the joint surface of the base. */
  readonly base: FilmPoint;
  /** Middle of the proximal fragment's broken end. */
  readonly proximalEnd: FilmPoint;
  /** Middle of the distal fragment's broken end. */
  readonly distalEnd: FilmPoint;
  /** Where the head ends: its most distal point. */
  readonly headEnd: FilmPoint;
}

export type FragmentName = 'proximal' | 'distal';

/**
 * Side of a fragment for somebody walking from its proximal to its distal end as displayed: `one` is to the
 * left, `other` to the right.
 */
export type OutlineSide = 'one' | 'other';

/** Two taps on the outlines of a fragment, one on each side, where bones overlap. */
export interface Bracket {
  readonly fragment: FragmentName;
  readonly one: FilmPoint;
  readonly other: FilmPoint;
}

/** A point of an outline that the user dragged to where it belongs; the outline then runs through it. */
export interface Correction {
  readonly fragment: FragmentName;
  readonly side: OutlineSide;
  readonly at: FilmPoint;
}

/** What is asked of the tracer: plain data, so that it can cross to a worker. */
export interface TraceRequest {
  readonly picture: BonePicture;
  readonly scale: PlaneScale;
  readonly taps: Taps;
  /** One standard deviation per coordinate of the taps and brackets, mm; > 0. */
  readonly tapErrorMm: number;
  readonly site: TraceSite;
  /** Null where it is not known: then the loosest expectation is used. */
  readonly view: TraceView | null;
  readonly brackets: readonly Bracket[];
  readonly corrections: readonly Correction[];
}
