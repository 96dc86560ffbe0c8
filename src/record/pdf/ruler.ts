import { linearScale } from '../../geometry/linear-scale.ts';
import type { LimitTick } from '../../tolerance/ticks.ts';
import type { Block, Setting } from './blocks.ts';
import { INK } from './ink.ts';

/** What one set holds against a reading. */
export interface Strip {
  /** As it stands against the limit: a coronal angle by its size. */
  readonly value: number;
  readonly expandedUncertainty: number;
  readonly band: { readonly lo: number; readonly hi: number };
}

/** Strips that stand over one scale. */
export interface Ruler {
  readonly strips: readonly Strip[];
  readonly ticks: readonly LimitTick[];
  readonly unit: 'degrees' | 'millimetres';
}

/** An interval that is wider than this is cut at the end of the ruler rather than making it longer. */
const WIDEST_INTERVAL = 30;
const INSET = 6;

/** Where values lie across a column of a width; the same for every strip of a ruler. */
function scaleOf({ strips, ticks, unit }: Ruler, width: number) {
  const step = unit === 'degrees' ? 10 : 1;
  const ends = strips.map(({ value, expandedUncertainty }) => {
    const interval = Math.min(expandedUncertainty, WIDEST_INTERVAL);
    return { from: value - interval, to: value + interval };
  });
  const farthest = Math.max(
    unit === 'degrees' ? 60 : 6,
    ...strips.map(({ band }) => band.hi),
    ...ends.map(({ to }) => to),
    ...ticks.map(({ hi }) => hi),
  );
  const nearest = Math.min(...ends.map(({ from }) => from));
  const least = nearest < -step / 2 ? Math.floor(nearest / step) * step : 0;
  const most = Math.ceil((farthest + step / 2) / step) * step;
  return linearScale([least, most], [INSET, width - INSET], { clamped: true });
}

/**
 * One set of a ruler: its band and all that lies past it, the reading as a dot and its 95 % interval as a bar.
 */
export function stripBlock({ width, styles }: Setting, ruler: Ruler, strip: Strip): Block {
  const { value, expandedUncertainty, band } = strip;
  const x = scaleOf(ruler, width);
  const height = styles.note.size * 1.55;
  const half = height * 0.36;
  return {
    height,
    keepWithNext: true,
    draw: (sheet, left, top) => {
      const at = (place: number) => left + x(place);
      const middle = top + height / 2;
      const { from, to } = x.places;
      sheet.rectangle(at(band.hi), middle - half, left + to - at(band.hi), 2 * half, INK.band);
      if (band.hi > band.lo) {
        sheet.rectangle(at(band.lo), middle - half, at(band.hi) - at(band.lo), 2 * half, INK.warnGround);
      }
      for (const edge of new Set([band.lo, band.hi])) {
        sheet.line(at(edge), middle - half, at(edge), middle + half, INK.warn, 1);
      }
      sheet.line(left + from, middle, left + to, middle, INK.rule, 0.5);
      const [least, most] = [at(value - expandedUncertainty), at(value + expandedUncertainty)];
      sheet.line(least, middle, most, middle, INK.ink, 2);
      sheet.disc(at(value), middle, 3, INK.ink);
    },
  };
}

/** The scale under the strips of a ruler, with a tick for each single limit that was published. */
export function scaleBlock({ faces, width, styles }: Setting, ruler: Ruler): Block {
  const { ticks, unit } = ruler;
  const x = scaleOf(ruler, width);
  const { size } = styles.note;
  const face = faces[styles.note.face];
  const above = ticks.length === 0 ? 2 : 8;
  return {
    height: above + size * 2.4,
    draw: (sheet, left, top) => {
      const at = (place: number) => left + x(place);
      const line = top + above;
      const { from, to } = x.places;
      sheet.line(left + from, line, left + to, line, INK.edge, 0.6);
      const marks = x.ticks(unit === 'degrees' ? 8 : 6);
      for (const mark of marks) {
        sheet.line(at(mark), line, at(mark), line + 2.5, INK.edge, 0.6);
        const last = mark === marks.at(-1);
        const text = `${mark}${unit === 'degrees' ? '°' : last ? '\u2009mm' : ''}`.replace('-', '−');
        const wide = face.width(text, size);
        sheet.text(
          { text, style: { ...styles.note, colour: INK.soft } },
          Math.min(at(mark) - wide / 2, left + width - wide),
          line + size * 1.45,
        );
      }
      for (const { lo, hi } of ticks) {
        sheet.line(at(lo), line - 5, at(lo), line, INK.accent, 0.8);
        if (hi > lo) sheet.line(at(lo), line - 2.6, at(hi), line - 2.6, INK.accent, 0.8);
      }
    },
  };
}
