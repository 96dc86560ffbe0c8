import { linearScale } from '../../geometry/linear-scale.ts';
import type { LimitTick } from '../../tolerance/ticks.ts';
import type { Block, Setting } from './blocks.ts';
import { INK } from './ink.ts';

export interface Ruler {
  readonly value: number;
  readonly expandedUncertainty: number;
  /** As it stands over the dot: "35° ± 4". */
  readonly text: string;
  readonly band: { readonly lo: number; readonly hi: number };
  readonly ticks: readonly LimitTick[];
  readonly unit: 'degrees' | 'millimetres';
}

/** An interval that is wider than this is cut at the end of the ruler rather than making it longer. */
const WIDEST_INTERVAL = 30;

/**
 * The limit ruler of a printed record: the band of the set and all that lies past it, a tick for each published
 * limit, the reading as a dot and its 95 % interval as a bar.
 */
export function rulerBlock({ faces, width, styles }: Setting, ruler: Ruler): Block {
  const { value, expandedUncertainty, band, ticks, unit } = ruler;
  const step = unit === 'degrees' ? 10 : 1;
  const interval = Math.min(expandedUncertainty, WIDEST_INTERVAL);
  const farthest = Math.max(
    unit === 'degrees' ? 60 : 6,
    band.hi,
    value + interval,
    ...ticks.map(({ hi }) => hi),
  );
  const least = value - interval < -step / 2 ? Math.floor((value - interval) / step) * step : 0;
  const inset = 6;
  const x = linearScale([least, Math.ceil((farthest + step / 2) / step) * step], [inset, width - inset], {
    clamped: true,
  });
  const size = styles.note.size;
  const dotAt = size * 1.9;
  const lineAt = dotAt + 15;
  const height = lineAt + size * 2.6;
  const face = faces[styles.note.face];
  return {
    height,
    draw: (sheet, left, top) => {
      const at = (place: number) => left + x(place);
      const line = top + lineAt;
      const { from, to } = x.places;
      sheet.rectangle(at(band.hi), line - 5, left + to - at(band.hi), 10, INK.band);
      if (band.hi > band.lo) {
        sheet.rectangle(at(band.lo), line - 5, at(band.hi) - at(band.lo), 10, INK.warnGround);
      }
      for (const edge of new Set([band.lo, band.hi])) {
        sheet.line(at(edge), line - 7, at(edge), line + 5, INK.warn, 1);
      }
      sheet.line(left + from, line, left + to, line, INK.edge, 0.6);
      const marks = x.ticks(unit === 'degrees' ? 8 : 6);
      for (const mark of marks) {
        sheet.line(at(mark), line - 2, at(mark), line + 2, INK.edge, 0.6);
        const last = mark === marks.at(-1);
        const text = `${mark}${unit === 'degrees' ? '°' : last ? '\u2009mm' : ''}`.replace('-', '−');
        const style = { ...styles.note, colour: INK.soft };
        sheet.text(
          { text, style },
          Math.min(at(mark) - face.width(text, size) / 2, left + width - face.width(text, size)),
          line + size * 1.75,
        );
      }
      for (const { lo, hi } of ticks) {
        sheet.line(at(lo), line - 9.5, at(lo), line - 5, INK.accent, 0.8);
        if (hi > lo) sheet.line(at(lo), line - 7.2, at(hi), line - 7.2, INK.accent, 0.8);
      }
      const dot = top + dotAt;
      sheet.line(at(value - expandedUncertainty), dot, at(value + expandedUncertainty), dot, INK.ink, 2);
      sheet.disc(at(value), dot, 3.4, INK.ink);
      const wide = face.width(ruler.text, size);
      const textAt = Math.min(Math.max(at(value) - wide / 2, left), left + width - wide);
      sheet.text({ text: ruler.text, style: { ...styles.note, colour: INK.ink } }, textAt, dot - 5.5);
    },
  };
}
