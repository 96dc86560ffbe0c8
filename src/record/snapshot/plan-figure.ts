import type { Assessment } from '../../case/assessment.ts';
import { PALETTES } from './ground.ts';
import { commonBarMm, markCommands } from './marks.ts';
import { type MeasureText, setCaption, setFoot, setHead } from './panel.ts';
import type { FilmToPlan, PlannedFilm, SnapshotChoice, SnapshotPlan } from './snapshot-plan.ts';

/** Drawing units: the most that one film of a figure takes up, and the white between films and around them. */
const LARGE = { cell: { width: 460, height: 620 }, gap: 26, margin: 28 } as const;
/** On a page the text of the page is around it, and numbers have to be read at a third of the size. */
const SMALL = { cell: { width: 230, height: 310 }, gap: 8, margin: 0 } as const;
/** Px; a figure of large films is drawn smaller, since it is looked at as a whole. */
const LONGEST_SIDE = 8000;

const IN_ROW: readonly number[] = [1, 1, 2, 3, 2, 3, 3];
const MOST_IN_ROW = 4;

/**
 * Several films side by side, each over its caption. Films whose millimetres are all known are drawn to one scale,
 * so that bones can be compared by eye; else each is as large as its place. Their scale bars are of one length.
 */
export function planFigure(
  films: readonly FilmToPlan[],
  assessment: Assessment,
  choice: SnapshotChoice,
  measure: MeasureText,
): SnapshotPlan {
  const palette = PALETTES[choice.ground];
  const { cell, gap, margin } = choice.small === true ? SMALL : LARGE;
  const sizes = filmSizes(films, cell);
  const inRow = IN_ROW[films.length] ?? MOST_IN_ROW;
  const column = Math.max(...sizes.map(({ width }) => width));
  const across = inRow * column + (inRow - 1) * gap;
  const [first] = films;
  const panels: { x: number; y: number; commands: SnapshotPlan['panels'][number]['commands'] }[] = [];
  const placed: { film: FilmToPlan; x: number; y: number; width: number; height: number }[] = [];
  let y = margin;
  const put = (panel: ReturnType<typeof setHead>, x: number, top: number): number => {
    panels.push({ x, y: top, commands: panel.commands });
    return panel.height;
  };
  if (choice.words && first !== undefined) {
    y += put(setHead(first.content, { width: across, measure, palette }), margin, y);
  }
  for (let start = 0; start < films.length; start += inRow) {
    const row = films.slice(start, start + inRow);
    const tallest = Math.max(...row.map((_, index) => sizes[start + index]?.height ?? 0));
    let captions = 0;
    for (const [index, film] of row.entries()) {
      const size = sizes[start + index];
      if (size === undefined) continue;
      const x = margin + index * (column + gap);
      placed.push({ film, x, y, ...size });
      if (!choice.words) continue;
      const caption = setCaption(film.content, { width: column, measure, palette });
      captions = Math.max(captions, put(caption, x, y + tallest + 10) + 10);
    }
    y += tallest + captions + gap;
  }
  y -= gap;
  if (choice.words && first !== undefined) {
    y += put(setFoot(first.content, { width: across, measure, palette }), margin, y);
  }
  const [width, height] = [across + 2 * margin, y + margin];
  // The finest film keeps its resolution, as far as the whole stays in bounds.
  const finest = Math.max(...placed.map(({ film, width: wide }) => film.area.columns / wide));
  const strokeScale = Math.min(finest, LONGEST_SIDE / Math.max(width, height));
  const barMm = commonBarMm(placed);
  const scaled = (units: number) => Math.round(units * strokeScale);
  return {
    width: scaled(width),
    height: scaled(height),
    palette,
    films: placed.map(
      ({ film, ...at }): PlannedFilm => ({
        id: film.marked.film.id,
        x: scaled(at.x),
        y: scaled(at.y),
        width: scaled(at.width),
        height: scaled(at.height),
        marks: markCommands(film, assessment, choice, { width: at.width, barMm }, measure),
      }),
    ),
    panels: panels.map((panel) => ({ ...panel, x: panel.x * strokeScale, y: panel.y * strokeScale })),
    strokeScale,
    pixelsPerMm: pixelsPerMm(placed, strokeScale),
  };
}

const inMillimetres = (films: readonly FilmToPlan[]): boolean =>
  films.every(({ plane }) => plane.unit === 'mm');

/** Size of each film in drawing units. */
function filmSizes(
  films: readonly FilmToPlan[],
  cell: { readonly width: number; readonly height: number },
): readonly { readonly width: number; readonly height: number }[] {
  const sizes = films.map(({ area, plane }) => ({
    width: area.columns * plane.perColumn,
    height: area.rows * plane.perRow,
  }));
  const fits = sizes.map(({ width, height }) => Math.min(cell.width / width, cell.height / height));
  const common = Math.min(...fits);
  return sizes.map(({ width, height }, index) => {
    const unitsPer = inMillimetres(films) ? common : (fits[index] ?? common);
    return { width: width * unitsPer, height: height * unitsPer };
  });
}

function pixelsPerMm(
  placed: readonly { readonly film: FilmToPlan; readonly width: number }[],
  strokeScale: number,
): number | null {
  const [first] = placed;
  if (first === undefined || !inMillimetres(placed.map(({ film }) => film))) return null;
  return (first.width * strokeScale) / (first.film.area.columns * first.film.plane.perColumn);
}
