import type { Assessment } from '../../case/assessment.ts';
import { MOMENT_WORDS } from '../../case/course/order.ts';
import { settingsOf } from '../../case/fixed-records.ts';
import { formatDay, formatReading, QUANTITY_NAMES, shownInWords } from '../../case/format.ts';
import type { KnownReading, Quantity } from '../../case/reading.ts';
import type { Outcome } from '../../tolerance/compare.ts';
import { VIEW_WORDS } from '../../tolerance/limit-method.ts';
import { knownReadings } from '../readings.ts';
import { type Block, gap, heading, paragraph } from './blocks.ts';
import { INK } from './ink.ts';
import {
  filmsInWords,
  idsOf,
  LISTED_QUANTITIES,
  type NumberedFilm,
  type OnPage,
  readingsOnPage,
} from './on-page.ts';
import type { RecordPdfInput, RecordSetting } from './record-sections.ts';
import { lineHeight, type Style } from './sheet.ts';

/** Between the two halves of the table, and between its columns at the least. */
const GUTTER = 20;
const BETWEEN = 6;
/** The first column of numbers; those before it are set small. */
const READINGS_FROM = 2;

/** The films that do not stand in full, on a line each, with what of them is not on the page. */
export function filmTable(setting: RecordSetting, input: RecordPdfInput, onPage: OnPage): readonly Block[] {
  const { listed, leftOut } = onPage;
  if (listed.length + leftOut.length === 0) return [];
  const { note } = setting.styles;
  return [
    heading(setting, 'Further films', listed.length === 0 ? '' : 'one line each, 95 % interval'),
    gap(3),
    ...(listed.length === 0 ? [] : [tableOf(setting, cellsOf(input, listed))]),
    paragraph(setting, [{ text: notOnPage(input, onPage), style: { ...note, colour: INK.ink } }]),
    gap(5),
  ];
}

/** The head of the table and a row for each film. */
function cellsOf({ document, assessment }: RecordPdfInput, films: readonly NumberedFilm[]) {
  const known = knownReadings(assessment);
  const set = firstSet(assessment, settingsOf(document).limitSetIds);
  const reading = (film: NumberedFilm, quantity: Quantity) =>
    inWords(known.find((one) => one.filmId === film.film.id && one.quantity === quantity));
  return {
    head: [
      'Film',
      '',
      ...LISTED_QUANTITIES.map((one) => QUANTITY_NAMES[one].replace(', measured', '')),
      ...(set === null ? [] : ['First limit set']),
    ],
    rows: films.map((one) => [
      `${one.number}`,
      whatOf(one),
      ...LISTED_QUANTITIES.map((quantity) => reading(one, quantity)),
      ...(set === null ? [] : [worstOutcome(assessment, known, one, set.id)]),
    ]),
  };
}

const inWords = (reading: KnownReading | undefined): string => {
  if (reading === undefined) return '–';
  const { value, plusMinus } = formatReading(reading);
  return `${value} ${plusMinus}`;
};

/** "lateral, day 2, after reduction", "PA, other hand". */
function whatOf({ film }: NumberedFilm): string {
  const { hand, day, moment } = film;
  return [
    shownInWords(film, VIEW_WORDS),
    ...(hand === 'other' ? ['other hand'] : []),
    ...(hand === 'other' && day === null ? [] : [formatDay(day)]),
    ...(moment === null || moment === 'follow-up' ? [] : [MOMENT_WORDS[moment]]),
  ].join(', ');
}

/** The first chosen set that is here. */
function firstSet({ comparisons }: Assessment, ids: readonly string[]) {
  const first = comparisons.find(({ limitSet }) => limitSet.id === ids[0]) ?? comparisons[0];
  return first?.limitSet ?? null;
}

const WORST_FIRST: readonly Outcome[] = [
  'past the limit',
  'cannot tell',
  'inside the limit',
  'no limit on file',
];

