import type { PointRef } from '../drawing/scene.ts';
import { type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { PlateSize } from './plate-view.ts';
import {
  type Nudge,
  type NudgingEvent,
  type NudgingState,
  nextNudging,
  nudgeOf,
  PAUSE_MS,
  RESTING,
} from './tools/nudging.ts';
import { type CursorEvent, type CursorState, HIDDEN, nextCursor } from './tools/placing-cursor.ts';

/** What the keyboard asks of the plate. */
export interface KeyHost {
  readonly placing: () => boolean;
  readonly size: () => PlateSize;
  readonly nudge: (point: PointRef, by: Nudge) => void;
  readonly commit: () => void;
  readonly putBack: () => void;
  readonly aim: (at: ScreenPoint) => void;
  readonly place: (at: ScreenPoint) => void;
  readonly stopAiming: () => void;
  readonly moveFilm: (by: Nudge) => void;
  readonly magnify: (factor: number) => void;
  readonly showWhole: () => void;
  /** Drops what the pointer is doing; false if it was doing nothing. */
  readonly abandonPointer: () => boolean;
}

/** An arrow key moves the film by this many of its nudges: 40 CSS pixels, 400 with Shift. */
const FILM_STEP = 40;
const MAGNIFY_STEP = 1.25;
export const FILM_KEYS = 'Film. Arrow keys move it, plus and minus magnify, 0 shows the whole film.';
export const PLACING_KEYS = 'Arrow keys move the cross, with Shift faster; Enter places the point.';

/** Turns key presses on the film and on control points into events of the state charts. */
export class PlateKeys {
  private nudging: NudgingState = RESTING;
  private cursor: CursorState = HIDDEN;
  private pause: ReturnType<typeof setTimeout> | null = null;

  constructor(private readonly host: KeyHost) {}

  /** @param point - The control point that has the focus; null: the film has it. */
  readonly onKey = (event: KeyboardEvent, point: PointRef | null): void => {
    // Keys with Ctrl, Alt or Meta belong to the browser and the app.
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (!this.handle(event.key, event.shiftKey, point)) return;
    event.preventDefault();
    event.stopPropagation();
  };

  /** The focus has left a control point: a run of nudges ends there. */
  blur(): void {
    this.feedNudging({ kind: 'blur' });
  }

  /** Makes a running change of the case at once, for example before a drag begins. */
  settle(): void {
    this.feedNudging({ kind: 'enter' });
  }

  /** Placing has ended, or the pointer has taken over. */
  putCursorAway(): void {
    this.feedCursor({ kind: 'put-away' });
  }

  get cursorShown(): boolean {
    return this.cursor.kind === 'shown';
  }

  destroy(): void {
    this.endPause();
  }

  private handle(key: string, shift: boolean, point: PointRef | null): boolean {
    const by = nudgeOf(key, shift);
    if (key === 'Escape') return this.escape();
    if (key === '+' || key === '=') return this.did(() => this.host.magnify(MAGNIFY_STEP));
    if (key === '-') return this.did(() => this.host.magnify(1 / MAGNIFY_STEP));
    if (key === '0') return this.did(() => this.host.showWhole());
    if (point !== null) {
      if (by !== null) return this.did(() => this.feedNudging({ kind: 'nudge', point, by }));
      if (key === 'Enter') return this.did(() => this.feedNudging({ kind: 'enter' }));
      return false;
    }
    if (this.host.placing()) {
      const plate = this.host.size();
      if (by !== null) return this.did(() => this.feedCursor({ kind: 'step', by, plate }));
      if (key === 'Enter' || key === ' ') return this.did(() => this.feedCursor({ kind: 'enter', plate }));
      return false;
    }
    if (by === null) return false;
    // An arrow shows what lies that way: the film moves against it.
    return this.did(() => this.host.moveFilm({ x: -by.x * FILM_STEP, y: -by.y * FILM_STEP }));
  }

  private did(action: () => void): true {
    action();
    return true;
  }

  /** Escape takes back the last thing begun; when nothing is, it is left to the app. */
  private escape(): boolean {
    if (this.host.abandonPointer()) return true;
    if (this.nudging.kind === 'running') return this.did(() => this.feedNudging({ kind: 'escape' }));
    if (this.cursor.kind === 'shown') return this.did(() => this.feedCursor({ kind: 'put-away' }));
    return false;
  }

  private feedNudging(event: NudgingEvent): void {
    const { state, effects } = nextNudging(this.nudging, event);
    this.nudging = state;
    if (state.kind === 'resting') this.endPause();
    for (const effect of effects) {
      switch (effect.kind) {
        case 'shift':
          this.host.nudge(effect.point, effect.by);
          break;
        case 'start-pause':
          this.endPause();
          this.pause = setTimeout(() => this.feedNudging({ kind: 'pause-over' }), PAUSE_MS);
          break;
        case 'commit':
          this.host.commit();
          break;
        case 'put-back':
          this.host.putBack();
      }
    }
  }

  private feedCursor(event: CursorEvent): void {
    const { state, effects } = nextCursor(this.cursor, event);
    this.cursor = state;
    for (const effect of effects) {
      switch (effect.kind) {
        case 'aim':
          this.host.aim(screenPoint(effect.at.x, effect.at.y));
          break;
        case 'place':
          this.host.place(effect.at);
          break;
        case 'stop-aiming':
          this.host.stopAiming();
      }
    }
  }

  private endPause(): void {
    if (this.pause !== null) clearTimeout(this.pause);
    this.pause = null;
  }
}
