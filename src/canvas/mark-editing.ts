import { toFilm, toScreen } from '../drawing/projection.ts';
import type { PointRef } from '../drawing/scene.ts';
import { type FilmPoint, type ScreenPoint, screenPoint } from '../geometry/units.ts';
import type { FilmView } from './film-view.ts';
import type { MarkMoves } from './mark-moves.ts';
import type { PlateDrawing } from './plate-drawing.ts';
import type { PlateEvents } from './plate-events.ts';
import type { Nudge } from './tools/nudging.ts';

/** Where a point is, for reading out: film coordinates to a tenth of a pixel. */
export const coordinates = ({ column, row }: FilmPoint): string =>
  `column ${column.toFixed(1)}, row ${row.toFixed(1)}`;

/** Moves control points on behalf of the pointer and the keyboard, and tells the app of it. */
export class MarkEditing {
  /** @param onDone - Told when a move has ended, either way. */
  constructor(
    private readonly marks: MarkMoves,
    private readonly view: FilmView,
    private readonly drawing: PlateDrawing,
    private readonly events: PlateEvents,
    private readonly onDone: () => void,
  ) {}

  /** Moves a point along the screen by CSS pixels, and says where it is then. */
  nudge(point: PointRef, by: Nudge): void {
    const at = this.marks.pointAt(point);
    const { projection } = this.view;
    if (at === null || projection === null) return;
    const { x, y } = toScreen(projection, at);
    this.moveTo(point, screenPoint(x + by.x, y + by.y));
    const moved = this.marks.pointAt(point) ?? at;
    this.events.onAnnounce(`${this.marks.nameOf(point)}: ${coordinates(moved)}`);
  }

  moveTo(point: PointRef, to: ScreenPoint): void {
    const { projection } = this.view;
    if (projection === null) return;
    const begins = this.marks.movingId === null;
    const moved = this.marks.move(point, toFilm(projection, to));
    // As a move begins, its mark goes over to the active layer.
    this.drawing.makeOld(begins);
    if (moved !== null) this.events.onPreview(moved.markId, moved.shape);
  }

  /** Ends the move, if there is one, as a change of the case. */
  commit(): void {
    const moved = this.marks.finish();
    this.drawing.makeOld(true);
    this.onDone();
    if (moved !== null) this.events.onCommit(moved.markId, moved.shape, moved.label);
  }

  putBack(): void {
    const markId = this.marks.putBack();
    this.drawing.makeOld(true);
    this.onDone();
    if (markId !== null) this.events.onPreview(markId, null);
  }
}
