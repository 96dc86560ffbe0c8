import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilm } from '../../case/film-marks.ts';
import { failure, type Result, success } from '../../geometry/result.ts';
import { planeScale } from '../../geometry/spacing.ts';
import { snapshotContent } from './content.ts';
import { PALETTES } from './ground.ts';
import { markCommands } from './marks.ts';
import { type MeasureText, setBeside, setUnder } from './panel.ts';
import { planFigure } from './plan-figure.ts';
import type { FilmToPlan, SnapshotChoice, SnapshotPlan } from './snapshot-plan.ts';

export type SnapshotError =
  | { readonly kind: 'no-such-film' }
  | { readonly kind: 'too-large'; readonly width: number; readonly height: number };

export function snapshotErrorSentence(error: SnapshotError): string {
  switch (error.kind) {
    case 'no-such-film':
      return 'No snapshot was made: the film is not part of this case any longer. Choose a film on the strip.';
    case 'too-large':
      return `No picture was made: it would be ${error.width} by ${error.height} pixels, more than this browser draws. Save it as SVG, or take the part of the film that is on the plate.`;
  }
}

/** Drawing units: a film is shown about this wide beside a panel of readable text. */
const FILM_UNITS = 820;
/** The same where it is looked at small: a third of a page wide, text of its size is still read. */
const SMALL_FILM_UNITS = 300;
const PANEL_UNITS = 420;
const MARGIN = 28;

/** Lays films out with their marks and what is written beside them. */
export function planSnapshot(
  document: CaseDocument,
  assessment: Assessment,
  choice: SnapshotChoice,
  measure: MeasureText,
): Result<SnapshotPlan, SnapshotError> {
  const films: FilmToPlan[] = [];
  for (const { id, area } of choice.films) {
    const marked = markedFilm(document, id);
    const content = snapshotContent(document, assessment, id);
    if (marked === null || content === null) return failure({ kind: 'no-such-film' });
    const { columns, rows, spacing } = marked.film;
    films.push({
      marked,
      content,
      area: area ?? { column: 0, row: 0, columns, rows },
      plane: planeScale(spacing),
    });
  }
  const [first, second] = films;
  if (first === undefined) return failure({ kind: 'no-such-film' });
  return success(
    second === undefined
      ? planOne(first, assessment, choice, measure)
      : planFigure(films, assessment, choice, measure),
  );
}

/**
 * The film keeps its own resolution. One smaller than the drawing units is enlarged by a whole number, so that its
 * pixels stay what they are. Rows are stretched where the spacings differ, as on the plate.
 */
function planOne(
  film: FilmToPlan,
  assessment: Assessment,
  choice: SnapshotChoice,
  measure: MeasureText,
): SnapshotPlan {
  const { area, plane } = film;
  const enlarged = Math.max(1, Math.ceil(FILM_UNITS / 2 / area.columns));
  const width = area.columns * enlarged;
  const height = Math.round((area.rows * enlarged * plane.perRow) / plane.perColumn);
  const units = choice.small === true ? SMALL_FILM_UNITS : FILM_UNITS;
  const strokeScale = Math.max(width, height * 0.7) / units;
  const written = choice.words
    ? writtenParts(film, choice.ground, measure, { width: width / strokeScale, height: height / strokeScale })
    : { panels: [], width: width / strokeScale, height: height / strokeScale };
  return {
    width: Math.round(written.width * strokeScale),
    height: Math.round(written.height * strokeScale),
    palette: PALETTES[choice.ground],
    films: [
      {
        id: film.marked.film.id,
        x: 0,
        y: 0,
        width,
        height,
        marks: markCommands(film, assessment, choice, { width: width / strokeScale }, measure),
      },
    ],
    panels: written.panels.map(({ x, y, commands }) => ({
      x: x * strokeScale,
      y: y * strokeScale,
      commands,
    })),
    strokeScale,
    pixelsPerMm: plane.unit === 'mm' ? enlarged / plane.perColumn : null,
  };
}

/** What is written with one film, and the size of it all, in drawing units. */
type Written = Pick<SnapshotPlan, 'panels' | 'width' | 'height'>;

/** All beside the film where it is high enough for that; else cautions and what follows run under both. */
function writtenParts(
  { content }: FilmToPlan,
  ground: SnapshotChoice['ground'],
  measure: MeasureText,
  film: { readonly width: number; readonly height: number },
): Written {
  const palette = PALETTES[ground];
  const narrow = { width: PANEL_UNITS - 2 * MARGIN, measure, palette };
  const width = film.width + PANEL_UNITS;
  const beside = setBeside(content, narrow);
  const first = { x: film.width + MARGIN, y: MARGIN, commands: beside.commands };
  const below = setUnder(content, narrow);
  const column = 2 * MARGIN + beside.height + below.height;
  if (column <= film.height) {
    const second = { x: first.x, y: MARGIN + beside.height, commands: below.commands };
    return { panels: [first, second], width, height: film.height };
  }
  const under = setUnder(content, { width: width - 2 * MARGIN, measure, palette });
  const top = Math.max(film.height + MARGIN / 2, MARGIN + beside.height);
  return {
    panels: [first, { x: MARGIN, y: top, commands: under.commands }],
    width,
    height: top + under.height + MARGIN,
  };
}
