import { nextPoint, type Placing } from '../case/placing.ts';
import { toFilm } from '../drawing/projection.ts';
import type { ScreenPoint } from '../geometry/units.ts';
import type { ControlButtons } from './control-buttons.ts';
import type { FilmView } from './film-view.ts';
import { coordinates } from './mark-editing.ts';
import type { PlateDrawing } from './plate-drawing.ts';
import type { PlateEvents } from './plate-events.ts';
import { FILM_KEYS, PLACING_KEYS, type PlateKeys } from './plate-keys.ts';
import type { PointerInput } from './pointer-input.ts';

/** The parts of the plate that aiming goes through. */
export interface AimingParts {
  readonly root: HTMLElement;
  readonly view: FilmView;
  readonly drawing: PlateDrawing;
  readonly buttons: ControlButtons;
  readonly keys: PlateKeys;
  readonly pointer: PointerInput;
  readonly events: Pick<PlateEvents, 'onAnnounce' | 'onPlacingPoint'>;
  /** What the next tap of a trace is for; null: none is asked for. */
  readonly tapWanted: () => string | null;
  /** Whether something can be taken hold of here. */
  readonly isOverControl: (at: ScreenPoint) => boolean;
}

/** The next point that is asked for, of a mark or of a trace: aimed at by pointer or keyboard, and placed. */
export class Aiming {
  private draft: Placing | null = null;
  private aim: ScreenPoint | null = null;

  constructor(private readonly parts: () => AimingParts) {}

  /** The mark that is being placed; null: none. */
  get placing(): Placing | null {
    return this.draft;
  }

  /** Where the next point would be placed. */
  get at(): ScreenPoint | null {
    return this.aim;
  }

  /** What the next point on the film is for; null: none is asked for. */
  get wanted(): string | null {
    return this.draft === null ? this.parts().tapWanted() : nextPoint(this.draft).fullName;
  }

  setPlacing(placing: Placing | null): void {
    this.draft = placing;
    this.onWanted();
  }

  /** Another point is asked for, or none any more. */
  onWanted(): void {
    const { wanted } = this;
    const { pointer, keys, buttons, drawing } = this.parts();
    if (wanted === null) {
      pointer.abandon();
      keys.putCursorAway();
      this.aim = null;
    }
    this.showCursor();
    buttons.setFilmLabel(wanted === null ? FILM_KEYS : `${wanted.replace(/\.$/, '')}. ${PLACING_KEYS}`);
    drawing.makeOld(true);
  }

  /** While a point is placed its cross is drawn on the plate, where the pointer would hide it. */
  showCursor(): void {
    this.parts().root.style.cursor = this.wanted === null ? 'default' : 'none';
  }

  hover(at: ScreenPoint | null): void {
    const { keys, root, isOverControl } = this.parts();
    if (this.wanted !== null) {
      // A mouse at rest beside the keyboard cursor must not take it over.
      if (!keys.cursorShown) this.set(at);
      return;
    }
    root.style.cursor = at !== null && isOverControl(at) ? 'pointer' : 'default';
  }

  set(at: ScreenPoint | null): void {
    this.aim = at;
    this.parts().drawing.makeOld(false);
  }

  byPointer(at: ScreenPoint): void {
    this.parts().keys.putCursorAway();
    this.set(at);
  }

  byKey(at: ScreenPoint): void {
    this.set(at);
    const { view, events } = this.parts();
    if (view.projection !== null) events.onAnnounce(coordinates(toFilm(view.projection, at)));
  }

  place(at: ScreenPoint): void {
    const { view, events } = this.parts();
    if (view.projection !== null && this.wanted !== null) {
      events.onPlacingPoint(toFilm(view.projection, at));
    }
  }
}
