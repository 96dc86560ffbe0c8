import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument, RecordId } from '../../case/document.ts';
import { type MarkedFilm, markedFilm } from '../../case/film-marks.ts';
import { formatReading } from '../../case/format.ts';
import { paintAngleOf } from '../../drawing/angle-of-axes.ts';
import type { DrawCommand } from '../../drawing/draw-command.ts';
import { figureOf } from '../../drawing/figure.ts';
import { paintFigure } from '../../drawing/painter.ts';
import type { Projection } from '../../drawing/projection.ts';
import { paintScaleBar } from '../../drawing/scale-bar.ts';
import { ownMark, type Readout } from '../../drawing/scene.ts';
import { READING } from '../../drawing/strokes.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { snapshotContent } from './content.ts';
import { type MeasureText, setPanel } from './panel.ts';

/** A snapshot ready to be drawn. All lengths in px of the finished picture. */
export interface SnapshotPlan {
  readonly width: number;
  readonly height: number;
  /** Where the film goes; it is drawn upright, as stored, at its own resolution or a whole multiple of it. */
  readonly film: { readonly width: number; readonly height: number };
  /** Drawn over the film, clipped to it, with a dark casing; in units of `strokeScale` px. */
  readonly marks: readonly DrawCommand[];
  /** Drawn on paper beside the film, without casing; in units of `strokeScale` px from its own corner. */
  readonly panel: readonly DrawCommand[];
  readonly panelAt: { readonly x: number; readonly y: number };
  /** Px per drawing unit: text and strokes keep their proportion to films of any size. */
  readonly strokeScale: number;
}

export type SnapshotError =
  | { readonly kind: 'no-such-film' }
  | { readonly kind: 'too-large'; readonly width: number; readonly height: number; readonly most: number };

export function snapshotErrorSentence(error: SnapshotError): string {
  switch (error.kind) {
    case 'no-such-film':
      return 'No snapshot was made: the film is not part of this case any longer. Choose a film on the strip.';
    case 'too-large':
      return `No snapshot was made: it would be ${error.width} by ${error.height} pixels, and this browser draws at most ${error.most} on a side. Save it as SVG instead.`;
  }
}

/** Drawing units: a film is shown about this wide beside a panel of readable text. */
const FILM_UNITS = 820;
const PANEL_UNITS = 420;
const MARGIN = 28;

/**
 * Lays a film out with its marks and what is written beside it.
 *
 * The film keeps its own resolution. A film smaller than the drawing units is enlarged by a whole number, so
 * that its pixels stay what they are. Rows are stretched where the spacings differ, as on the plate.
 */
export function planSnapshot(
  document: CaseDocument,
  assessment: Assessment,
  filmId: RecordId,
  measure: MeasureText,
): Result<SnapshotPlan, SnapshotError> {
  const marked = markedFilm(document, filmId);
  const content = snapshotContent(document, assessment, filmId);
  if (marked === null || content === null) return failure({ kind: 'no-such-film' });
  const { film } = marked;
  const plane = planeScale(film.spacing);
  const rowStretch = plane.perRow / plane.perColumn;
  const enlarged = Math.max(1, Math.ceil(FILM_UNITS / 2 / film.columns));
  const filmSize = {
    width: film.columns * enlarged,
    height: Math.round(film.rows * enlarged * rowStretch),
  };
  const strokeScale = Math.max(filmSize.width, filmSize.height * 0.7) / FILM_UNITS;
  const projection: Projection = {
    a: enlarged / strokeScale,
    b: 0,
    c: 0,
    d: (enlarged * rowStretch) / strokeScale,
    e: 0,
    f: 0,
  };
  const panel = setPanel(content, PANEL_UNITS - 2 * MARGIN, measure);
  const panelHeight = (panel.height + 2 * MARGIN) * strokeScale;
  return success({
    width: Math.round(filmSize.width + PANEL_UNITS * strokeScale),
    height: Math.round(Math.max(filmSize.height, panelHeight)),
    film: filmSize,
    marks: markCommands(marked, assessment, projection, {
      width: filmSize.width / strokeScale,
      height: filmSize.height / strokeScale,
    }),
    panel: panel.commands,
    panelAt: { x: filmSize.width + MARGIN * strokeScale, y: MARGIN * strokeScale },
    strokeScale,
  });
}

function markCommands(
  { film, marks }: MarkedFilm,
  assessment: Assessment,
  projection: Projection,
  size: { readonly width: number; readonly height: number },
): readonly DrawCommand[] {
  const plane = planeScale(film.spacing);
  const figures = Object.values(marks).map((record) => figureOf(ownMark(record), plane));
  const options = { scale: READING, focusedKey: null, readout: null };
  return [
    ...figures.flatMap((figure) => paintFigure({ ...figure, showPoints: false }, projection, options)),
    ...paintAngleOf(figures, plane, projection, READING, angleReadout(assessment, film.id)),
    ...(plane.unit === 'mm' ? paintScaleBar(projection.a / plane.perColumn, size, READING) : []),
  ];
}

function angleReadout(assessment: Assessment, filmId: RecordId): Readout | null {
  for (const reading of assessment.readings) {
    if (reading.filmId !== filmId || reading.quantity !== 'angulation' || reading.state !== 'known') continue;
    const { value, plusMinus } = formatReading(reading);
    return { value, uncertainty: plusMinus };
  }
  return null;
}
