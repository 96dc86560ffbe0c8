import type { Action, CaseState } from '../case/history.ts';

/** Keeps the case on this computer. What it fails to do it shows in the state, never by throwing. */
export interface CaseKeeper {
  /** Keeps one action that was just done; what is on screen counts as saved once it is written. */
  keep(state: CaseState, action: Action): void;
  /** Keeps another case from now on, beginning with this state. */
  begin(state: CaseState): Promise<void>;
  /** The case that was on screen last, or null when there is none. */
  last(): Promise<CaseState | null>;
  keepFilm(sha256: string, bytes: ArrayBuffer): Promise<void>;
  filmBytes(sha256: string): Promise<ArrayBuffer | null>;
}
