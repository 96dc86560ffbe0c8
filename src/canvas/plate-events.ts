import type { MarkShape, RecordId } from '../case/document.ts';
import type { PointRef } from '../drawing/scene.ts';
import type { FilmPoint } from '../geometry/units.ts';
import type { PlateView } from './plate-view.ts';

/** What the plate tells the app. It changes nothing of the case itself. */
export interface PlateEvents {
  /** A mark is being moved and has this shape for the moment; null: it was put back. */
  readonly onPreview: (markId: RecordId, shape: MarkShape | null) => void;
  /**
   * A mark was moved. The plate shows the new shape until the next `setMarks`, which is due even if the
   * change is refused. `label` completes "Undo …".
   */
  readonly onCommit: (markId: RecordId, shape: MarkShape, label: string) => void;
  /** The next point of the draft, or the next tap, was placed. The app answers with `setPlacing` or `setTracing`. */
  readonly onPlacingPoint: (point: FilmPoint) => void;
  /** A point of a found outline was put elsewhere. The app answers with `setTracing`. */
  readonly onHold: (key: string, at: FilmPoint) => void;
  /**
   * The view changed by hand, or because the plate changed its size while it showed the whole film. `whole`:
   * it is the whole film; bring it back with `wholeFilm()`, since another plate has another size.
   */
  readonly onView: (view: PlateView, whole: boolean) => void;
  /** The control point that has the focus. */
  readonly onFocus: (point: PointRef | null) => void;
  /** A sentence for a live region: where the point is that the keyboard moves. */
  readonly onAnnounce: (text: string) => void;
}
