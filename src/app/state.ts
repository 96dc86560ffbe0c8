import type { PlateView } from '../canvas/plate-view.ts';
import { emptyCase } from '../case/apply.ts';
import type { CaseFile } from '../case/case-content.ts';
import type { CaseId, RecordId } from '../case/document.ts';
import { type CaseState, freshState } from '../case/history.ts';
import type { Conflict } from '../case/merge.ts';
import type { Placing } from '../case/placing.ts';
import type { Film, FirstPicture } from '../film/film.ts';
import type { Light } from '../film/grey-scale.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { Permanence } from '../storage/permanence.ts';
import type { LimitSet } from '../tolerance/limit-set.ts';
import type { ThemeChoice } from '../ui/Header.tsx';
import type { HintId } from '../ui/hints/hints.ts';
import type { Repeats } from './repeats/repeats-task.ts';
import type { TraceTask } from './tracing/trace-task.ts';

/** A mark being placed on a film. */
export interface PlacingTask {
  readonly filmId: RecordId;
  readonly placing: Placing;
  /** Points that are there already and follow the ones asked for: growing a mark does not ask for them again. */
  readonly tail: readonly FilmPoint[];
}

export interface Message {
  readonly id: number;
  readonly text: string;
  /** What can be done about it at once, by a button beside the sentence. */
  readonly action?: { readonly name: string; readonly run: () => void };
  /** The case whose film it is about, with which it goes; absent: it stays until it is put away. */
  readonly ofCase?: CaseId;
}

/** Whether what is on screen is kept on this computer. */
export type SaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'not-saved'; readonly why: string };

export type PlaceId = 'bench' | 'course' | 'classroom' | 'cases' | 'limits';

/** Two versions of one case that could not be put together in full; both are kept. */
export interface PendingConflicts {
  readonly caseId: CaseId;
  /** Under which the other version is kept as a case of its own. */
  readonly copyId: CaseId;
  readonly label: string;
  readonly conflicts: readonly Conflict[];
}

/** A coarse picture of a film that is being decoded. */
export interface ShownFirst {
  /** `pictureKey` of a film of the case; for one that may join a case, the id of that case. */
  readonly of: string;
  readonly picture: FirstPicture;
}

/** All that the app holds. The case is what is kept; everything else here is view state. */
export interface AppState {
  readonly place: PlaceId;
  readonly theme: ThemeChoice;
  readonly caseState: CaseState;
  /** Of the case's file, what this version does not know; written back as it was. */
  readonly unknownFields: CaseFile['unknownFields'];
  readonly chosenFilm: RecordId | null;
  /** The second film on the bench; see `besideOf`. */
  readonly beside: RecordId | null;
  readonly task: PlacingTask | null;
  /** Axes being traced, or proposed and not yet accepted. */
  readonly trace: TraceTask | null;
  /** While an axis is placed again and again, blind. */
  readonly repeats: Repeats | null;
  /** Local protocols kept in this browser. */
  readonly localSets: readonly LimitSet[];
  /** How each film is lit, once the user has changed it. */
  readonly lights: ReadonlyMap<RecordId, Light>;
  readonly views: ReadonlyMap<RecordId, PlateView>;
  /** Films whose view is the whole film: on a plate of another size it is another view. */
  readonly whole: ReadonlySet<RecordId>;
  /** Decoded films by `pictureKey`. */
  readonly films: ReadonlyMap<string, Film>;
  readonly firstPicture: ShownFirst | null;
  /** Object URLs of small pictures by `pictureKey`. */
  readonly thumbnails: ReadonlyMap<string, string>;
  readonly messages: readonly Message[];
  readonly saved: SaveState;
  /** Whether the browser promises to keep what is here; null until it has answered. */
  readonly permanence: Permanence | null;
  /** Goes up whenever the list of cases may have changed. */
  readonly listing: number;
  readonly conflicts: readonly PendingConflicts[];
  readonly opening: number;
  /** Hints of the first start that were closed on this computer. */
  readonly closedHints: ReadonlySet<HintId>;
  /** The page of keys is open. */
  readonly keysShown: boolean;
  /** The text of a file of the classroom that was opened elsewhere, until the classroom takes it. */
  readonly handed: { readonly name: string; readonly text: string } | null;
}

/** What is on screen before anything was opened. */
export function initialState(id: CaseId, theme: ThemeChoice): AppState {
  return {
    place: 'bench',
    theme,
    caseState: freshState(emptyCase(id)),
    unknownFields: {},
    chosenFilm: null,
    beside: null,
    task: null,
    trace: null,
    repeats: null,
    localSets: [],
    lights: new Map(),
    views: new Map(),
    whole: new Set(),
    films: new Map(),
    firstPicture: null,
    thumbnails: new Map(),
    messages: [],
    saved: { kind: 'saved' },
    permanence: null,
    listing: 0,
    conflicts: [],
    opening: 0,
    closedHints: new Set(),
    keysShown: false,
    handed: null,
  };
}
