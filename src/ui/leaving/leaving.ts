import { createContext, type ReactNode } from 'react';
import type { RecordId } from '../../case/document.ts';
import type { Result } from '../../geometry/result.ts';
import type { StillPicture } from '../film-tools/film-tools.ts';
import type { Rectangle } from '../film-tools/part-drawing.ts';

/** What can leave. */
export type LeavingKind = 'snapshot' | 'record' | 'patient' | 'note' | 'table' | 'object';

/** Opens the sheet at one of its pages. */
export const OpenLeavingContext = createContext<(kind: LeavingKind) => void>(() => undefined);

/** Areas of each film that are painted black; a film that is absent has not been looked through. */
export type Covered = ReadonlyMap<RecordId, readonly Rectangle[]>;

export interface PictureChoice {
  /** In the order of the case; one or more. */
  readonly films: readonly RecordId[];
  /** The whole film, or the part that is on the plate. */
  readonly part: 'whole' | 'on-plate';
  readonly marks: boolean;
  readonly labels: boolean;
  readonly words: boolean;
  readonly ground: 'paper' | 'white' | 'dark';
}

/** Everything that is chosen in the sheet; each page of it uses its own. */
export interface LeavingChoice {
  readonly kind: LeavingKind;
  readonly picture: PictureChoice;
  readonly format: 'png' | 'svg';
  readonly withPicture: boolean;
  /** The film that a record pictures beside the one on the plate, at the same scale where both have one. */
  readonly beside: RecordId | null;
  readonly withName: boolean;
  readonly withDay: boolean;
  readonly language: 'en' | 'de';
  readonly clinicWords: string;
  readonly table: 'readings' | 'comparisons' | 'json';
  readonly object: 'report' | 'presentation' | 'capture';
  readonly identity: 'without' | 'matching';
}

/** One attribute of a DICOM object, and what was done to it on the way out. */
export interface AttributeRow {
  readonly path: string;
  readonly tag: string;
  /** What leaves; '' where nothing does. */
  readonly value: string;
  readonly fate: 'kept' | 'replaced' | 'emptied' | 'left out' | 'added';
}

export interface ShownPicture {
  readonly url: string;
  readonly width: number;
  readonly height: number;
}

/** Exactly what leaves, to be looked at. */
export type Preview =
  | { readonly kind: 'picture'; readonly picture: ShownPicture }
  | { readonly kind: 'pages'; readonly pages: readonly ReactNode[] }
  | { readonly kind: 'text'; readonly text: string }
  | {
      readonly kind: 'table';
      readonly columns: readonly { readonly name: string; readonly meaning: string }[];
      readonly rows: readonly (readonly string[])[];
    }
  | {
      readonly kind: 'object';
      readonly attributes: readonly AttributeRow[];
      /** What of the case is not in it, as sentences. */
      readonly notes: readonly string[];
      /** Where the object is a picture. */
      readonly picture: ShownPicture | null;
    };

/** Something that is ready to leave. */
export interface Leaving {
  readonly preview: Preview;
  /** What the button does: "Save PNG", "Copy". */
  readonly verb: string;
  /** Null where it is copied. */
  readonly file: { readonly name: string; readonly bytes: number } | null;
  /**
   * Lets it leave.
   *
   * @param looked - Somebody looked at its picture and found nobody named.
   * @returns What happened, as a sentence.
   */
  carryOut(looked: boolean): Promise<string>;
  /** Gives back what the preview holds. */
  release(): void;
}

export type Prepared =
  | { readonly ready: true; readonly leaving: Leaving }
  /** Why not and what can leave instead. */
  | { readonly ready: false; readonly sentence: string };

export interface LeavingActions {
  prepare(choice: LeavingChoice, covered: Covered): Promise<Prepared>;
  /** Where letters may be burned into a film. Fails with `no-pixels` where the film is not here. */
  findText(filmId: RecordId): Promise<Result<readonly Rectangle[], { readonly kind: 'no-pixels' }>>;
  still(filmId: RecordId): Promise<StillPicture | null>;
}

export interface LeavingFilm {
  readonly id: RecordId;
  /** In the case, from 1. */
  readonly number: number;
  /** "Lateral view, right hand (injured hand), day 3 after the injury." */
  readonly sentence: string;
  readonly invented: boolean;
}

/** The films whose pixels leave with a choice; none for a text. */
export function filmsShown(choice: LeavingChoice, chosen: RecordId | null): readonly RecordId[] {
  const one = chosen === null ? [] : [chosen];
  switch (choice.kind) {
    case 'snapshot':
      return choice.picture.films;
    case 'record':
      return choice.withPicture
        ? [...new Set([...one, ...(choice.beside === null ? [] : [choice.beside])])]
        : [];
    case 'object':
      return choice.object === 'capture' ? one : [];
    case 'patient':
    case 'note':
    case 'table':
      return [];
  }
}
