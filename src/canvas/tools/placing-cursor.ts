import { type ScreenPoint, screenPoint } from '../../geometry/units.ts';
import type { PlateSize } from '../plate-view.ts';
import type { Nudge } from './nudging.ts';

/**
 * The cursor that places points from the keyboard. It appears in the middle of the plate with the first
 * arrow key (or Enter) while a mark is being placed, is moved by the arrow keys, and gives its point at
 * Enter; it then stays where it is for the next point. Escape puts it away.
 */
export type CursorState = { readonly kind: 'hidden' } | { readonly kind: 'shown'; readonly at: ScreenPoint };

export type CursorEvent =
  | { readonly kind: 'step'; readonly by: Nudge; readonly plate: PlateSize }
  | { readonly kind: 'enter'; readonly plate: PlateSize }
  /** Escape, the end of placing, or a pointer that takes over. */
  | { readonly kind: 'put-away' };

export type CursorEffect =
  | { readonly kind: 'aim'; readonly at: ScreenPoint }
  | { readonly kind: 'place'; readonly at: ScreenPoint }
  | { readonly kind: 'stop-aiming' };

export interface CursorStep {
  readonly state: CursorState;
  readonly effects: readonly CursorEffect[];
}

export const HIDDEN: CursorState = { kind: 'hidden' };

export function nextCursor(state: CursorState, event: CursorEvent): CursorStep {
  switch (event.kind) {
    case 'step': {
      const { by, plate } = event;
      const at =
        state.kind === 'hidden'
          ? middleOf(plate)
          : screenPoint(
              Math.min(Math.max(state.at.x + by.x, 0), plate.width),
              Math.min(Math.max(state.at.y + by.y, 0), plate.height),
            );
      return { state: { kind: 'shown', at }, effects: [{ kind: 'aim', at }] };
    }
    case 'enter': {
      if (state.kind === 'shown') return { state, effects: [{ kind: 'place', at: state.at }] };
      // Nobody places a point that was not yet shown.
      const at = middleOf(event.plate);
      return { state: { kind: 'shown', at }, effects: [{ kind: 'aim', at }] };
    }
    case 'put-away':
      return { state: HIDDEN, effects: state.kind === 'shown' ? [{ kind: 'stop-aiming' }] : [] };
  }
}

const middleOf = ({ width, height }: PlateSize): ScreenPoint => screenPoint(width / 2, height / 2);
