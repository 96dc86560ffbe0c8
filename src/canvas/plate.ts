import type { RecordId } from '../case/document.ts';
import type { Placing } from '../case/placing.ts';
import { toScreen } from '../drawing/projection.ts';
import type { MarkScene, PointRef, Readout } from '../drawing/scene.ts';
import { samePoint } from '../drawing/scene.ts';
import { PROJECTOR, READING } from '../drawing/strokes.ts';
import type { Film } from '../film/film.ts';
import { displayLut, type Light } from '../film/grey-scale.ts';
import { defaultLight } from '../film/light.ts';
import { planeScale } from '../geometry/spacing.ts';
import { screenPoint } from '../geometry/units.ts';
import { Aiming, type AimingParts } from './aiming.ts';
import { ControlButtons, type NamedControl } from './control-buttons.ts';
import { controlAt } from './control-hit.ts';
import { FilmSurface } from './film-surface.ts';
import { FilmView } from './film-view.ts';
import { MarkEditing } from './mark-editing.ts';
import { MarkMoves } from './mark-moves.ts';
import { FONTS } from './mark-player.ts';
import { controlsOf, PlateDrawing } from './plate-drawing.ts';
import type { PlateEvents } from './plate-events.ts';
import { FILM_KEYS, PlateKeys } from './plate-keys.ts';
import type { PlateState, PlateTracing } from './plate-lists.ts';
import type { PlateSize, PlateView } from './plate-view.ts';
import { PointerInput } from './pointer-input.ts';
import { SizeWatch } from './size-watch.ts';
import { TraceEditing } from './trace-editing.ts';

/**
 * The plate: a film with the marks placed on it, moved and magnified, read and changed by pointer and
 * keyboard. Imperative, since it follows the pointer: it is told what to show, and tells what was done. It
 * fills `host` with one element of its own, and changes nothing of the case itself.
 */
export class Plate {
  private readonly root = document.createElement('div');
  private readonly surface: FilmSurface;
  private readonly view: FilmView;
  private readonly marks = new MarkMoves();
  private readonly drawing: PlateDrawing;
  private readonly editing: MarkEditing;
  private readonly tracing: TraceEditing;
  private readonly buttons: ControlButtons;
  private readonly pointer: PointerInput;
  private readonly keys: PlateKeys;
  private readonly size = new SizeWatch(this.root, (size, ratio) => this.resize(size, ratio));
  private readonly readouts = new Map<RecordId, Readout>();
  private film: Film | null = null;
  private filmKey = '';
  private readonly aiming = new Aiming(() => this.aimingParts());
  private focused: PointRef | null = null;

  constructor(
    host: HTMLElement,
    private readonly events: PlateEvents,
  ) {
    Object.assign(this.root.style, {
      position: 'relative',
      width: '100%',
      height: '100%',
      overflow: 'hidden',
      background: '#000',
      userSelect: 'none',
    });
    host.append(this.root);
    this.surface = new FilmSurface(
      this.root,
      () => this.drawing.onFilmDrawn(),
      () => {
        this.size.onFrame();
        this.drawing.onFrame();
      },
    );
    this.view = new FilmView(this.surface, (view, whole) => this.events.onView(view, whole));
    this.drawing = new PlateDrawing(
      this.root,
      this.surface,
      () => this.state(),
      () => this.buttons.set(this.controls()),
    );
    this.editing = new MarkEditing(this.marks, this.view, this.drawing, events, () =>
      this.aiming.showCursor(),
    );
    this.tracing = new TraceEditing(this.view, this.drawing, events, () => this.aiming.showCursor());
    this.keys = new PlateKeys({
      placing: () => this.aiming.wanted !== null,
      size: () => this.view.size,
      nudge: (point, by) => this.editorOf(point).nudge(point, by),
      commit: () => this.commit(),
      putBack: () => this.putBack(),
      aim: (at) => this.aiming.byKey(at),
      place: (at) => this.aiming.place(at),
      stopAiming: () => this.aiming.set(null),
      moveFilm: ({ x, y }) => this.view.move(screenPoint(0, 0), screenPoint(x, y)),
      magnify: (factor) => this.view.magnifyAboutMiddle(factor),
      showWhole: () => this.view.showWhole(),
      abandonPointer: () => this.pointer.abandon(),
    });
    this.buttons = new ControlButtons(this.root, {
      onKey: this.keys.onKey,
      onFocus: (point) => this.onFocus(point),
    });
    this.buttons.setFilmLabel(FILM_KEYS);
    this.pointer = new PointerInput(this.root, {
      placing: () => this.aiming.wanted !== null,
      hit: (pointer) => controlAt(this.controls(), pointer),
      hover: (at) => this.aiming.hover(at),
      pressFilm: () => this.buttons.focus(null, 'pointer'),
      aim: (at) => this.aiming.byPointer(at),
      stopAiming: () => this.aiming.set(null),
      place: (at) => this.aiming.place(at),
      take: (point) => this.take(point),
      drag: (point, to) => this.editorOf(point).moveTo(point, to),
      letGo: () => this.commit(),
      putBack: () => this.putBack(),
      moveFilm: (from, to) => this.view.move(from, to),
      pinch: (from, to) => this.view.pinch(from, to),
      magnify: (about, factor) => this.view.magnify(about, factor),
    });
    this.size.start();
    // Text on a canvas is not set anew by the browser when its font arrives.
    document.fonts.addEventListener('loadingdone', this.onFonts);
    // Without them the browser's own serif stands in.
    for (const font of FONTS) document.fonts.load(font).catch(() => undefined);
  }

