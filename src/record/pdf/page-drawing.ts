import type { FaceName } from './faces.ts';

/**
 * What stands on a page, stroke by stroke as it was put into the PDF, for showing it on a screen. Points of the
 * page, from its top left corner.
 */
export type PageMark =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly x: number;
      /** Of the baseline. */
      readonly y: number;
      readonly width: number;
      readonly size: number;
      readonly face: FaceName;
      readonly colour: string;
    }
  | {
      readonly kind: 'line';
      readonly from: readonly [x: number, y: number];
      readonly to: readonly [x: number, y: number];
      readonly colour: string;
      readonly thickness: number;
      readonly dash: readonly number[];
    }
  | ({ readonly kind: 'rectangle'; readonly fill: string } & Box)
  | {
      readonly kind: 'circle';
      readonly x: number;
      readonly y: number;
      readonly radius: number;
      readonly fill: string | null;
      readonly stroke: string | null;
      readonly thickness: number;
    }
  | {
      readonly kind: 'path';
      readonly path: string;
      readonly fill: string | null;
      readonly stroke: string | null;
      readonly thickness: number;
    }
  /** The one picture of the document. */
  | ({ readonly kind: 'picture' } & Box);

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type PageDrawing = readonly PageMark[];
