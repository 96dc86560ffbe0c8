import type { FilmPoint } from '../geometry/units.ts';
import type { FragmentName, OutlineSide } from './request.ts';

/** One point of a found outline. */
export interface OutlinePoint {
  readonly at: FilmPoint;
  /** 0 nothing to be seen here, 1 a plain cortex; a corrected point is 1. */
  readonly confidence: number;
  readonly corrected: boolean;
}

/** The found axis as an ordinary mark would hold it; same names as the shapes of a case. */
export type TracedShape =
  | {
      readonly construction: 'cortex-pair';
      /** From proximal to distal. The line through their mid-points is the traced axis. */
      readonly levels: readonly { readonly one: FilmPoint; readonly other: FilmPoint }[];
    }
  | {
      readonly construction: 'head';
      /** On the found circle. */
      readonly rim: readonly FilmPoint[];
      readonly brokenEnd: FilmPoint;
    };

export interface TracedFragment {
  /** From proximal to distal. */
  readonly axis: { readonly from: FilmPoint; readonly to: FilmPoint };
  /** Outlines to the left and to the right of somebody walking along the axis; empty for a head without a neck to see. */
  readonly one: readonly OutlinePoint[];
  readonly other: readonly OutlinePoint[];
  readonly shape: TracedShape;
  /**
   * One standard deviation of the axis's direction: the farther half of its 95 % interval over 1.96, so that whoever
   * takes it for a normal deviate gets at least that interval back.
   */
  readonly directionUncertaintyDegrees: number;
}

/** The other thing the film may show. */
export interface SecondReading {
  readonly turnDegrees: number;
  /** How much of the belief it holds, 0 to 0.5. */
  readonly share: number;
  readonly proximal: TracedFragment;
  readonly distal: TracedFragment;
}

/** Why a trace is not to be trusted without a look. */
export type Doubt =
  | {
      /** Another outline runs beside the one followed, and may be the bone's. */
      readonly kind: 'parallel-outlines';
      readonly fragment: FragmentName;
      readonly otherTurnDegrees: number;
      readonly share: number;
    }
  | {
      /** The fragment's axis rests on points that lie close together. */
      readonly kind: 'short-lever';
      readonly fragment: FragmentName;
      readonly leverMm: number;
      readonly wantedMm: number;
    }
  | {
      /** The broken end lies within the head's outline: the fragment points towards the beam. */
      readonly kind: 'end-on';
      readonly fragment: FragmentName;
      readonly leverMm: number;
      readonly headRadiusMm: number;
    }
  | {
      readonly kind: 'weak-outline';
      readonly fragment: FragmentName;
      readonly side: OutlineSide;
      /** Mean over the outline; about 1 on a plain cortex. */
      readonly strength: number;
      readonly wanted: number;
    }
  | {
      /** Much of the bone lies at an end of the picture's grey scale, where edges are lost. */
      readonly kind: 'grey-scale-cut-off';
      readonly share: number;
    }
  | {
      /** The film has no scale; sizes were judged by the length of the bone. */
      readonly kind: 'scale-guessed';
      readonly mmPerColumn: number;
    }
  | {
      /** Bone is darker than flesh, which the film does not say of itself; it was traced turned over. */
      readonly kind: 'negative';
      /** Whether that is plain; if not, the reading is not sure. */
      readonly plain: boolean;
    }
  | {
      readonly kind: 'wide-interval';
      readonly halfWidthDegrees: number;
      readonly limitDegrees: number;
    };

/** What the tracer found. */
export interface TracedBone {
  readonly proximal: TracedFragment;
  readonly distal: TracedFragment;
  /** Turn from the proximal to the distal axis, clockwise as displayed; its size is the angle between the axes. */
  readonly turnDegrees: number;
  /** Holds the true turn 95 times in 100 on invented films made otherwise than those it was set on. */
  readonly interval: { readonly from: number; readonly to: number };
  readonly second: SecondReading | null;
  /** False: show it as not sure, with the doubts. */
  readonly sure: boolean;
  readonly doubts: readonly Doubt[];
  /** What the uncertainties rest on, in words. */
  readonly basis: string;
}

/** Why there is no trace. */
export type TraceFailure =
  | { readonly kind: 'tap-off-film'; readonly tap: 'base' | 'proximalEnd' | 'distalEnd' | 'headEnd' }
  | {
      readonly kind: 'taps-too-close';
      readonly fragment: FragmentName;
      readonly lengthMm: number;
      readonly neededMm: number;
    }
  | { readonly kind: 'film-too-coarse'; readonly pixelMm: number; readonly neededMm: number }
  | { readonly kind: 'blank-film'; readonly fragment: FragmentName }
  | {
      readonly kind: 'no-outlines';
      readonly fragment: FragmentName;
      /**
       * What fell short: the strength of the best outlines or head (about 1 on a plain cortex), how far rows
       * agree along the fragment (0 in noise), or the belief in the best account (0 to 1).
       */
      readonly measure: 'strength' | 'coherence' | 'belief';
      readonly found: number;
      readonly needed: number;
    }
  | {
      readonly kind: 'correction-out-of-reach';
      /** Index among the request's corrections. */
      readonly index: number;
      readonly distanceMm: number;
    }
  /** What is likeliest has no outline on that side, or another corrected point in the same place has the say. */
  | { readonly kind: 'correction-not-followed'; readonly index: number };
