import { PDFDocument } from 'pdf-lib';
import { beforeAll, describe, expect, it } from 'vitest';
import { type Setting, stylesAt } from '../../../src/record/pdf/blocks.ts';
import { embedFaces } from '../../../src/record/pdf/faces.ts';
import { type Ruler, type Strip, scaleBlock, stripBlock } from '../../../src/record/pdf/ruler.ts';
import type { Sheet } from '../../../src/record/pdf/sheet.ts';
import { ticksFor } from '../../../src/tolerance/ticks.ts';
import { succeeded } from '../../case/samples.ts';
import { FACES } from './faces.ts';

let setting: Setting;
beforeAll(async () => {
  const faces = succeeded(await embedFaces(await PDFDocument.create(), FACES));
  setting = { faces, width: 240, styles: stylesAt(1) };
});

/** Everything that a ruler draws, with where it lies. */
function drawn({ ticks = [], unit = 'degrees', ...one }: Partial<Strip & Pick<Ruler, 'ticks' | 'unit'>>) {
  const texts: { text: string; centre: number }[] = [];
  const lines: { from: number; to: number; y: number; thickness: number }[] = [];
  const tints: { from: number; to: number }[] = [];
  const discs: number[] = [];
  const { faces } = setting;
  const sheet = {
    text: ({ text, style }: { text: string; style: { face: 'sans'; size: number } }, x: number) =>
      texts.push({ text, centre: x + faces[style.face].width(text, style.size) / 2 }),
    line: (x1: number, y1: number, x2: number, _y2: number, _colour: unknown, thickness: number) =>
      lines.push({ from: x1, to: x2, y: y1, thickness }),
    rectangle: (x: number, _top: number, width: number) => tints.push({ from: x, to: x + width }),
    disc: (x: number) => discs.push(x),
  };
  const strip: Strip = { value: 40, expandedUncertainty: 10, band: { lo: 50, hi: 60 }, ...one };
  const ruler: Ruler = { strips: [strip], ticks, unit };
  for (const block of [stripBlock(setting, ruler, strip), scaleBlock(setting, ruler)]) {
    block.draw(sheet as unknown as Sheet, 100, 0);
  }
  const placeOf = (mark: string) => texts.find(({ text }) => text === mark)!.centre;
  // Where a value belongs by the two marks that are named, since the scale is linear.
  const [first, second] = ['20°', '40°'].map((mark) => texts.find(({ text }) => text === mark)?.centre);
  const at = (value: number) => first! + ((value - 20) / 20) * (second! - first!);
  return { texts, lines, tints, discs, placeOf, at };
}

describe('a ruler of the printed record', () => {
  it('puts the reading, its interval and the band where their values lie', () => {
    const { at, discs, lines, tints, placeOf } = drawn({});
    expect(discs).toEqual([expect.closeTo(placeOf('40°'), 3)]);
    const interval = lines.find(({ thickness }) => thickness === 2)!;
    expect([interval.from, interval.to]).toEqual([expect.closeTo(at(30), 3), expect.closeTo(at(50), 3)]);
    const [past, band] = tints;
    expect(past!.from).toBeCloseTo(at(60), 3);
    expect([band!.from, band!.to]).toEqual([expect.closeTo(at(50), 3), expect.closeTo(at(60), 3)]);
  });

  it('has a tick for each published limit', () => {
    const ticks = ticksFor('small', 'neck', 'apex-dorsal');
    const { at, lines } = drawn({ ticks });
    expect(ticks.length).toBeGreaterThan(8);
    for (const { lo } of ticks) {
      expect(lines.some(({ from, to }) => from === to && Math.abs(from - at(lo)) < 1e-6)).toBe(true);
    }
  });

  it('stays on its width for a huge or a negative reading', () => {
    for (const value of [-45, 0, 89]) {
      const { lines, discs } = drawn({ value, expandedUncertainty: 60 });
      for (const x of [...discs, ...lines.flatMap(({ from, to }) => [from, to])]) {
        expect(x).toBeGreaterThanOrEqual(100);
        expect(x).toBeLessThanOrEqual(340);
      }
    }
  });

  it('names its unit', () => {
    const { texts } = drawn({
      unit: 'millimetres',
      value: 3,
      expandedUncertainty: 1,
      band: { lo: 2, hi: 5 },
    });
    expect(texts.some(({ text }) => text.endsWith('mm'))).toBe(true);
  });
});
