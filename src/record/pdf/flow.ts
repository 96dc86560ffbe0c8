import type { Block } from './blocks.ts';
import type { Sheet } from './sheet.ts';

export interface Column {
  readonly x: number;
  readonly blocks: readonly Block[];
}

export const heightOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, { height }) => sum + height, 0);

/** Whether every column fits between two heights of one page. */
export const fits = (columns: readonly Column[], top: number, bottom: number): boolean =>
  columns.every(({ blocks }) => top + heightOf(blocks) <= bottom);

/** Height of a block and of all that must not be parted from it. */
function heldTogether(blocks: readonly Block[], index: number): number {
  let last = index;
  while (blocks[last]?.keepWithNext === true) last += 1;
  return heightOf(blocks.slice(index, last + 1));
}

/** Draws what fits of each column and gives the rest; a heading goes with what follows it. */
export function pour(
  sheet: Sheet,
  columns: readonly Column[],
  top: number,
  bottom: number,
): readonly Column[] {
  return columns.map(({ x, blocks }) => {
    let y = top;
    let index = 0;
    for (; index < blocks.length; index += 1) {
      const block = blocks[index] as Block;
      // The first block is drawn whatever its height: a page that holds nothing would never end.
      if (index > 0 && y + heldTogether(blocks, index) > bottom) break;
      block.draw(sheet, x, y);
      y += block.height;
    }
    return { x, blocks: blocks.slice(index) };
  });
}
