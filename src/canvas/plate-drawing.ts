import { type Projection, sameProjection, toFilm, toScreen } from '../drawing/projection.ts';
import type { PointRef } from '../drawing/scene.ts';
import type { FilmPoint, ScreenPoint } from '../geometry/units.ts';
import type { NamedControl } from './control-buttons.ts';
import type { FilmSurface } from './film-surface.ts';
import { Inset } from './inset.ts';
import { MarkLayers } from './mark-layers.ts';
import { activeLists, insetList, type PlateState, restingLists } from './plate-lists.ts';
import type { PlateSize } from './plate-view.ts';

/**
 * Draws what stands above the film, once a frame at most, and only what has changed. When the film itself is
 * drawn anew the marks follow in the same frame, so that they never come apart.
 */
export class PlateDrawing {
  private readonly layers: MarkLayers;
  private readonly inset: Inset;
  private ratio = 1;
  private restingIsOld = true;
  private activeIsOld = true;
  private insetShown = false;
  /** What the marks were last placed by. */
  private placedBy: Projection | null = null;

  /**
   * @param state - What is to be drawn; null: nothing, for want of a film.
   * @param onPainted - Told after each painting.
   */
  constructor(
    root: HTMLElement,
    private readonly surface: FilmSurface,
    private readonly state: () => PlateState | null,
    private readonly onPainted: () => void,
  ) {
    this.layers = new MarkLayers(root);
    this.inset = new Inset(this.layers.player);
  }

  setSize(size: PlateSize, ratio: number): void {
    this.ratio = ratio;
    this.layers.setSize(size, ratio);
    this.makeOld(true);
  }

  /** What moves with the pointer is out of date; with `resting`, so is everything else. */
  makeOld(resting: boolean): void {
    this.restingIsOld ||= resting;
    this.activeIsOld = true;
  }

  /** Called in every frame before the film is drawn, if it is. */
  onFrame(): void {
    if (this.surface.pending) return;
    this.paint(this.restingIsOld, this.activeIsOld);
  }

  /** The film has just been drawn. Where only its light has changed, only the inset changes with it. */
  onFilmDrawn(): void {
    const moved = !sameProjection(this.surface.projection(), this.placedBy);
    this.paint(moved || this.restingIsOld, moved || this.activeIsOld || this.insetShown);
  }

  destroy(): void {
    this.layers.destroy();
  }

  private paint(resting: boolean, active: boolean): void {
    if (!resting && !active) return;
    const state = this.state();
    const projection = this.surface.projection();
    if (state === null || projection === null) {
      this.layers.drawResting([]);
      this.layers.drawActive([], null);
    } else {
      if (resting) this.layers.drawResting(restingLists(state, projection));
      this.insetShown = this.showInset(state, projection);
      this.layers.drawActive(activeLists(state, projection), this.insetShown ? this.inset.group : null);
    }
    this.placedBy = projection;
    this.restingIsOld &&= !resting;
    this.activeIsOld = false;
    this.onPainted();
  }

  /** The inset follows the point being moved, else the one being aimed at; false if there is neither. */
  private showInset(state: PlateState, projection: Projection): boolean {
    const followed = followedPoint(state, projection);
    if (followed === null) {
      this.inset.forget();
      return false;
    }
    this.inset.show(
      followed.at,
      followed.point,
      { projection, size: state.size, ratio: this.ratio },
      (context, inset, size) => this.surface.drawNative(context, inset, size),
      (inset, middle) => insetList(state, inset, middle),
    );
    return true;
  }
}

function followedPoint(
  { movingId, focused, figures, movingHold, aim }: PlateState,
  projection: Projection,
): { readonly at: ScreenPoint; readonly point: FilmPoint } | null {
  if (movingId !== null && focused?.markId === movingId) {
    const moved = figures.get(movingId)?.points.find(({ key }) => key === focused.key);
    if (moved !== undefined) return { at: toScreen(projection, moved.at), point: moved.at };
  }
  if (movingHold !== null) return { at: toScreen(projection, movingHold), point: movingHold };
  return aim === null ? null : { at: aim, point: toFilm(projection, aim) };
}

/** The control points of the marks that can be moved, where they are on screen. */
export const controlsOf = (figures: PlateState['figures'], projection: Projection): readonly NamedControl[] =>
  [...figures].flatMap(([markId, { points, showPoints }]) =>
    showPoints ? points.map((point) => control({ markId, key: point.key }, point, projection)) : [],
  );

const control = (
  point: PointRef,
  { at, name }: { readonly at: FilmPoint; readonly name: string },
  projection: Projection,
): NamedControl => ({ point, at: toScreen(projection, at), name });
