import Konva from 'konva/lib/Core.js';
import type { Group } from 'konva/lib/Group.js';
import type { Layer } from 'konva/lib/Layer.js';
import type { Stage } from 'konva/lib/Stage.js';
import type { DrawCommand } from '../drawing/draw-command.ts';
import { MarkPlayer, newGroup } from './mark-player.ts';
import type { PlateSize } from './plate-view.ts';

/** More device pixels than this are not seen in fine strokes and cost time. */
const MOST_DEVICE_PIXELS = 2;

// Layers are drawn when the film is; Konva would otherwise draw them all again a frame later.
Konva.autoDrawEnabled = false;

/** A drawing list with the name it keeps from frame to frame. */
export interface NamedList {
  readonly id: string;
  readonly commands: readonly DrawCommand[];
}

/**
 * The Konva stage above the film: one layer for what rests, one for what moves with the pointer, so that a
 * drag redraws the dragged mark and not all of them. The layers are never scaled: everything is played in
 * screen coordinates, so that strokes and control points stay as wide as they are.
 */
export class MarkLayers {
  readonly element: HTMLElement;
  private readonly stage: Stage;
  private readonly resting: Layer;
  private readonly active: Layer;
  private readonly restingGroups = new Map<string, Group>();
  private readonly activeGroups = new Map<string, Group>();
  private inset: Group | null = null;
  readonly player = new MarkPlayer();

  constructor(host: HTMLElement) {
    this.element = document.createElement('div');
    Object.assign(this.element.style, { position: 'absolute', inset: '0', pointerEvents: 'none' });
    this.element.setAttribute('aria-hidden', 'true');
    host.append(this.element);
    this.stage = new Konva.Stage({ container: this.element as HTMLDivElement, width: 1, height: 1 });
    this.stage.listening(false);
    this.resting = new Konva.Layer({ listening: false });
    this.active = new Konva.Layer({ listening: false });
    this.stage.add(this.resting, this.active);
  }

  setSize({ width, height }: PlateSize, devicePixelRatio: number): void {
    const ratio = Math.min(devicePixelRatio, MOST_DEVICE_PIXELS);
    for (const layer of [this.resting, this.active]) layer.getCanvas().setPixelRatio(ratio);
    this.stage.size({ width, height });
  }

  drawResting(lists: readonly NamedList[]): void {
    this.play(this.resting, this.restingGroups, lists);
    this.resting.draw();
  }

  /** @param inset - Drawn above everything else; null: none. */
  drawActive(lists: readonly NamedList[], inset: Group | null): void {
    this.play(this.active, this.activeGroups, lists);
    if (inset !== null) {
      if (inset.getLayer() !== this.active) this.active.add(inset);
      inset.moveToTop();
    } else if (this.inset !== null) {
      this.inset.remove();
    }
    this.inset = inset;
    // A hidden layer costs nothing, neither here nor when the page is put together.
    const empty = lists.length === 0 && inset === null;
    this.active.visible(!empty);
    if (!empty) this.active.draw();
  }

  destroy(): void {
    this.stage.destroy();
    this.element.remove();
  }

  private play(layer: Layer, groups: Map<string, Group>, lists: readonly NamedList[]): void {
    const unused = new Map(groups);
    for (const { id, commands } of lists) {
      let group = groups.get(id);
      if (group === undefined) {
        group = newGroup();
        groups.set(id, group);
        layer.add(group);
      }
      unused.delete(id);
      this.player.play(group, commands);
    }
    for (const [id, group] of unused) {
      group.destroy();
      groups.delete(id);
    }
  }
}
