import { createContext } from 'react';
import type { FilmRecord, MarkRecord } from '../../case/document.ts';
import type { Corners } from '../../geometry/homography.ts';
import type { SpacingPlane } from '../../geometry/spacing.ts';
import type { View } from '../../tolerance/anatomy.ts';
import type { PlacingState } from '../worksheet/MarkLine.tsx';
import type { Rectangle } from './part-drawing.ts';

/** A still picture to draw parts on. */
export interface StillPicture {
  /** Object URL; whoever asked for it revokes it. */
  readonly url: string;
  /** Size of the whole picture in its own pixels, whatever size the still has. */
  readonly columns: number;
  readonly rows: number;
}

/** What the film tools can ask for. */
export interface FilmToolActions {
  /**
   * Makes the object that is placed the scale of the film. Texts are as typed.
   *
   * @returns Why not, as a sentence; null when it is done.
   */
  setScale(size: string, giveOrTake: string, plane: SpacingPlane): Promise<string | null>;
  /** Makes the second object that is placed part of the scale, in the plane of the first; as `setScale`. */
  addKnownLength(size: string, giveOrTake: string): Promise<string | null>;
  useFilesScale(): void;
  divideByMagnification(): void;
  /** Another picture of the same file, as a further film; counted from 0. */
  addPicture(frame: number): void;
  /** The whole picture that the film is a part of, as a further film. */
  addWhole(): void;
  still(): Promise<StillPicture | null>;
  split(parts: readonly Rectangle[]): void;
  straighten(corners: Corners, widthToHeight: number): void;
  /** A photograph at a slant that is left so: up to how many degrees an angle may be wrong; null: not measured. */
  leaveSlanted(upToDegrees: number | null): void;
  notSlanted(): void;
}

/** All that the film tools show beside the film's record. */
export interface FilmToolsState {
  readonly injuredHand: 'left' | 'right' | null;
  /** The object of known size placed on this film. */
  readonly object: MarkRecord | null;
  /** The second one, which the scale may rest on too. */
  readonly furtherObject: MarkRecord | null;
  readonly placing: PlacingState | null;
  /** The view that the file states; null: none of the three, or nothing. */
  readonly statedView: View | null;
  /** (0020,0020) Patient Orientation as the file has it. */
  readonly orientation: readonly string[] | null;
  /** How many pictures the file holds. */
  readonly frames: number;
  readonly hasMarks: boolean;
  readonly actions: FilmToolActions;
}

/** Null where no film is shown. */
export const FilmToolsContext = createContext<FilmToolsState | null>(null);

/** Whether a film may be a photograph: pictures, and whatever states no millimetres. */
export const maybePhotograph = ({ spacing, scale, format }: FilmRecord): boolean =>
  format !== 'dicom' || (scale?.inFile ?? spacing).kind === 'ratio';