/** Of all readings of a film the worst outcome, so that an angle inside its limit hides no shortening past its own. */
function worstOutcome(
  { comparisons }: Assessment,
  known: readonly KnownReading[],
  { film }: NumberedFilm,
  setId: string,
): string {
  const ofFilm = new Set(known.flatMap(({ id, filmId }) => (filmId === film.id ? [id] : [])));
  const outcomes = comparisons.flatMap(({ readingId, limitSet, outcome }) =>
    limitSet.id === setId && ofFilm.has(readingId) ? [outcome] : [],
  );
  return WORST_FIRST.find((outcome) => outcomes.includes(outcome)) ?? '–';
}

/** What of the case does not stand on the page, and how to have it. */
function notOnPage({ document, assessment }: RecordPdfInput, onPage: OnPage): string {
  const { listed, leftOut } = onPage;
  const known = knownReadings(assessment);
  const shown = new Set(readingsOnPage(onPage, known));
  const on = (films: readonly NumberedFilm[]): number => {
    const ids = idsOf(films);
    return known.filter((one) => ids.has(one.filmId) && !shown.has(one)).length;
  };
  const set = firstSet(assessment, settingsOf(document).limitSetIds);
  const further = on(listed);
  const count = (many: number, one: string) => `${many} ${one}${many === 1 ? '' : 's'}`;
  return [
    ...(listed.length > 0 && set !== null
      ? [`The outcome is the worst of all readings of the film against “${set.title}”.`]
      : []),
    ...(leftOut.length > 0
      ? [
          `Not on this page for want of room: ${filmsInWords(leftOut)} (${count(leftOut.length, 'film')}, ${count(on(leftOut), 'reading')}).`,
        ]
      : []),
    ...(further > 0 ? [`${count(further, 'further reading')} of the films above not on this page.`] : []),
    'Every reading of every film, against every chosen set, is in the tables (CSV or JSON) that leave beside this record.',
  ].join(' ');
}

/** Cells in columns as wide as their longest; in two halves side by side where both fit. */
function tableOf(
  { faces, width, styles }: RecordSetting,
  { head, rows }: { readonly head: readonly string[]; readonly rows: readonly (readonly string[])[] },
): Block {
  const { body, note } = styles;
  const styleOf = (column: number): Style => (column < READINGS_FROM ? { ...note, colour: INK.ink } : body);
  const wide = (text: string, { face, size }: Style): number => faces[face].width(text, size);
  const columns = head.map((title, index) =>
    Math.max(wide(title, note), ...rows.map((row) => wide(row[index] ?? '', styleOf(index)))),
  );
  const natural = columns.reduce((sum, column) => sum + column, 0) + BETWEEN * (columns.length - 1);
  const half = (width - GUTTER) / 2;
  const halves = rows.length > 3 && natural <= half ? 2 : 1;
  const part = halves === 2 ? half : width;
  const between = BETWEEN + (Math.min(part, natural * 1.4) - natural) / (columns.length - 2);
  const perHalf = Math.ceil(rows.length / halves);
  const line = lineHeight(body) * 0.98;
  const headLine = lineHeight(note) + 2;
  return {
    height: headLine + perHalf * line + 5,
    draw: (sheet, left, top) => {
      for (let index = 0; index < halves; index += 1) {
        const x = left + index * (part + GUTTER);
        const cells = (row: readonly string[], style: (column: number) => Style, y: number) => {
          let at = x;
          for (const [column, text] of row.entries()) {
            sheet.text({ text, style: style(column) }, at, y);
            at += (columns[column] ?? 0) + (column === 0 ? BETWEEN : between);
          }
        };
        cells(head, () => note, top + note.size);
        for (const [row, texts] of rows.slice(index * perHalf, (index + 1) * perHalf).entries()) {
          const y = top + headLine + row * line;
          sheet.line(x, y, x + part, y, INK.rule, 0.5);
          cells(texts, styleOf, y + body.size * 1.06);
        }
      }
    },
  };
}
