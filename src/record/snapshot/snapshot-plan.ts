import type { RecordId } from '../../case/document.ts';
import type { MarkedFilm } from '../../case/film-marks.ts';
import type { DrawCommand } from '../../drawing/draw-command.ts';
import type { PlaneScale } from '../../geometry/spacing.ts';
import type { SnapshotContent } from './content.ts';
import type { FilmArea } from './film-picture.ts';
import type { Ground, Palette } from './ground.ts';

/** What the user wants in a snapshot. */
export interface SnapshotChoice {
  /** One film with its panel beside it, or several as a figure, in this order. */
  readonly films: readonly { readonly id: RecordId; readonly area: FilmArea | null }[];
  /** Axes, the angle between them and the scale bar. */
  readonly marks: boolean;
  /** Numbers and words on the film. */
  readonly labels: boolean;
  /** Readings, limits and cautions beside the film. */
  readonly words: boolean;
  readonly ground: Ground;
  /** It will be looked at small, as beside the text of a page: marks and numbers are drawn large on it. */
  readonly small?: boolean;
}

/** A snapshot ready to be drawn. All lengths in px of the finished picture. */
export interface SnapshotPlan {
  readonly width: number;
  readonly height: number;
  readonly palette: Palette;
  readonly films: readonly PlannedFilm[];
  readonly panels: readonly {
    readonly x: number;
    readonly y: number;
    /** Drawn on the ground, without casing; in units of `strokeScale` px from the panel's own corner. */
    readonly commands: readonly DrawCommand[];
  }[];
  /** Px per drawing unit: text and strokes keep their proportion to films of any size. */
  readonly strokeScale: number;
  /** Of all films alike, along rows and columns; null where millimetres are not known or not the same for all. */
  readonly pixelsPerMm: number | null;
}

/** Where a film goes; it is drawn upright, as stored. */
export interface PlannedFilm {
  readonly id: RecordId;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  /** Drawn over the film, clipped to it, with a dark casing; in units of `strokeScale` px from its corner. */
  readonly marks: readonly DrawCommand[];
}

/** A film of the choice with what the layout needs to know of it. */
export interface FilmToPlan {
  readonly marked: MarkedFilm;
  readonly content: SnapshotContent;
  readonly area: FilmArea;
  readonly plane: PlaneScale;
}
