/** A film that was found and can be added. */
export interface FoundFilm {
  readonly id: string;
  /** The file's name with the folders it lay in. */
  readonly name: string;
  /** Kind and size: "DICOM, CR · 1760 × 1760 pixels". */
  readonly kind: string;
  /** What the file says of view and side; null when it says nothing. */
  readonly stated: string | null;
  /** Object URL of a small picture. */
  readonly thumbnail: string;
  /** A file can hold several pictures; `frame` is counted from 0. */
  readonly frames: number;
  readonly frame: number;
  /** "patient A"; null when there is nothing to tell apart. */
  readonly patient: string | null;
  readonly inCase: boolean;
  readonly chosen: boolean;
}

export interface LeftOut {
  readonly name: string;
  /** A sentence. */
  readonly reason: string;
}

/** What was found, as far as it has been looked through. */
export interface Found {
  readonly films: readonly FoundFilm[];
  readonly leftOut: readonly LeftOut[];
  readonly looked: number;
  readonly of: number;
  /** How many of the chosen films are read while they are on their way into the case; null: none is. */
  readonly adding: number | null;
  /** The films name more than one patient, or another one than those of the case do. */
  readonly patientsDiffer: boolean;
}

export interface FoundActions {
  choose(id: string, on: boolean): void;
  chooseAll(on: boolean): void;
  setFrame(id: string, frame: number): void;
  /** Puts the chosen films into the case and closes the list. */
  add(): void;
  close(): void;
}
