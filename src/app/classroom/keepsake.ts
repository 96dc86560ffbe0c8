import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument, FilmRecord } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { formatReading } from '../../case/format.ts';
import { type DemoStep, documentOfStep } from '../../classroom/demonstration.ts';
import { paintAngleOf } from '../../drawing/angle-of-axes.ts';
import type { DrawCommand } from '../../drawing/draw-command.ts';
import { figureOf } from '../../drawing/figure.ts';
import { paintFigure } from '../../drawing/painter.ts';
import { projectionOfArea } from '../../drawing/projection.ts';
import { ownMark } from '../../drawing/scene.ts';
import { PROJECTOR } from '../../drawing/strokes.ts';
import type { Film } from '../../film/film.ts';
import type { Light } from '../../film/grey-scale.ts';
import type { Result } from '../../geometry/result.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { filmPicture } from '../../record/snapshot/film-picture.ts';
import { planSnapshot, type SnapshotError } from '../../record/snapshot/plan.ts';
import { drawSnapshot, measureWithCanvas } from '../../record/snapshot/raster.ts';
import type { LimitSet } from '../../tolerance/limit-set.ts';
import { assessmentOf } from '../assessment.ts';

/** A demonstration as it is kept: the film with its measurement, without a name or a file. */
export interface Demonstrated {
  readonly document: CaseDocument;
  readonly record: FilmRecord;
  readonly film: Film;
  readonly light: Light;
}

/** The film of a step, cropped as it was shown, with its marks drawn as large as on the stage. */
export function pictureOfStep(
  { document, record, film, light }: Demonstrated,
  step: DemoStep,
  limitSets: readonly LimitSet[],
): Result<OffscreenCanvas, SnapshotError> {
  const shown = documentOfStep(document, record.id, step);
  const assessment = assessmentOf(shown, limitSets);
  const choice = {
    films: [{ id: record.id, area: step.part }],
    marks: false,
    labels: false,
    words: false,
    ground: 'white',
  } as const;
  const planned = planSnapshot(shown, assessment, choice, measureWithCanvas());
  if (!planned.ok) return planned;
  const { films, strokeScale } = planned.value;
  const plan = {
    ...planned.value,
    films: films.map((one) => ({
      ...one,
      marks: largeMarks(shown, assessment, record, step, { ...one, strokeScale }),
    })),
  };
  return drawSnapshot(
    plan,
    new Map([[record.id, filmPicture(film, light, { area: step.part, covered: [] })]]),
  );
}

/** The marks of a step in the projector's strokes, in the units a snapshot is drawn in. */
function largeMarks(
  document: CaseDocument,
  assessment: Assessment,
  record: FilmRecord,
  step: DemoStep,
  {
    width,
    height,
    strokeScale,
  }: { readonly width: number; readonly height: number; readonly strokeScale: number },
): readonly DrawCommand[] {
  const part = step.part ?? { column: 0, row: 0, columns: record.columns, rows: record.rows };
  const perColumn = width / part.columns / strokeScale;
  const perRow = height / part.rows / strokeScale;
  const projection = projectionOfArea(part, perColumn, perRow);
  const plane = planeScale(record.spacing);
  const figures = Object.values(markedFilm(document, record.id)?.marks ?? {}).map((mark) =>
    figureOf(ownMark(mark), plane),
  );
  const reading = assessment.readings.find(
    (one) => one.filmId === record.id && one.quantity === 'angulation',
  );
  const text = reading?.state === 'known' ? formatReading(reading) : null;
  const readout = text === null ? null : { value: text.value, uncertainty: text.plusMinus };
  return [
    ...figures.flatMap((figure) =>
      paintFigure(figure, projection, { scale: PROJECTOR, focusedKey: null, readout: null }),
    ),
    ...(step.showAngle ? paintAngleOf(figures, plane, projection, PROJECTOR, readout) : []),
  ];
}
