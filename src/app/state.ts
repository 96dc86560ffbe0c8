import type { PlateView } from '../canvas/plate-view.ts';
import { emptyCase } from '../case/apply.ts';
import type { CaseId, RecordId } from '../case/document.ts';
import { type CaseState, freshState } from '../case/history.ts';
import type { Placing } from '../case/placing.ts';
import type { Film } from '../film/film.ts';
import type { Light } from '../film/grey-scale.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { ThemeChoice } from '../ui/Header.tsx';

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
}

/** Whether what is on screen is kept on this computer. */
export type SaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'not-saved'; readonly why: string };

export type PlaceId = 'bench' | 'limits';

/** All that the app holds. The case is what is kept; everything else here is view state. */
export interface AppState {
  readonly place: PlaceId;
  readonly theme: ThemeChoice;
  readonly caseState: CaseState;
  readonly chosenFilm: RecordId | null;
  readonly task: PlacingTask | null;
  /** How each film is lit, once the user has changed it. */
  readonly lights: ReadonlyMap<RecordId, Light>;
  readonly views: ReadonlyMap<RecordId, PlateView>;
  /** Decoded films by the SHA-256 of their file. */
  readonly films: ReadonlyMap<string, Film>;
  /** Object URLs of small pictures by the SHA-256 of their file. */
  readonly thumbnails: ReadonlyMap<string, string>;
  readonly messages: readonly Message[];
  readonly saved: SaveState;
  readonly opening: number;
}

export function initialState(id: CaseId, theme: ThemeChoice): AppState {
  return {
    place: 'bench',
    theme,
    caseState: freshState(emptyCase(id)),
    chosenFilm: null,
    task: null,
    lights: new Map(),
    views: new Map(),
    films: new Map(),
    thumbnails: new Map(),
    messages: [],
    saved: { kind: 'saved' },
    opening: 0,
  };
}
