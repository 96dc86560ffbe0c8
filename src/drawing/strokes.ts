/** How a mark is drawn: what it is for decides its style, except where a whole film of marks is somebody else's. */
export type MarkStyle = 'proximal' | 'distal' | 'reference' | 'observer';

export interface StrokeStyle {
  readonly colour: string;
  /** CSS pixels before the theme's factor. */
  readonly width: number;
  readonly dash: readonly number[];
  readonly cap: 'butt' | 'square' | 'round';
  readonly handle: 'square' | 'ring';
}

/** Orange and sky blue are told apart in every common form of colour blindness; line and handle repeat it. */
export const STROKES: Readonly<Record<MarkStyle, StrokeStyle>> = {
  proximal: { colour: '#E69F00', width: 2, dash: [], cap: 'square', handle: 'square' },
  distal: { colour: '#56B4E9', width: 2, dash: [7, 5], cap: 'round', handle: 'ring' },
  reference: { colour: '#FFFFFF', width: 1.5, dash: [0.1, 4.5], cap: 'round', handle: 'ring' },
  observer: { colour: '#FFFFFF', width: 0.75, dash: [], cap: 'butt', handle: 'ring' },
};

/** Lines that help to read a mark and measure nothing: across the bone, round the head, extensions. */
export const FINE = { width: 1.5, dash: [4, 4] } as const;
export const CASING_COLOUR = 'rgba(8, 10, 12, 0.55)';
/** Figures are finer than strokes, and need more of it on white bone. */
export const TEXT_CASING_COLOUR = 'rgba(8, 10, 12, 0.72)';
/** CSS pixels that the casing shows on either side of a stroke. */
export const CASING_EDGE = 1;
export const INK = '#FFFFFF';
export const SOFT_INK = '#D5D9DC';

/** Half the size of a control point, CSS pixels; its middle stays open so that the bone is seen through it. */
export const HANDLE_RADIUS = 5;
export const HANDLE_RADIUS_FOCUSED = 8;

/** How much wider strokes and larger text are than on the plate of a reading room. */
export interface StrokeScale {
  readonly stroke: number;
  readonly text: number;
}
export const READING: StrokeScale = { stroke: 1, text: 1 };
/** The projector theme: strokes twice as wide, text half as large again. */
export const PROJECTOR: StrokeScale = { stroke: 2, text: 1.5 };
