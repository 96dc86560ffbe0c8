import type { ScreenPoint } from '../geometry/units.ts';

interface Stroke {
  readonly colour: string;
  /** CSS pixels. */
  readonly width: number;
  /** Lengths of dash and gap in turn, CSS pixels; empty: solid. */
  readonly dash: readonly number[];
}

/**
 * One thing to draw, in screen coordinates (CSS pixels of the plate). Every stroke and every text is drawn
 * over a dark casing, so that it reads on white bone as on black.
 */
export type DrawCommand =
  | (Stroke & {
      readonly kind: 'line';
      readonly points: readonly ScreenPoint[];
      readonly cap: 'butt' | 'square' | 'round';
    })
  | (Stroke & { readonly kind: 'circle'; readonly centre: ScreenPoint; readonly radius: number })
  | (Stroke & { readonly kind: 'square'; readonly centre: ScreenPoint; readonly half: number })
  | (Stroke & {
      readonly kind: 'arc';
      readonly centre: ScreenPoint;
      readonly radius: number;
      /** Degrees clockwise from the positive x axis, and how far it runs from there; either sign. */
      readonly startDegrees: number;
      readonly sweepDegrees: number;
    })
  | {
      readonly kind: 'text';
      readonly at: ScreenPoint;
      /** Which point of the text stands at `at`, horizontally; vertically it is the middle. */
      readonly align: 'left' | 'centre' | 'right';
      readonly runs: readonly TextRun[];
    };

/** A run of text in one size; the runs of a command follow one another on one base line. */
export interface TextRun {
  readonly text: string;
  readonly face: 'serif' | 'sans';
  readonly size: number;
  readonly colour: string;
}
