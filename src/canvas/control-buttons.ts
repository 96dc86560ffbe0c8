import { type PointRef, samePoint } from '../drawing/scene.ts';
import type { PlacedControl } from './control-hit.ts';

/** WCAG 2.2, 2.5.8 Target Size (Minimum). */
const SIZE = 24;

export interface NamedControl extends PlacedControl {
  readonly name: string;
}

export interface ButtonEvents {
  readonly onKey: (event: KeyboardEvent, point: PointRef | null) => void;
  /** Null: the film itself has the focus, or the focus has left the plate. */
  readonly onFocus: (point: PointRef | null) => void;
}

/**
 * What of the plate the keyboard reaches: the film, and a button for each control point. A canvas has
 * nothing that can be focused, so these stand above it, transparent and closed to the pointer; the control
 * point itself shows the focus.
 */
export class ControlButtons {
  readonly element: HTMLElement;
  private readonly film: HTMLButtonElement;
  private ringShown = true;
  private readonly buttons = new Map<string, { button: HTMLButtonElement; point: PointRef }>();

  constructor(
    host: HTMLElement,
    private readonly events: ButtonEvents,
  ) {
    this.element = document.createElement('div');
    // Arrow keys are meant for the plate, not for a screen reader's own cursor.
    this.element.setAttribute('role', 'application');
    this.element.setAttribute('aria-label', 'Plate');
    Object.assign(this.element.style, { position: 'absolute', inset: '0', pointerEvents: 'none' });
    this.film = this.newButton(null);
    Object.assign(this.film.style, { inset: '0', width: '100%', height: '100%', outlineOffset: '-4px' });
    this.element.append(this.film);
    host.append(this.element);
  }

  /** @param label - What the keys do now; read out when the film has the focus. */
  setFilmLabel(label: string): void {
    this.film.setAttribute('aria-label', label);
  }

  /** Makes the buttons match the control points: moved, renamed, added and removed, in the given order. */
  set(controls: readonly NamedControl[]): void {
    const unused = new Map(this.buttons);
    let before: Element = this.film;
    for (const { point, at, name } of controls) {
      const id = JSON.stringify([point.markId, point.key]);
      let entry = this.buttons.get(id);
      if (entry === undefined) {
        const button = this.newButton(point);
        Object.assign(button.style, {
          width: `${SIZE}px`,
          height: `${SIZE}px`,
          outline: 'none',
          inset: '0 auto auto 0',
        });
        entry = { button, point };
        this.buttons.set(id, entry);
      }
      unused.delete(id);
      const { button } = entry;
      if (button.getAttribute('aria-label') !== name) button.setAttribute('aria-label', name);
      button.style.transform = `translate(${at.x - SIZE / 2}px, ${at.y - SIZE / 2}px)`;
      if (before.nextElementSibling !== button) before.after(button);
      before = button;
    }
    for (const [id, { button }] of unused) {
      // Taking away what has the focus would throw the keyboard back to the top of the page.
      if (document.activeElement === button) this.focus(null, this.ringShown ? 'keyboard' : 'pointer');
      button.remove();
      this.buttons.delete(id);
    }
  }

  /**
   * Gives the focus to a control point, or to the film for null.
   *
   * @param by - After a press of the pointer the film gets no ring round it.
   */
  focus(point: PointRef | null, by: 'keyboard' | 'pointer'): void {
    const entry = [...this.buttons.values()].find((each) => samePoint(each.point, point));
    (entry?.button ?? this.film).focus({ preventScroll: true });
    this.showRing(by === 'keyboard');
  }

  private showRing(shown: boolean): void {
    this.ringShown = shown;
    this.film.style.outline = shown ? '' : 'none';
  }

  destroy(): void {
    this.element.remove();
  }

  private newButton(point: PointRef | null): HTMLButtonElement {
    const button = document.createElement('button');
    button.type = 'button';
    Object.assign(button.style, {
      position: 'absolute',
      margin: '0',
      padding: '0',
      border: 'none',
      background: 'transparent',
      pointerEvents: 'none',
    });
    button.addEventListener('keydown', (event) => {
      this.showRing(true);
      this.events.onKey(event, point);
    });
    button.addEventListener('focus', () => this.events.onFocus(point));
    button.addEventListener('blur', () => {
      this.showRing(true);
      this.events.onFocus(null);
    });
    return button;
  }
}
