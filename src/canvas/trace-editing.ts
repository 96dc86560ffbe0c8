import { recordId } from '../case/document.ts';
import { toFilm, toScreen } from '../drawing/projection.ts';
import type { PointRef } from '../drawing/scene.ts';
import { type FilmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { NamedControl } from './control-buttons.ts';
import type { FilmView } from './film-view.ts';
import { coordinates } from './mark-editing.ts';
import type { PlateDrawing } from './plate-drawing.ts';
import type { PlateEvents } from './plate-events.ts';
import type { PlateTracing } from './plate-lists.ts';
import type { Nudge } from './tools/nudging.ts';

/** Stands where a control point has the id of its mark: a proposal is no mark. */
const PROPOSAL = recordId('proposal');

/**
 * Moves the points of found outlines on behalf of the pointer and the keyboard. A point that was let go stays
 * where it was put until the app shows another tracing.
 */
export class TraceEditing {
  private shown: PlateTracing | null = null;
  private moved: { readonly key: string; readonly at: FilmPoint } | null = null;
  private moving = false;

  /** @param onDone - Told when a move has ended, either way. */
  constructor(
    private readonly view: FilmView,
    private readonly drawing: PlateDrawing,
    private readonly events: Pick<PlateEvents, 'onHold' | 'onAnnounce'>,
    private readonly onDone: () => void,
  ) {}

  set(tracing: PlateTracing | null): void {
    if (tracing?.proposal !== this.shown?.proposal) {
      this.moved = null;
      this.moving = false;
    }
    this.shown = tracing;
  }

  /** As it is at the moment, with the point that was moved where it is now. */
  get tracing(): PlateTracing | null {
    const { shown, moved } = this;
    if (shown?.proposal == null || moved === null) return shown;
    const holds = shown.proposal.holds.map((hold) =>
      hold.key === moved.key ? { ...hold, at: moved.at, corrected: true } : hold,
    );
    return { ...shown, proposal: { ...shown.proposal, holds } };
  }

  /** What the plate has to show for a finding to be judged. */
  extent(): readonly FilmPoint[] {
    const { shown } = this;
    if (shown?.proposal == null) return [];
    const { outlines, proximal, distal } = shown.proposal;
    const axes = [proximal.from, proximal.to, distal.from, distal.to];
    return [...shown.taps, ...axes, ...outlines.flatMap(({ points }) => points)];
  }

  /** The point being moved, for the inset; null: none. */
  get movingAt(): FilmPoint | null {
    return this.moving ? (this.moved?.at ?? null) : null;
  }

  controls(): readonly NamedControl[] {
    const { projection } = this.view;
    const { tracing } = this;
    if (projection === null || tracing === null || tracing.wanted !== null) return [];
    return (tracing.proposal?.holds ?? []).map(({ key, name, at }) => ({
      point: { markId: PROPOSAL, key },
      name,
      at: toScreen(projection, at),
    }));
  }

  owns({ markId }: PointRef): boolean {
    return markId === PROPOSAL;
  }

  nudge(point: PointRef, by: Nudge): void {
    const { projection } = this.view;
    const hold = this.tracing?.proposal?.holds.find(({ key }) => key === point.key);
    if (hold === undefined || projection === null) return;
    const { x, y } = toScreen(projection, hold.at);
    this.moveTo(point, screenPoint(x + by.x, y + by.y));
    this.events.onAnnounce(`${hold.name}: ${coordinates(this.moved?.at ?? hold.at)}`);
  }

  moveTo({ key }: PointRef, to: ScreenPoint): void {
    const { projection } = this.view;
    if (projection === null) return;
    this.moving = true;
    this.moved = { key, at: toFilm(projection, to) };
    this.drawing.makeOld(false);
  }

  /** Ends the move as a correction; false: nothing of the proposal was being moved. */
  commit(): boolean {
    if (!this.end()) return false;
    if (this.moved !== null) this.events.onHold(this.moved.key, this.moved.at);
    return true;
  }

  /** The point goes back to where the outline was found. */
  putBack(): boolean {
    if (!this.moving) return false;
    this.moved = null;
    return this.end();
  }

  private end(): boolean {
    if (!this.moving) return false;
    this.moving = false;
    this.drawing.makeOld(true);
    this.onDone();
    return true;
  }
}
