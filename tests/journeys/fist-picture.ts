import { pngFile } from '../film/picture/png-file.ts';

type Pair = readonly [column: number, row: number];

/** A nail from the middle of its fold to the middle of its tip. */
export interface DrawnNail {
  readonly fold: Pair;
  readonly tip: Pair;
}

export const FIST_SIZE = { columns: 400, rows: 300 } as const;

const SKIN = 150;
const NAIL = 215;
const GROUND = 40;
const NAIL_HALF_WIDTH = 18;
const FINGER_HALF_WIDTH = 32;

/** A photograph of a fist, drawn: dark ground, a finger about each nail, and the nails themselves. */
export function fistPicture(nails: readonly DrawnNail[]): Buffer {
  const { columns, rows } = FIST_SIZE;
  const grey = (column: number, row: number): number => {
    const near = nails.map((nail) => reach(nail, [column + 0.5, row + 0.5]));
    if (near.some(({ along, aside }) => along >= 0 && along <= 1 && aside <= NAIL_HALF_WIDTH)) return NAIL;
    if (near.some(({ along, aside }) => along >= -1.6 && along <= 1.15 && aside <= FINGER_HALF_WIDTH))
      return SKIN;
    return GROUND;
  };
  const lines = Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (__, column) => grey(column, row)),
  );
  return Buffer.from(pngFile({ columns, rows, depth: 8, colourType: 0, lines }));
}

/** Where a point lies about a nail: along it as a share of its length, aside of it in pixels. */
function reach({ fold, tip }: DrawnNail, [column, row]: Pair): { along: number; aside: number } {
  const [dx, dy] = [tip[0] - fold[0], tip[1] - fold[1]];
  const length = Math.hypot(dx, dy);
  const [x, y] = [column - fold[0], row - fold[1]];
  return { along: (x * dx + y * dy) / length ** 2, aside: Math.abs(x * dy - y * dx) / length };
}
