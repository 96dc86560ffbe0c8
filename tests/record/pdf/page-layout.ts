import { expect } from 'vitest';
import type { PageDrawing, PageMark } from '../../../src/record/pdf/page-drawing.ts';
import { PAGE } from '../../../src/record/pdf/sheet.ts';

interface Box {
  readonly what: string;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Letters reach about 0.7 of their size above the line they stand on and 0.2 under it; points of play. */
const PLAY = 0.3;

const boxesOf = (page: PageDrawing): readonly Box[] => page.flatMap((one) => boxOf(one));

function boxOf(one: PageMark): readonly Box[] {
  if (one.kind === 'picture')
    return [
      { what: 'picture', left: one.x, right: one.x + one.width, top: one.y, bottom: one.y + one.height },
    ];
  if (one.kind !== 'text' || one.text.trim() === '') return [];
  const { text, x, y, width, size } = one;
  return [{ what: text, left: x, right: x + width, top: y - 0.7 * size, bottom: y + 0.2 * size }];
}

/** No text and no picture lies over another or over the edge of what a printer prints. */
export function expectNothingOverlaps(page: PageDrawing): void {
  const boxes = boxesOf(page);
  expect(boxes.length).toBeGreaterThan(10);
  const outside = boxes.filter(
    ({ left, right, top, bottom }) =>
      left < 17 || right > PAGE.width - 17 || top < 17 || bottom > PAGE.height - 17,
  );
  expect(outside).toEqual([]);
  const over = boxes.flatMap((one, index) =>
    boxes
      .slice(index + 1)
      .filter(
        (other) =>
          Math.min(one.right, other.right) - Math.max(one.left, other.left) > PLAY &&
          Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > PLAY,
      )
      .map((other) => `“${one.what}” and “${other.what}”`),
  );
  expect(over).toEqual([]);
}

/** Every size of type on a page. */
export const sizesOf = (page: PageDrawing): readonly number[] =>
  page.flatMap((one) => (one.kind === 'text' ? [one.size] : []));
