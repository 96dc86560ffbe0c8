import type { PointRef } from '../drawing/scene.ts';
import { type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { PlacedControl } from './control-hit.ts';
import {
  IDLE,
  nextPointing,
  type Pair,
  type Pointer,
  type PointingEffect,
  type PointingEvent,
  type PointingState,
} from './tools/pointing.ts';

/** What the pointer input asks of the plate. */
export interface PointerHost {
  readonly placing: () => boolean;
  readonly hit: (pointer: Pointer) => PlacedControl | null;
  /** The pointer moves over the plate with nothing pressed; null: it has left. Touch never hovers. */
  readonly hover: (at: ScreenPoint | null) => void;
  /** Bare film was pressed. */
  readonly pressFilm: () => void;
  readonly aim: (at: ScreenPoint) => void;
  readonly stopAiming: () => void;
  readonly place: (at: ScreenPoint) => void;
  readonly take: (point: PointRef) => void;
  readonly drag: (point: PointRef, to: ScreenPoint) => void;
  /** The control point was let go; nothing is to be kept if it was never moved. */
  readonly letGo: () => void;
  readonly putBack: () => void;
  readonly moveFilm: (from: ScreenPoint, to: ScreenPoint) => void;
  readonly pinch: (from: Pair, to: Pair) => void;
  readonly magnify: (about: ScreenPoint, factor: number) => void;
}

/** Natural logarithm of the magnification per CSS pixel of wheel travel: about 15 % per notch of 100. */
const PER_WHEEL_PIXEL = 0.0014;
/** A pinch on a touchpad arrives as a wheel with Ctrl, in much smaller steps. */
const PER_PINCH_PIXEL = 0.01;
/** Wheel travel in lines or pages, as CSS pixels (WheelEvent.deltaMode). */
const PIXELS_PER_DELTA = [1, 16, 400];

/** Turns the events of the DOM into events of the pointing state chart, and hands its effects to the plate. */
export class PointerInput {
  private state: PointingState = IDLE;

  constructor(
    private readonly element: HTMLElement,
    private readonly host: PointerHost,
  ) {
    element.style.touchAction = 'none';
    element.addEventListener('pointerdown', this.onDown);
    element.addEventListener('pointermove', this.onMove);
    element.addEventListener('pointerup', this.onUp);
    element.addEventListener('pointercancel', this.onCancel);
    element.addEventListener('pointerleave', this.onLeave);
    element.addEventListener('wheel', this.onWheel, { passive: false });
  }

  /** Drops whatever is going on; true if there was something. */
  abandon(): boolean {
    const active = this.state.kind !== 'idle';
    this.feed({ kind: 'abandon' });
    return active;
  }

  destroy(): void {
    this.element.removeEventListener('pointerdown', this.onDown);
    this.element.removeEventListener('pointermove', this.onMove);
    this.element.removeEventListener('pointerup', this.onUp);
    this.element.removeEventListener('pointercancel', this.onCancel);
    this.element.removeEventListener('pointerleave', this.onLeave);
    this.element.removeEventListener('wheel', this.onWheel);
  }

  private readonly onDown = (event: PointerEvent): void => {
    if (event.button !== 0 && event.button !== 1) return;
    // The plate decides what gets the focus; without this a press would take it away.
    event.preventDefault();
    this.element.setPointerCapture(event.pointerId);
    const pointer = this.pointer(event);
    const hit = this.host.hit(pointer);
    if (hit === null) this.host.pressFilm();
    this.feed({
      kind: 'press',
      pointer,
      button: event.button === 0 ? 'primary' : 'middle',
      hit: hit === null ? null : { point: hit.point, at: hit.at },
      placing: this.host.placing(),
    });
  };

  private readonly onMove = (event: PointerEvent): void => {
    const pointer = this.pointer(event);
    if (this.state.kind === 'idle') {
      if (pointer.type !== 'touch') this.host.hover(pointer.at);
      return;
    }
    this.feed({ kind: 'move', pointer });
  };

  private readonly onUp = (event: PointerEvent): void =>
    this.feed({ kind: 'release', pointer: this.pointer(event) });

  private readonly onCancel = (): void => this.feed({ kind: 'abandon' });

  private readonly onLeave = (): void => {
    if (this.state.kind === 'idle') this.host.hover(null);
  };

  private readonly onWheel = (event: WheelEvent): void => {
    event.preventDefault();
    const travel = event.deltaY * (PIXELS_PER_DELTA[event.deltaMode] ?? 1);
    const per = event.ctrlKey ? PER_PINCH_PIXEL : PER_WHEEL_PIXEL;
    this.host.magnify(this.at(event), Math.exp(-travel * per));
  };

  private feed(event: PointingEvent): void {
    const { state, effects } = nextPointing(this.state, event);
    this.state = state;
    for (const effect of effects) this.perform(effect);
  }

  private perform(effect: PointingEffect): void {
    const { host } = this;
    switch (effect.kind) {
      case 'aim':
        host.aim(effect.at);
        break;
      case 'stop-aiming':
        host.stopAiming();
        break;
      case 'place':
        host.place(effect.at);
        break;
      case 'take':
        host.take(effect.point);
        break;
      case 'drag':
        host.drag(effect.point, effect.to);
        break;
      case 'let-go':
        host.letGo();
        break;
      case 'put-back':
        host.putBack();
        break;
      case 'move-film':
        host.moveFilm(effect.from, effect.to);
        break;
      case 'pinch':
        host.pinch(effect.from, effect.to);
    }
  }

  private at({ clientX, clientY }: MouseEvent): ScreenPoint {
    const { left, top } = this.element.getBoundingClientRect();
    return screenPoint(clientX - left, clientY - top);
  }

  private pointer(event: PointerEvent): Pointer {
    const { pointerId: id, pointerType } = event;
    const type = pointerType === 'touch' || pointerType === 'pen' ? pointerType : 'mouse';
    return { id, type, at: this.at(event) };
  }
}
