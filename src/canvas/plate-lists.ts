import type { RecordId } from '../case/document.ts';
import type { Placing } from '../case/placing.ts';
import type { Axis } from '../geometry/axis.ts';
import { orientPair } from '../geometry/orient.ts';
import { type PlaneScale, toFilm, toPlane } from '../geometry/spacing.ts';
import type { ScreenPoint } from '../geometry/units.ts';
import { paintAngle } from './angle-painter.ts';
import type { DrawCommand } from './draw-command.ts';
import { draftFigure, joinFrom } from './figure.ts';
import type { NamedList } from './mark-layers.ts';
import { paintCross, paintFigure, paintJoin } from './painter.ts';
import type { PlateSize } from './plate-view.ts';
import { type Projection, pixelsPerColumn, toScreen } from './projection.ts';
import { paintScaleBar } from './scale-bar.ts';
import type { Figure, FilmSegment, PointRef, Readouts } from './scene.ts';
import { STROKES, type StrokeScale } from './strokes.ts';

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
  if (!state.showAngle || state.filmId === null) return [];
  const axisOf = (role: Figure['role']): FilmSegment | null =>
    [...state.figures.values()].find((figure) => figure.role === role && figure.style !== 'observer')?.axis ??
    null;
  const proximal = axisOf('proximal-axis');
  const distal = axisOf('distal-axis');
  if (proximal === null || distal === null) return [];
  const onPlane = ({ from, to }: FilmSegment): Axis => ({
    from: toPlane(from, state.plane),
    to: toPlane(to, state.plane),
  });
  const onFilm = ({ from, to }: Axis): FilmSegment => ({
    from: toFilm(from, state.plane),
    to: toFilm(to, state.plane),
  });
  // Drawn as it is measured: both axes run from proximal to distal, whichever way they were placed.
  const pair = orientPair(onPlane(proximal), onPlane(distal));
  const readout = state.readouts.get(state.filmId) ?? null;
  const commands = paintAngle(onFilm(pair.proximal), onFilm(pair.distal), projection, state.strokes, readout);
  return [{ id: 'angle', commands }];
}
