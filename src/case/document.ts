import type { FilmPart } from '../geometry/film-part.ts';
import type { Spacing, SpacingPlane } from '../geometry/spacing.ts';
import type { Brand, FilmPoint } from '../geometry/units.ts';
import type { AgeGroup, Pattern, Ray, Region, View } from '../tolerance/anatomy.ts';
import type { Milestone } from '../tolerance/milestones.ts';

/**
 * The case: one injury of one hand, as an immutable set of records by id.
 *
 * Everything the user says or places is a record; everything else is derived by `assess`. Points are in
 * film coordinates, so that setting the scale anew moves none. Zoom, brightness and selection are view
 * state and live elsewhere.
 */
export interface CaseDocument {
  readonly id: CaseId;
  readonly records: Readonly<Record<RecordId, CaseRecord>>;
}

export type CaseId = Brand<string, 'case-id'>;
export type RecordId = Brand<string, 'record-id'>;
export const caseId = (id: string): CaseId => id as CaseId;
export const recordId = (id: string): RecordId => id as RecordId;

export type CaseRecord = InjuryRecord | ExaminationRecord | SettingsRecord | FilmRecord | MarkRecord;

/** There is one of each of these per case; their ids are fixed. */
export const INJURY_ID = recordId('injury');
export const EXAMINATION_ID = recordId('examination');
export const SETTINGS_ID = recordId('settings');

export interface InjuryRecord {
  readonly kind: 'injury';
  readonly id: RecordId;
  /** The user's own name for the case; never taken from a film. */
  readonly label: string;
  readonly hand: 'left' | 'right' | null;
  readonly ray: Ray | null;
  readonly region: Region | null;
  readonly pattern: Pattern | null;
  readonly ageGroup: AgeGroup | null;
  /** The calendar day, ISO 8601 ("2026-03-01"), only if the user wants dates beside the days; null: days alone. */
  readonly date: string | null;
}

/** Answers by check id (tolerance/checks.ts). A check that is absent was not made, and says so. */
export interface ExaminationRecord {
  readonly kind: 'examination';
  readonly id: RecordId;
  readonly answers: Readonly<Record<string, 'yes' | 'no'>>;
}

export interface SettingsRecord {
  readonly kind: 'settings';
  readonly id: RecordId;
  /** The first is the one the outcome in words belongs to. */
  readonly limitSetIds: readonly string[];
  /** Where the normal comes from; `best` takes the other hand, else the published one, else zero. */
  readonly normal: 'best' | 'other-hand' | 'published' | 'zero';
  /** One standard deviation per coordinate, in mm; null: the assumption of 0.5 mm. */
  readonly placingErrorMm: number | null;
  /** Of the repeats that `placingErrorMm` was estimated from; null: it was typed in, and is taken as known. */
  readonly placingErrorDegreesOfFreedom: number | null;
  /** The milestones of this case, as the user has them; null: the suggested ones (tolerance/milestones.ts). */
  readonly milestones: readonly Milestone[] | null;
}

/**
 * What a picture of the case shows: bones, as a radiograph, or the half-closed fist, as a photograph. On a
 * photograph nothing is measured but what supports the check of rotation.
 */
export const SUBJECTS = ['bones', 'fist'] as const;
export type Subject = (typeof SUBJECTS)[number];

/** When a film was taken in the course of treatment. */
export const MOMENTS = ['before-reduction', 'after-reduction', 'follow-up'] as const;
export type Moment = (typeof MOMENTS)[number];

export interface FilmRecord {
  readonly kind: 'film';
  readonly id: RecordId;
  /** SHA-256 of the file's bytes, lower-case hex; the film's bytes are kept under it. */
  readonly sha256: string;
  readonly format: 'dicom' | 'png' | 'jpeg';
  readonly columns: number;
  readonly rows: number;
  readonly shows: Subject;
  /** Which hand the film shows: the injured one or the other, for comparison. */
  readonly hand: 'injured' | 'other';
  /** The finger that was measured on a film of the other hand. Absent: the broken one. */
  readonly ray?: Ray;
  /** Null: not said; a photograph of the fist has none. */
  readonly view: View | null;
  /** Whether the view was read from the file or set by the user. */
  readonly viewFrom: 'file' | 'user' | null;
  /**
   * How far the hand was turned from the PA position for this film, palm turning up: 0 is PA, 90 lateral, less a
   * pronated oblique, more a supinated one. Degrees in [0, 180]. Absent: as the view says, and not known for an
   * oblique.
   */
  readonly turnDegrees?: number;
  /** Whole days since the injury; null: not said. */
  readonly day: number | null;
  /** Two films of one day can lie before and after a reduction; null: not said. */
  readonly moment: Moment | null;
  readonly spacing: Spacing;
  readonly invented: boolean;
  /** Compressed with loss, as far as the file says. */
  readonly lossy: boolean | null;
  /** Text burned into the picture, as far as the file says. */
  readonly burnedIn: boolean | null;
  /** The file's own statements about view and side, offered to the user. */
  readonly stated: {
    readonly viewPosition: string | null;
    readonly laterality: 'L' | 'R' | 'B' | 'U' | null;
  };
  /** The user said that the film is shown mirrored. */
  readonly mirrored: boolean;
  /** Which picture of its file the film is, and which part of it. Absent: the whole of the first one. */
  readonly place?: FilmPlace;
  /** How the user set the scale; `spacing` is then what follows from it. Absent: `spacing` is the file's. */
  readonly scale?: FilmScale;
  /** A photograph taken at a slant and left so. Absent: not said. */
  readonly slant?: {
    /** By how many degrees an angle on it may be wrong, from the corners the user marked; null: not measured. */
    readonly upToDegrees: number | null;
  };
}

