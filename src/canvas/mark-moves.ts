import type { MarkShape, RecordId } from '../case/document.ts';
import { movePoint } from '../case/marks.ts';
import { roleName } from '../case/roles.ts';
import { figureOf } from '../drawing/figure.ts';
import type { Figure, MarkScene, PointRef, SceneMark } from '../drawing/scene.ts';
import type { PlaneScale } from '../geometry/spacing.ts';
import type { FilmPoint } from '../geometry/units.ts';

/** A mark with the shape it has while it is being moved. */
export interface MovedMark {
  readonly markId: RecordId;
  readonly shape: MarkShape;
  /** What was done, to complete "Undo …". */
  readonly label: string;
}

/**
 * The marks as they are shown: those of the scene, except that the one being moved has the shape it has at
 * the moment. A finished move is shown until the next scene, so that the mark does not jump back meanwhile.
 */
export class MarkMoves {
  scene: MarkScene | null = null;
  /** Figures by mark id, in the order of the scene. */
  figures: ReadonlyMap<RecordId, Figure> = new Map();
  private plane: PlaneScale = { unit: 'column', perColumn: 1, perRow: 1 };
  private moving: MovedMark | null = null;
  private readonly finished = new Map<RecordId, MovedMark>();
  private kept = new Map<RecordId, { readonly mark: SceneMark; readonly figure: Figure }>();

  get movingId(): RecordId | null {
    return this.moving?.markId ?? null;
  }

  setScene(scene: MarkScene): void {
    this.scene = scene;
    this.finished.clear();
    const gone = !scene.marks.some(({ record }) => record.id === this.moving?.markId);
    if (gone) this.moving = null;
    this.refresh();
  }

  /** Another film has another plane: circles and fitted lines are worked out anew. */
  setPlane(plane: PlaneScale): void {
    this.plane = plane;
    this.kept.clear();
    this.refresh();
  }

  pointAt({ markId, key }: PointRef): FilmPoint | null {
    return this.figures.get(markId)?.points.find((point) => point.key === key)?.at ?? null;
  }

  nameOf({ markId, key }: PointRef): string {
    return this.figures.get(markId)?.points.find((point) => point.key === key)?.name ?? '';
  }

  /** Moves a point for the moment; null if its mark is no longer there. */
  move({ markId, key }: PointRef, to: FilmPoint): MovedMark | null {
    const mark = this.scene?.marks.find(({ record }) => record.id === markId);
    if (mark === undefined) return null;
    const { role } = mark.record;
    const shape = movePoint(this.shapeOf(mark), key, to);
    this.moving = { markId, shape, label: `move ${roleName(role)}` };
    this.refresh();
    return this.moving;
  }

  /** The move is done; null if nothing was moved. */
  finish(): MovedMark | null {
    const { moving } = this;
    if (moving !== null) this.finished.set(moving.markId, moving);
    this.moving = null;
    this.refresh();
    return moving;
  }

  /** The mark goes back to where it was; null if nothing was moved. */
  putBack(): RecordId | null {
    const markId = this.movingId;
    this.moving = null;
    this.refresh();
    return markId;
  }

  private shapeOf({ record }: SceneMark): MarkShape {
    if (this.moving?.markId === record.id) return this.moving.shape;
    return this.finished.get(record.id)?.shape ?? record.shape;
  }

  private refresh(): void {
    const figures = new Map<RecordId, Figure>();
    const kept: typeof this.kept = new Map();
    for (const mark of this.scene?.marks ?? []) {
      const { record } = mark;
      const shape = this.shapeOf(mark);
      const before = this.kept.get(record.id);
      const same =
        before?.mark.record.shape === shape &&
        before.mark.style === mark.style &&
        before.mark.editable === mark.editable;
      const shown: SceneMark = { ...mark, record: { ...record, shape } };
      const figure = same ? before.figure : figureOf(shown, this.plane);
      kept.set(record.id, { mark: shown, figure });
      figures.set(record.id, figure);
    }
    this.kept = kept;
    this.figures = figures;
  }
}
