import { CASING_EDGE } from '../../drawing/strokes.ts';

/** Width of the casing under a stroke of this width: a picture is looked at small, so wide strokes get more. */
export const casingWidth = (width: number): number => width + 2 * Math.max(CASING_EDGE, 0.4 * width);

/** Width of the casing round a text of this size. */
export const textCasingWidth = (size: number): number => Math.max(3, 0.2 * size);
