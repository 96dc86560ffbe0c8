import { describe, expect, it } from 'vitest';
import lateralUrl from '../../../sample-images/small-neck-lateral.png?url';
import frontUrl from '../../../sample-images/small-neck-pa.png?url';
import { findText } from '../../../src/record/snapshot/burned-in-text.ts';
import type { FilmArea, GreyPicture } from '../../../src/record/snapshot/film-picture.ts';

/** Letters drawn by the browser, on invented films that have none. */
async function filmWith(
  url: string,
  draw: (context: OffscreenCanvasRenderingContext2D) => void,
): Promise<GreyPicture> {
  const bitmap = await createImageBitmap(await (await fetch(url)).blob());
  const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
  context.drawImage(bitmap, 0, 0);
  draw(context);
  const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
  const grey = new Uint8Array(bitmap.width * bitmap.height);
  for (let i = 0; i < grey.length; i += 1) grey[i] = data[4 * i] ?? 0;
  return { columns: bitmap.width, rows: bitmap.height, grey };
}

/** Share of one rectangle that the others cover, counted pixel by pixel. */
function coveredShare(area: FilmArea, by: readonly FilmArea[]): number {
  let covered = 0;
  for (let row = area.row; row < area.row + area.rows; row += 1) {
    for (let column = area.column; column < area.column + area.columns; column += 1) {
      const lies = by.some(
        (one) =>
          column >= one.column &&
          column < one.column + one.columns &&
          row >= one.row &&
          row < one.row + one.rows,
      );
      if (lies) covered += 1;
    }
  }
  return covered / (area.columns * area.rows);
}

describe('findText', () => {
  it.each([lateralUrl, frontUrl])('finds nothing on a film without letters', async (url) => {
    expect(findText(await filmWith(url, () => undefined))).toEqual([]);
  });

  it.each([
    ['small white letters', '16px sans-serif', '#ffffff', null, [30, 40]],
    ['large white letters', '36px sans-serif', '#ffffff', null, [12, 1110]],
    ['letters with serifs at the foot', '24px serif', '#ffffff', null, [20, 1240]],
    ['fixed width', '20px monospace', '#ffffff', null, [20, 880]],
    ['black letters in a white box', '22px sans-serif', '#000000', '#ffffff', [30, 1170]],
  ] as const)('covers %s', async (_, font, colour, box, [x, y]) => {
    let area: FilmArea = { column: 0, row: 0, columns: 1, rows: 1 };
    const picture = await filmWith(lateralUrl, (context) => {
      context.font = font;
      const words = 'QUILLFEATHER 17.08.59';
      const size = context.measureText(words);
      area = {
        column: Math.floor(x - size.actualBoundingBoxLeft),
        row: Math.floor(y - size.actualBoundingBoxAscent),
        columns: Math.ceil(size.actualBoundingBoxLeft + size.actualBoundingBoxRight),
        rows: Math.ceil(size.actualBoundingBoxAscent + size.actualBoundingBoxDescent),
      };
      if (box !== null) {
        context.fillStyle = box;
        context.fillRect(area.column - 12, area.row - 12, area.columns + 24, area.rows + 24);
      }
      context.fillStyle = colour;
      context.fillText(words, x, y);
    });
    area = { ...area, columns: Math.min(area.columns, picture.columns - area.column) };
    const found = findText(picture);
    expect(coveredShare(area, found)).toBe(1);
    // And not half of the film with it.
    const taken = found.reduce((sum, { columns, rows }) => sum + columns * rows, 0);
    expect(taken).toBeLessThan(0.2 * picture.columns * picture.rows);
  });

  it('covers every line of several', async () => {
    const lines = ['Quillfeather, Zebulon', 'PID-998877  M  066Y', 'Invented Infirmary 14.02.2026'];
    const picture = await filmWith(frontUrl, (context) => {
      context.font = '20px sans-serif';
      context.fillStyle = '#ffffff';
      for (const [index, line] of lines.entries()) context.fillText(line, 24, 40 + 26 * index);
    });
    const found = findText(picture);
    for (const [index] of lines.entries()) {
      expect(coveredShare({ column: 24, row: 26 + 26 * index, columns: 180, rows: 14 }, found)).toBe(1);
    }
  });
});
