import type { PointRef } from '../../drawing/scene.ts';
import { samePoint } from '../../drawing/scene.ts';

/**
 * Moving a control point with the arrow keys. Each press moves it at once, as a preview; the presses that
 * follow one another are one run, and a run is one change of the case (one entry in undo), made when the
 * keys rest for `PAUSE_MS`, when the point loses the focus, or at Enter. Escape takes the run back.
 */
export type NudgingState =
  | { readonly kind: 'resting' }
  | { readonly kind: 'running'; readonly point: PointRef };

export type NudgingEvent =
  | { readonly kind: 'nudge'; readonly point: PointRef; readonly by: Nudge }
  | { readonly kind: 'pause-over' }
  | { readonly kind: 'blur' }
  | { readonly kind: 'enter' }
  | { readonly kind: 'escape' };

/** Along the screen, CSS pixels. */
export interface Nudge {
  readonly x: number;
  readonly y: number;
}

export type NudgingEffect =
  | { readonly kind: 'shift'; readonly point: PointRef; readonly by: Nudge }
  | { readonly kind: 'start-pause' }
  | { readonly kind: 'commit'; readonly point: PointRef }
  | { readonly kind: 'put-back'; readonly point: PointRef };

export interface NudgingStep {
  readonly state: NudgingState;
  readonly effects: readonly NudgingEffect[];
}

/** Longer than the pause between repeats of a held key, and than that before the first of them. */
export const PAUSE_MS = 700;
export const RESTING: NudgingState = { kind: 'resting' };

const NUDGES: Readonly<Record<string, Nudge>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};

/** One CSS pixel along the screen, ten with Shift; null for every other key. */
export function nudgeOf(key: string, shift: boolean): Nudge | null {
  const nudge = NUDGES[key];
  if (nudge === undefined) return null;
  return shift ? { x: nudge.x * 10, y: nudge.y * 10 } : nudge;
}

export function nextNudging(state: NudgingState, event: NudgingEvent): NudgingStep {
  if (event.kind === 'nudge') {
    const { point, by } = event;
    const shift: readonly NudgingEffect[] = [{ kind: 'shift', point, by }, { kind: 'start-pause' }];
    const other = state.kind === 'running' && !samePoint(state.point, point);
    return {
      state: { kind: 'running', point },
      effects: other ? [{ kind: 'commit', point: state.point }, ...shift] : shift,
    };
  }
  if (state.kind === 'resting') return { state, effects: [] };
  const kind = event.kind === 'escape' ? 'put-back' : 'commit';
  return { state: RESTING, effects: [{ kind, point: state.point }] };
}
