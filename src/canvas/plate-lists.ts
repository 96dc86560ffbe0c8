import type { RecordId } from '../case/document.ts';
import type { Placing } from '../case/placing.ts';
import { paintAngleOf } from '../drawing/angle-of-axes.ts';
import { paintAngle } from '../drawing/angle-painter.ts';
import type { DrawCommand } from '../drawing/draw-command.ts';
import { draftFigure, joinFrom } from '../drawing/figure.ts';
import { paintCross, paintFigure, paintJoin } from '../drawing/painter.ts';
import { type Projection, pixelsPerColumn, toScreen } from '../drawing/projection.ts';
import { type Proposal, paintProposal, paintTaps } from '../drawing/proposal.ts';
import { paintScaleBar } from '../drawing/scale-bar.ts';
import type { Figure, PointRef, Readouts } from '../drawing/scene.ts';
import { STROKES, type StrokeScale } from '../drawing/strokes.ts';
import type { PlaneScale } from '../geometry/spacing.ts';
import type { FilmPoint, ScreenPoint } from '../geometry/units.ts';
import type { NamedList } from './mark-layers.ts';
import type { PlateSize } from './plate-view.ts';

/** What the plate shows of axes being traced: none of it is a mark. */
export interface PlateTracing {
  /** What the next tap is for, as a sentence; null: none is asked for. */
  readonly wanted: string | null;
  readonly taps: readonly FilmPoint[];
  readonly proposal: Proposal | null;
}

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
  readonly tracing: PlateTracing | null;
  /** Of a found outline, the point being moved. */
  readonly movingHold: FilmPoint | null;
  /** Where the next point of the draft, or the next tap, would be placed. */
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
  const lists: NamedList[] = tracingLists(state, projection);
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
  }
  if (state.aim !== null) lists.push({ id: 'cross', commands: paintCross(state.aim, state.strokes) });
  return lists;
}

/** What was found, and the taps while they are asked for. */
function tracingLists(state: PlateState, projection: Projection): NamedList[] {
  const { tracing, strokes } = state;
  if (tracing === null) return [];
  const lists: NamedList[] = [];
  const { proposal } = tracing;
  if (proposal !== null) {
    const { proximal, distal, readout } = proposal;
    lists.push({
      id: 'proposal',
      commands: [
        ...paintProposal(proposal, projection, { scale: strokes, focusedKey: state.focused?.key ?? null }),
        ...paintAngle(proximal, distal, projection, strokes, readout),
      ],
    });
  }
  if (tracing.taps.length > 0) {
    lists.push({ id: 'taps', commands: paintTaps(tracing.taps, projection, strokes) });
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
  const found = state.tracing?.proposal ?? null;
  const outlines =
    found === null
      ? []
      : paintProposal({ ...found, holds: [] }, projection, { scale: state.strokes, focusedKey: null });
  return [...lines, ...outlines, ...paintCross(middle, state.strokes)];
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
  const { showAngle, filmId, figures, plane, readouts, strokes, tracing } = state;
  // A proposal brings an angle of its own.
  if (!showAngle || filmId === null || tracing?.proposal != null) return [];
  const readout = readouts.get(filmId) ?? null;
  const commands = paintAngleOf([...figures.values()], plane, projection, strokes, readout);
  return commands.length === 0 ? [] : [{ id: 'angle', commands }];
}
