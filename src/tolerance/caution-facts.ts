import type { Spacing } from '../geometry/spacing.ts';
import type { AgeGroup, Pattern, Ray, Region, View } from './anatomy.ts';
import type { Outcome } from './compare.ts';

/** What `cautionsFor` needs to know; nothing of it is looked up elsewhere. Null: not said. */
export interface CautionFacts {
  readonly injury: InjuryFacts;
  /** Answers by check id (checks.ts). An absent answer is a check not made. */
  readonly answers: Readonly<Record<string, 'yes' | 'no'>>;
  /** All films of the case, of the injured hand and of the other one. */
  readonly films: readonly FilmFacts[];
  readonly readings: readonly ReadingFacts[];
  /** How the last film of each series of readings stands to an earlier one. */
  readonly changes: readonly ChangeFacts[];
}

export interface InjuryFacts {
  readonly ray: Ray | null;
  readonly region: Region | null;
  readonly pattern: Pattern | null;
  readonly ageGroup: AgeGroup | null;
}

export interface FilmFacts {
  /** As the caption names it, e.g. "film of day 3". */
  readonly name: string;
  readonly hand: 'injured' | 'other';
  readonly view: View | null;
  readonly spacing: Spacing;
  /** The axes placed on it; empty: nothing is read from it. */
  readonly axes: readonly AxisFacts[];
  readonly burnedIn: boolean | null;
  readonly lossy: boolean | null;
  /** Whether the film is shown mirrored. */
  readonly mirrored: boolean;
  /** The hand that the file says it shows. */
  readonly statedSide: 'L' | 'R' | 'B' | 'U' | null;
  /** The hand that the case says it shows: the injured one, or the opposite for the other hand. */
  readonly expectedSide: 'left' | 'right' | null;
  readonly invented: boolean;
  /** How many pixels lie between the points placed farthest apart on the bone; null: none placed. */
  readonly reachPixels: number | null;
  /** A photograph taken at a slant and left so; by how much an angle may be wrong, null: not measured. */
  readonly slant: { readonly upToDegrees: number | null } | null;
}

export interface AxisFacts {
  /** As the worksheet names it, e.g. "distal axis". */
  readonly name: string;
  /** From one end of the built axis to the other (for a head, broken end to centre); null without millimetres. */
  readonly lengthMm: number | null;
  /** Its length divided by the placing error in the same unit; null when the error is not known in that unit. */
  readonly lengthInPlacingErrors: number | null;
}

/** One angulation reading with all it was compared with. */
export interface ReadingFacts {
  /** Where the normal came from; null: none was taken off. */
  readonly normalFrom: 'other-hand' | 'published' | 'zero' | null;
  /** Sentence from `publishedNormal`: how the norm was drawn otherwise; null: alike, or not from a table. */
  readonly normalMismatch: string | null;
  /** The spread of the norm is our assumption, not the publication's. */
  readonly normalSpreadAssumed: boolean;
  /** Whether the dorsal (or radial) side has been marked. */
  readonly signed: boolean;
  /** One for each chosen limit set. */
  readonly comparisons: readonly ComparisonFacts[];
}

interface ComparisonFacts {
  readonly limitSetTitle: string;
  readonly population: AgeGroup;
  readonly outcome: Outcome;
  /** Sentence from `limitMethodMismatch`; null: alike, or the source does not say. */
  readonly methodMismatch: string | null;
}

/** The change of one quantity in one view, from the last reduction (or the first film) to the last film. */
export interface ChangeFacts {
  /** "Deformity, lateral view". */
  readonly what: string;
  readonly since: 'reduction' | 'first-film';
  readonly fromFilm: string;
  readonly toFilm: string;
  /** `worse` and `better` lie beyond the smallest change that the two uncertainties let one tell. */
  readonly verdict: 'worse' | 'better' | 'not-told' | 'drawn-differently';
  /** The change in words, to be read after the films: "12° more: a change, farther out of line". */
  readonly words: string;
}
