import type { Assessment } from '../../case/assessment.ts';
import type { RecordId } from '../../case/document.ts';
import { formatReading } from '../../case/format.ts';
import { paintAngleOf } from '../../drawing/angle-of-axes.ts';
import type { DrawCommand } from '../../drawing/draw-command.ts';
import { figureOf } from '../../drawing/figure.ts';
import { paintFigure } from '../../drawing/painter.ts';
import { projectionOfArea } from '../../drawing/projection.ts';
import { barLengthMm, paintScaleBar } from '../../drawing/scale-bar.ts';
import { ownMark, type Readout } from '../../drawing/scene.ts';
import type { StrokeScale } from '../../drawing/strokes.ts';
import { clearLabels } from './clear-labels.ts';
import type { MeasureText } from './panel.ts';
import type { FilmToPlan, SnapshotChoice } from './snapshot-plan.ts';

/** Drawing units: a film of this width has the strokes of the plate, a wider one wider ones. */
const PLAIN_WIDTH = 460;

/** Strokes and text for a film of a width, so that they are as well seen in a large picture as in a small one. */
function strokesFor(width: number): StrokeScale {
  const stroke = Math.min(2, Math.max(1, width / PLAIN_WIDTH));
  return { stroke, text: 1 + (stroke - 1) / 2 };
}

/** A film as it is laid out. */
interface LaidOut {
  /** In drawing units. */
  readonly width: number;
  /** Of the scale bar, where films stand together; else what suits the film. */
  readonly barMm?: number | undefined;
}

/** The longest length that suits the scale bars of all films that have one; undefined: none has. */
export function commonBarMm(
  films: readonly { readonly film: FilmToPlan; readonly width: number }[],
): number | undefined {
  const lengths = films.flatMap(({ film: { area, plane }, width }) =>
    plane.unit === 'mm'
      ? [barLengthMm(width / area.columns / plane.perColumn, width, strokesFor(width))]
      : [],
  );
  return lengths.length === 0 ? undefined : Math.min(...lengths);
}

/** What is drawn over a film, in drawing units from its top left corner. */
export function markCommands(
  { marked: { film, marks }, area, plane }: FilmToPlan,
  assessment: Assessment,
  { marks: wanted, labels }: Pick<SnapshotChoice, 'marks' | 'labels'>,
  { width, barMm }: LaidOut,
  measure: MeasureText,
): readonly DrawCommand[] {
  if (!wanted) return [];
  const perColumn = width / area.columns;
  const perRow = (perColumn * plane.perRow) / plane.perColumn;
  const projection = projectionOfArea(area, perColumn, perRow);
  const figures = Object.values(marks).map((record) => figureOf(ownMark(record), plane));
  const scale = strokesFor(width);
  const options = { scale, focusedKey: null, readout: null };
  const size = { width, height: area.rows * perRow };
  const readout = labels ? angleReadout(assessment, film.id) : null;
  const drawn = [
    ...figures.flatMap((figure) => paintFigure({ ...figure, showPoints: false }, projection, options)),
    ...paintAngleOf(figures, plane, projection, scale, readout),
  ];
  // A scale bar without its number says nothing.
  if (!labels) return drawn.filter(({ kind }) => kind !== 'text');
  const bar = plane.unit === 'mm' ? paintScaleBar(perColumn / plane.perColumn, size, scale, barMm) : [];
  return clearLabels([...bar, ...drawn], size, measure);
}

function angleReadout(assessment: Assessment, filmId: RecordId): Readout | null {
  for (const reading of assessment.readings) {
    if (reading.filmId !== filmId || reading.quantity !== 'angulation' || reading.state !== 'known') continue;
    const { value, plusMinus } = formatReading(reading);
    return { value, uncertainty: plusMinus };
  }
  return null;
}
