import type { HeadCircle } from './head.ts';
import type { Stretch } from './outlines.ts';
import type { FrameLine, Pair } from './pairs.ts';
import type { Frame, Strip } from './strip.ts';

/** One account of where a fragment lies, with what speaks for and against it. */
export interface Hypothesis {
  readonly frame: Frame;
  /** The fragment's axis. */
  readonly line: FrameLine;
  /** Direction of the axis in the plane, radians, from proximal to distal. */
  readonly direction: number;
  /** Variance of the direction, rad², for an error of 1 mm in the places it rests on; of a neck, for their stated errors. */
  readonly leverVariance: number;
  /** Variance of the direction from the unevenness of the outlines, rad²; of a neck, from how ill its places fit one line. */
  readonly unevenVariance: number;
  /** Variance of the direction from the taps' own error, rad²; 0 where no tap takes part. */
  readonly tapVariance: number;
  /** Numbers that a trained score weighs; `features` of `shaft.ts` and `account` of `neck.ts` say what each is. */
  readonly features: readonly number[];
  readonly pair: Pair | null;
  readonly strip: Strip | null;
  readonly stretch: Stretch | null;
  readonly head: HeadCircle | null;
}

export const directionOf = (frame: Frame, lean: number): number =>
  Math.atan2(frame.directionY, frame.directionX) + Math.atan(lean);