  /**
   * Shows another film, whole and upright, in its default light; null: none. Its spacing is taken as the one
   * in force: where the user has set the scale, hand in the film with that spacing, which keeps view and light.
   *
   * @param key - Tells one film from another.
   */
  setFilm(film: Film | null, key: string): void {
    this.pointer.abandon();
    this.keys.settle();
    const same = film !== null && this.film !== null && key === this.filmKey;
    this.film = film;
    this.filmKey = key;
    if (film !== null) this.marks.setPlane(planeScale(film.spacing));
    this.surface.setFilm(film, key);
    this.view.setFilm(film, same);
    if (film !== null && !same) this.setLight(defaultLight(film));
    this.drawing.makeOld(true);
  }

  setLight(light: Light): void {
    const { film } = this;
    if (film === null) return;
    this.surface.setGrey(displayLut(film.grey, light, film.storedMin, film.storedMax));
  }

  setView(view: PlateView): void {
    this.view.set(view);
  }

  get currentView(): PlateView {
    return this.view.current;
  }

  /** Shows the whole film, keeping its turn and mirroring. */
  wholeFilm(): void {
    this.view.showWhole();
  }

  setMarks(scene: MarkScene): void {
    this.marks.setScene(scene);
    this.drawing.makeOld(true);
  }

  /** Text beside a mark, or beside the angle for the id of the film; null: none. */
  setReadout(id: RecordId, readout: Readout | null): void {
    if (readout === null) this.readouts.delete(id);
    else this.readouts.set(id, readout);
    // While a mark is moved, its own readout and the angle's are drawn with it.
    const { movingId, scene } = this.marks;
    this.drawing.makeOld(movingId === null || (id !== movingId && id !== scene?.filmId));
  }

  /** The mark that is being placed, with the points so far; null: none. */
  setPlacing(placing: Placing | null): void {
    this.aiming.setPlacing(placing);
  }

  /**
   * Axes being traced: the taps asked for and what was found; null: nothing is. What is found first is shown large,
   * so that it can be judged.
   */
  setTracing(tracing: PlateTracing | null): void {
    const first = this.tracing.tracing?.proposal == null && tracing?.proposal != null;
    this.tracing.set(tracing);
    if (first) this.view.showLarge(this.tracing.extent());
    this.aiming.onWanted();
  }

  /** Gives the keyboard to a control point, bringing it into the plate; null: to the film. */
  focusPoint(point: PointRef | null): void {
    const at = point === null ? null : this.marks.pointAt(point);
    const { projection } = this.view;
    if (at !== null && projection !== null) this.view.reveal(at, toScreen(projection, at));
    this.buttons.set(this.controls());
    this.buttons.focus(point, 'keyboard');
  }

  destroy(): void {
    this.size.destroy();
    document.fonts.removeEventListener('loadingdone', this.onFonts);
    this.keys.destroy();
    this.pointer.destroy();
    this.buttons.destroy();
    this.drawing.destroy();
    this.surface.destroy();
    this.root.remove();
  }

  private readonly onFonts = (): void => this.drawing.makeOld(true);

  /** Draws at once, without a blank frame. */
  private resize(size: PlateSize, ratio: number): void {
    this.surface.setSize(size, ratio);
    this.drawing.setSize(size, ratio);
    this.view.setSize(size);
    this.surface.drawNow();
  }

  private aimingParts(): AimingParts {
    const { root, view, drawing, buttons, keys, pointer, events } = this;
    return {
      root,
      view,
      drawing,
      buttons,
      keys,
      pointer,
      events,
      tapWanted: () => this.tracing.tracing?.wanted ?? null,
      isOverControl: (at) => controlAt(this.controls(), { at, type: 'mouse' }) !== null,
    };
  }

  private editorOf(point: PointRef): Pick<MarkEditing, 'nudge' | 'moveTo'> {
    return this.tracing.owns(point) ? this.tracing : this.editing;
  }

  private commit(): void {
    if (!this.tracing.commit()) this.editing.commit();
  }

  private putBack(): void {
    if (!this.tracing.putBack()) this.editing.putBack();
  }

  private state(): PlateState | null {
    const { film } = this;
    if (film === null) return null;
    const { scene, movingId } = this.marks;
    return {
      filmId: scene?.filmId ?? null,
      figures: this.figures(),
      showAngle: scene?.showAngle ?? false,
      readouts: this.readouts,
      strokes: scene?.strokes === 'projector' ? PROJECTOR : READING,
      plane: planeScale(film.spacing),
      size: this.view.size,
      movingId,
      focused: this.focused,
      placing: this.aiming.placing,
      tracing: this.tracing.tracing,
      movingHold: this.tracing.movingAt,
      aim: this.aiming.at,
    };
  }

  /** While a mark is placed, or axes are traced, the others show their lines alone, and cannot be taken hold of. */
  private figures(): PlateState['figures'] {
    const { figures } = this.marks;
    if (this.aiming.placing === null && this.tracing.tracing === null) return figures;
    return new Map([...figures].map(([id, figure]) => [id, { ...figure, showPoints: false }]));
  }

  private controls(): readonly NamedControl[] {
    const { projection } = this.view;
    if (projection === null) return [];
    return [...controlsOf(this.figures(), projection), ...this.tracing.controls()];
  }

  private take(point: PointRef): void {
    this.keys.settle();
    this.root.style.cursor = 'none';
    this.buttons.focus(point, 'pointer');
  }

  private onFocus(point: PointRef | null): void {
    if (samePoint(point, this.focused)) return;
    this.keys.blur();
    this.focused = point;
    this.drawing.makeOld(true);
    this.events.onFocus(point);
  }
}
