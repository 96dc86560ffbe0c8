import type { PointRef } from '../../drawing/scene.ts';
import { type ScreenPoint, screenPoint } from '../../geometry/units.ts';

/**
 * What pointers do on the plate: place the next point of a draft, drag a control point, move the film, or
 * pinch it. A pure state chart: it knows screen points and which control point was hit, no film and no DOM.
 */
export type PointingState =
  | { readonly kind: 'idle' }
  /** A point of the draft is being aimed: it is placed where the pointer lets go. */
  | { readonly kind: 'aiming'; readonly pointer: Pointer }
  | {
      readonly kind: 'dragging';
      readonly pointer: Pointer;
      readonly point: PointRef;
      /** From the pointer to the middle of the control point, so that it does not jump when taken hold of. */
      readonly grip: { readonly x: number; readonly y: number };
    }
  | { readonly kind: 'moving-film'; readonly pointer: Pointer }
  | { readonly kind: 'pinching'; readonly one: Pointer; readonly other: Pointer };

export interface Pointer {
  readonly id: number;
  readonly type: 'mouse' | 'pen' | 'touch';
  readonly at: ScreenPoint;
}

export type PointingEvent =
  | {
      readonly kind: 'press';
      readonly pointer: Pointer;
      /** The middle button moves the film wherever it is pressed; the right one never gets here. */
      readonly button: 'primary' | 'middle';
      /** The control point within reach, and where its middle is. */
      readonly hit: { readonly point: PointRef; readonly at: ScreenPoint } | null;
      readonly placing: boolean;
    }
  | { readonly kind: 'move'; readonly pointer: Pointer }
  | { readonly kind: 'release'; readonly pointer: Pointer }
  /** Escape, a pointer taken away by the system, or a draft withdrawn: nothing of it stays. */
  | { readonly kind: 'abandon' };

export type PointingEffect =
  | { readonly kind: 'aim'; readonly at: ScreenPoint }
  | { readonly kind: 'stop-aiming' }
  | { readonly kind: 'place'; readonly at: ScreenPoint }
  | { readonly kind: 'take'; readonly point: PointRef }
  | { readonly kind: 'drag'; readonly point: PointRef; readonly to: ScreenPoint }
  /** The move is done, if there was one: a press alone moves nothing. */
  | { readonly kind: 'let-go'; readonly point: PointRef }
  | { readonly kind: 'put-back'; readonly point: PointRef }
  | { readonly kind: 'move-film'; readonly from: ScreenPoint; readonly to: ScreenPoint }
  | { readonly kind: 'pinch'; readonly from: Pair; readonly to: Pair };

export type Pair = readonly [ScreenPoint, ScreenPoint];

export interface PointingStep {
  readonly state: PointingState;
  readonly effects: readonly PointingEffect[];
}

export const IDLE: PointingState = { kind: 'idle' };

const step = (state: PointingState, ...effects: readonly PointingEffect[]): PointingStep => ({
  state,
  effects,
});

/** The next state and what the plate has to do. Events that mean nothing in a state leave it as it is. */
export function nextPointing(state: PointingState, event: PointingEvent): PointingStep {
  switch (event.kind) {
    case 'press':
      return pressed(state, event);
    case 'move':
      return moved(state, event.pointer);
    case 'release':
      return released(state, event.pointer);
    case 'abandon':
      return abandoned(state);
  }
}

function pressed(state: PointingState, event: Extract<PointingEvent, { kind: 'press' }>): PointingStep {
  const { pointer, button, hit, placing } = event;
  switch (state.kind) {
    case 'idle': {
      if (button === 'middle') return step({ kind: 'moving-film', pointer });
      if (placing) return step({ kind: 'aiming', pointer }, { kind: 'aim', at: pointer.at });
      if (hit === null) return step({ kind: 'moving-film', pointer });
      const grip = { x: hit.at.x - pointer.at.x, y: hit.at.y - pointer.at.y };
      return step({ kind: 'dragging', pointer, point: hit.point, grip }, { kind: 'take', point: hit.point });
    }
    // A second finger makes a pinch of it. Not with a pen, whose second touch is the palm.
    case 'aiming':
    case 'moving-film': {
      if (state.pointer.type !== 'touch' || pointer.type !== 'touch') return step(state);
      const pinching: PointingState = { kind: 'pinching', one: state.pointer, other: pointer };
      return state.kind === 'aiming' ? step(pinching, { kind: 'stop-aiming' }) : step(pinching);
    }
    case 'dragging':
    case 'pinching':
      return step(state);
  }
}

function moved(state: PointingState, pointer: Pointer): PointingStep {
  switch (state.kind) {
    case 'idle':
      return step(state);
    case 'aiming':
      if (pointer.id !== state.pointer.id) return step(state);
      return step({ ...state, pointer }, { kind: 'aim', at: pointer.at });
    case 'dragging': {
      if (pointer.id !== state.pointer.id) return step(state);
      if (pointer.at.x === state.pointer.at.x && pointer.at.y === state.pointer.at.y) return step(state);
      const to = screenPoint(pointer.at.x + state.grip.x, pointer.at.y + state.grip.y);
      return step({ ...state, pointer }, { kind: 'drag', point: state.point, to });
    }
    case 'moving-film':
      if (pointer.id !== state.pointer.id) return step(state);
      return step({ ...state, pointer }, { kind: 'move-film', from: state.pointer.at, to: pointer.at });
    case 'pinching': {
      const one = pointer.id === state.one.id ? pointer : state.one;
      const other = pointer.id === state.other.id ? pointer : state.other;
      if (one === state.one && other === state.other) return step(state);
      return step(
        { kind: 'pinching', one, other },
        { kind: 'pinch', from: [state.one.at, state.other.at], to: [one.at, other.at] },
      );
    }
  }
}

function released(state: PointingState, pointer: Pointer): PointingStep {
  switch (state.kind) {
    case 'idle':
      return step(state);
    case 'aiming':
      if (pointer.id !== state.pointer.id) return step(state);
      return step(IDLE, { kind: 'place', at: pointer.at });
    case 'dragging': {
      if (pointer.id !== state.pointer.id) return step(state);
      return step(IDLE, ...moved(state, pointer).effects, { kind: 'let-go', point: state.point });
    }
    case 'moving-film':
      return pointer.id === state.pointer.id ? step(IDLE) : step(state);
    case 'pinching': {
      // The finger that stays goes on moving the film; lifting it places nothing.
      if (pointer.id === state.one.id) return step({ kind: 'moving-film', pointer: state.other });
      if (pointer.id === state.other.id) return step({ kind: 'moving-film', pointer: state.one });
      return step(state);
    }
  }
}

function abandoned(state: PointingState): PointingStep {
  if (state.kind === 'aiming') return step(IDLE, { kind: 'stop-aiming' });
  if (state.kind === 'dragging') return step(IDLE, { kind: 'put-back', point: state.point });
  return step(IDLE);
}