export interface FilmPlace {
  /** Of a file that holds several pictures, counted from 0. */
  readonly frame: number;
  /** Null: the whole picture. Marks are in pixels of the part. */
  readonly part: FilmPart | null;
}

/** The size of an object on a film. */
export interface KnownLength {
  readonly sizeMm: number;
  /** One standard deviation of that size as a share of it. */
  readonly sizeRelativeUncertainty: number;
  /** As the user typed it, e.g. "24 mm". */
  readonly typed: string;
}

/** A scale that the user set. */
export type FilmScale = {
  /** What the file says, to go back to. */
  readonly inFile: Spacing;
} & (
  | (KnownLength & {
      /** By the mark in the role `scale-object`. */
      readonly from: 'object';
      /** Where the object lay. */
      readonly plane: SpacingPlane;
      /** A second one in the same plane, by the mark in the role `scale-object-2`; the scale rests on both. */
      readonly further?: KnownLength;
    })
  | {
      /** The file's spacing divided by the magnification that the file estimates. */
      readonly from: 'magnification';
      readonly factor: number;
    }
);

/** What a mark is for; the tools that place marks know shapes only. */
export type MarkRole =
  | 'proximal-axis'
  | 'distal-axis'
  | 'dorsal-side'
  | 'radial-side'
  | 'fracture-level'
  | 'length'
  | 'reference-length'
  | 'head-line'
  | 'head-point'
  | 'fracture-tips'
  | 'joint-surface'
  | 'joint-edges'
  | 'scale-object'
  | 'scale-object-2'
  | 'finger-nail'
  | 'reference-nail'
  | 'neighbour-nail'
  | 'covering-edge';

/** A mark's geometry. Levels and ends run from proximal to distal as placed. */
export type MarkShape =
  | { readonly construction: 'free'; readonly from: FilmPoint; readonly to: FilmPoint }
  | {
      readonly construction: 'cortex-pair' | 'canal';
      /** Two points across the bone at each level, outer cortices or inner ones. Two levels or more. */
      readonly levels: readonly { readonly one: FilmPoint; readonly other: FilmPoint }[];
    }
  | { readonly construction: 'dorsal-cortex'; readonly points: readonly FilmPoint[] }
  | {
      readonly construction: 'head';
      /** Three points or more on the rim of the head. */
      readonly rim: readonly FilmPoint[];
      /** Middle of the broken end of the distal fragment. */
      readonly brokenEnd: FilmPoint;
    }
  | {
      readonly construction: 'circle';
      /** Three points or more on the rim of a round object. */
      readonly rim: readonly FilmPoint[];
    }
  | { readonly construction: 'point'; readonly at: FilmPoint }
  | { readonly construction: 'segment'; readonly from: FilmPoint; readonly to: FilmPoint };

export type Provenance = 'placed' | 'traced' | 'traced-and-corrected';

/** How sure the tracer is of an axis it found. */
export interface Tracing {
  /** One standard deviation of the axis's direction. */
  readonly directionUncertaintyDegrees: number;
  /** What that rests on, e.g. "calibrated on 400 invented films". */
  readonly basis: string;
}

export interface MarkRecord {
  readonly kind: 'mark';
  readonly id: RecordId;
  readonly filmId: RecordId;
  readonly role: MarkRole;
  readonly shape: MarkShape;
  readonly provenance: Provenance;
  /** Only while the mark stands as the tracer found it; a correction by hand drops it. */
  readonly tracing?: Tracing;
}

/** One atomic change of one record. Whole records; null means absent. */
export interface Step {
  readonly id: RecordId;
  readonly before: CaseRecord | null;
  readonly after: CaseRecord | null;
}

/** What one user action did. `label` completes "Undo …", e.g. "move distal axis". */
export interface Transaction {
  readonly label: string;
  /** ISO 8601, from the shell. */
  readonly at: string;
  readonly steps: readonly Step[];
}
