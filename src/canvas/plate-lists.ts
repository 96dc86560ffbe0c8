import type { RecordId } from '../case/document.ts';
import type { Placing } from '../case/placing.ts';
import { paintAngleOf } from '../drawing/angle-of-axes.ts';
import type { DrawCommand } from '../drawing/draw-command.ts';
import { draftFigure, joinFrom } from '../drawing/figure.ts';
import { paintCross, paintFigure, paintJoin } from '../drawing/painter.ts';
import { type Projection, pixelsPerColumn, toScreen } from '../drawing/projection.ts';
import { paintScaleBar } from '../drawing/scale-bar.ts';
import type { Figure, PointRef, Readouts } from '../drawing/scene.ts';
import { STROKES, type StrokeScale } from '../drawing/strokes.ts';
import type { PlaneScale } from '../geometry/spacing.ts';
import type { ScreenPoint } from '../geometry/units.ts';
import type { NamedList } from './mark-layers.ts';
import type { PlateSize } from './plate-view.ts';

/** All that the plate shows above the film at one moment. */
export interface PlateState {
  readonly filmId: RecordId | null;
  readonly figures: ReadonlyMap<RecordId, Figure>;
  readonly showAngle: boolean;
  readonly readouts: Readouts;
  readonly strokes: StrokeScale;
  readonly plane: PlaneScale;
  readonly size: PlateSize;
  /** The mark that is being moved; it is drawn on the active layer. */
  readonly movingId: RecordId | null;
  readonly focused: PointRef | null;
  readonly placing: Placing | null;
  /** Where the next point of the draft would be placed. */
  readonly aim: ScreenPoint | null;
}

/** What rests: every mark but the one being moved, the angle while neither axis is, and the scale bar. */
export function restingLists(state: PlateState, projection: Projection): NamedList[] {
  const lists: NamedList[] = [...state.figures]
    .filter(([id]) => id !== state.movingId)
    .map(([id, figure]) => ({ id: `mark ${id}`, commands: figureList(state, id, figure, projection) }));
  if (state.movingId === null) lists.push(...angleLists(state, projection));
  const { unit, perColumn } = state.plane;
  if (unit === 'mm') {
    const commands = paintScaleBar(pixelsPerColumn(projection) / perColumn, state.size, state.strokes);
    lists.push({ id: 'scale bar', commands });
  }
  return lists;
}

/** What moves with the pointer: the mark being moved and the angle with it, or the draft. */
export function activeLists(state: PlateState, projection: Projection): NamedList[] {
  const lists: NamedList[] = [];
  const moving = state.movingId === null ? undefined : state.figures.get(state.movingId);
  if (state.movingId !== null && moving !== undefined) {
    lists.push({ id: 'moving', commands: figureList(state, state.movingId, moving, projection) });
    lists.push(...angleLists(state, projection));
  }
  if (state.placing !== null) {
    const figure = draftFigure(state.placing, state.plane);
    const draft = paintFigure(figure, projection, { scale: state.strokes, focusedKey: null, readout: null });
    const from = joinFrom(state.placing);
    if (from !== null && state.aim !== null) {
      draft.push(paintJoin(toScreen(projection, from), state.aim, STROKES[figure.style], state.strokes));
    }
    lists.push({ id: 'draft', commands: draft });
    if (state.aim !== null) lists.push({ id: 'cross', commands: paintCross(state.aim, state.strokes) });
  }
  return lists;
}

/** The marks as the inset shows them: lines alone, since its point is in the middle of a cross. */
export function insetList(state: PlateState, projection: Projection, middle: ScreenPoint): DrawCommand[] {
  const lines = [...state.figures.values()].flatMap((figure) =>
    paintFigure({ ...figure, showPoints: false }, projection, {
      scale: state.strokes,
      focusedKey: null,
      readout: null,
    }),
  );
  return [...lines, ...paintCross(middle, state.strokes)];
}

function figureList(
  state: PlateState,
  id: RecordId,
  figure: Figure,
  projection: Projection,
): readonly DrawCommand[] {
  return paintFigure(figure, projection, {
    scale: state.strokes,
    focusedKey: state.focused?.markId === id ? state.focused.key : null,
    readout: state.readouts.get(id) ?? null,
  });
}

function angleLists(state: PlateState, projection: Projection): readonly NamedList[] {
  const { showAngle, filmId, figures, plane, readouts, strokes } = state;
  if (!showAngle || filmId === null) return [];
  const readout = readouts.get(filmId) ?? null;
  const commands = paintAngleOf([...figures.values()], plane, projection, strokes, readout);
  return commands.length === 0 ? [] : [{ id: 'angle', commands }];
}
