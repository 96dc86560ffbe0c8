import type { FilmArea, GreyPicture } from './film-picture.ts';

/**
 * Grey levels between two pixels that are two apart: bone and skin are softer than that on any film, letters that a
 * computer wrote are not.
 */
const SHARP = 72;
/** Of the longest side: cells in which sharp steps are counted. */
const CELLS_ALONG = 360;
/** Cells between two letters of a word, or two words of a line. */
const REACH = { columns: 8, rows: 1 } as const;
/** Px; smaller letters cannot be read. */
const LOWEST = 6;
/**
 * Strokes are crossed so often along the rows of a line of text; a wire, a rim or a shutter is crossed once or
 * twice. A box around the text has rows without any.
 */
const CROSSINGS = 8;
const ROWS_WITH_STROKES = 0.2;
/** Of the height of the picture: what is higher is no text. */
const GREATEST_SHARE = 0.35;

/**
 * Where letters may be burned into a picture: groups of many sharp strokes side by side, as lines of text have
 * them. It errs on the side of finding nothing in bone, so it can miss letters, above all soft, faint or single
 * ones: whoever lets a picture leave looks at it.
 *
 * @param picture - As displayed.
 * @returns Rectangles with a margin around each group, from the top down.
 */
export function findText(picture: GreyPicture): readonly FilmArea[] {
  const { columns, rows } = picture;
  const cell = Math.max(2, Math.round(Math.max(columns, rows) / CELLS_ALONG));
  const busy = busyCells(picture, cell);
  return groupsOf(busy)
    .map(({ left, top, right, bottom }) => ({
      column: left * cell,
      row: top * cell,
      columns: Math.min((right + 1) * cell, columns) - left * cell,
      rows: Math.min((bottom + 1) * cell, rows) - top * cell,
    }))
    .filter((area) => isText(picture, area))
    .map((area) => withMargin(area, 2 * cell, picture));
}

interface Cells {
  readonly across: number;
  readonly down: number;
  /** 1 where a cell has a sharp edge through it. */
  readonly marks: Uint8Array;
}

function busyCells({ columns, rows, grey }: GreyPicture, cell: number): Cells {
  const across = Math.ceil(columns / cell);
  const down = Math.ceil(rows / cell);
  const steps = new Uint16Array(across * down);
  for (let row = 0; row < rows - 2; row += 1) {
    const base = Math.floor(row / cell) * across;
    for (let column = 0; column < columns - 2; column += 1) {
      const at = row * columns + column;
      const here = grey[at] ?? 0;
      const sideways = Math.abs((grey[at + 2] ?? 0) - here) >= SHARP;
      const downwards = Math.abs((grey[at + 2 * columns] ?? 0) - here) >= SHARP;
      if (sideways || downwards) {
        const place = base + Math.floor(column / cell);
        steps[place] = (steps[place] ?? 0) + 1;
      }
    }
  }
  return { across, down, marks: Uint8Array.from(steps, (count) => (count >= cell ? 1 : 0)) };
}

interface Group {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** Busy cells that lie within reach of one another, by the cells they span. */
function groupsOf({ across, down, marks }: Cells): readonly Group[] {
  const left = marks.slice();
  const groups: Group[] = [];
  for (let start = 0; start < left.length; start += 1) {
    if (left[start] !== 1) continue;
    left[start] = 0;
    const waiting = [start];
    const group: Group = { left: across, top: down, right: 0, bottom: 0 };
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      const [column, row] = [at % across, Math.floor(at / across)];
      group.left = Math.min(group.left, column);
      group.right = Math.max(group.right, column);
      group.top = Math.min(group.top, row);
      group.bottom = Math.max(group.bottom, row);
      for (let y = Math.max(0, row - REACH.rows); y <= Math.min(down - 1, row + REACH.rows); y += 1) {
        const [from, to] = [
          Math.max(0, column - REACH.columns),
          Math.min(across - 1, column + REACH.columns),
        ];
        for (let x = from; x <= to; x += 1) {
          const next = y * across + x;
          if (left[next] !== 1) continue;
          left[next] = 0;
          waiting.push(next);
        }
      }
    }
    groups.push(group);
  }
  return groups;
}

function isText(picture: GreyPicture, area: FilmArea): boolean {
  if (area.rows < LOWEST || area.columns < area.rows) return false;
  if (area.rows > GREATEST_SHARE * picture.rows) return false;
  let crossed = 0;
  for (let row = area.row; row < area.row + area.rows; row += 1) {
    if (crossings(picture, area, row) >= CROSSINGS) crossed += 1;
  }
  return crossed >= Math.max(LOWEST, ROWS_WITH_STROKES * area.rows);
}

/** How often a row goes sharply up or down within an area; one edge counts once, however soft it is. */
function crossings({ columns, grey }: GreyPicture, area: FilmArea, row: number): number {
  let count = 0;
  let before = 0;
  const last = Math.min(area.column + area.columns, columns - 2);
  for (let column = area.column; column < last; column += 1) {
    const at = row * columns + column;
    const step = (grey[at + 2] ?? 0) - (grey[at] ?? 0);
    const sign = Math.abs(step) < SHARP ? 0 : Math.sign(step);
    if (sign !== 0 && sign !== before) count += 1;
    before = sign;
  }
  return count;
}

function withMargin(
  { column, row, columns, rows }: FilmArea,
  margin: number,
  picture: GreyPicture,
): FilmArea {
  const [left, top] = [Math.max(0, column - margin), Math.max(0, row - margin)];
  return {
    column: left,
    row: top,
    columns: Math.min(picture.columns, column + columns + margin) - left,
    rows: Math.min(picture.rows, row + rows + margin) - top,
  };
}
