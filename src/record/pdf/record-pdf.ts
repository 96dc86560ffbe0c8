import type { PDFImage } from 'pdf-lib';
import type { Assessment, Comparison, KnownReading } from '../../case/assessment.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { formatReading, QUANTITY_NAMES, readingInWords } from '../../case/format.ts';
import type { Result } from '../../geometry/result.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { limitText } from '../../tolerance/limit-words.ts';
import { ticksFor } from '../../tolerance/ticks.ts';
import { knownReadings } from '../readings.ts';
import { EDUCATION_LINE, filmSentence, injuryDetail, injuryTitle } from '../words/case-words.ts';
import { scaleSentence } from '../words/scale.ts';
import {
  answerRow,
  type Block,
  barred,
  figure,
  gap,
  heading,
  paragraph,
  readingRow,
  type Setting,
  stylesAt,
} from './blocks.ts';
import type { FaceFiles } from './faces.ts';
import { type Column, fits, heightOf, pour } from './flow.ts';
import { INK } from './ink.ts';
import { beginPdf, embedPicture, finishPdf, type Making } from './page.ts';
import type { PdfFailure } from './pdf-failure.ts';
import { rulerBlock } from './ruler.ts';
import { PAGE, Sheet, type Style } from './sheet.ts';

export interface RecordPdfInput {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  readonly faces: FaceFiles;
  /** The annotated film as PNG; null: the record has no picture. */
  readonly picture: { readonly png: Uint8Array; readonly filmNumber: number } | null;
  /** The user's own name for the case, where it is wanted on paper. */
  readonly label: string | null;
  /** The day of writing, as it is to be read; null: none. */
  readonly writtenOn: string | null;
  readonly softwareVersion: string;
}

const MARGIN = 40;
const GUTTER = 24;
const LEFT_WIDTH = 244;
const RIGHT_WIDTH = PAGE.width - 2 * MARGIN - GUTTER - LEFT_WIDTH;
/**
 * Sizes of the type, and of the picture in points, that are tried until the record fits on one page; if none
 * does, it runs on.
 */
const SIZES = [
  { type: 1, picture: 300 },
  { type: 0.95, picture: 280 },
  { type: 0.9, picture: 260 },
  { type: 0.86, picture: 230 },
  { type: 0.82, picture: 200 },
  { type: 0.8, picture: 170 },
] as const;
type Size = (typeof SIZES)[number];

/**
 * The record of a case as a page of paper: the injury, the films with their days, the annotated film, every
 * reading with its interval and definition, rulers, examination, cautions, what was not checked, and which
 * version of the measurement and of each limit set it rests on.
 */
export async function recordPdf(input: RecordPdfInput): Promise<Result<Uint8Array, PdfFailure>> {
  const making = await beginPdf(input.faces, 'en-GB');
  if (!making.ok) return making;
  const picture = input.picture === null ? null : await embedPicture(making.value, input.picture.png);
  if (picture !== null && !picture.ok) return picture;
  drawRecord(making.value, input, picture?.value ?? null);
  return finishPdf(making.value);
}

function drawRecord(making: Making, input: RecordPdfInput, picture: PDFImage | null): void {
  const layouts = SIZES.map((size) => layoutAt(making, input, picture, size));
  const layout = layouts.find(({ columns, bottom }) => fits(columns, TOP, bottom)) ?? layouts.at(-1);
  if (layout === undefined) return;
  const sheets: Sheet[] = [];
  for (let rest = layout.columns; rest.some(({ blocks }) => blocks.length > 0); ) {
    const sheet = new Sheet(making.document, making.faces, making.missing);
    sheets.push(sheet);
    drawHead(sheet, making, input);
    rest = pour(sheet, rest, TOP, layout.bottom);
  }
  for (const [index, sheet] of sheets.entries()) {
    drawFoot(sheet, making, layout, sheets.length === 1 ? '' : `Page ${index + 1} of ${sheets.length}`);
  }
}

const TOP = MARGIN + 54;

interface Layout {
  readonly columns: readonly Column[];
  readonly foot: readonly Block[];
  readonly bottom: number;
}

function layoutAt(making: Making, input: RecordPdfInput, picture: PDFImage | null, size: Size): Layout {
  const styles = stylesAt(size.type);
  const left: Setting = { faces: making.faces, width: LEFT_WIDTH, styles };
  const right: Setting = { faces: making.faces, width: RIGHT_WIDTH, styles };
  const foot = footBlocks({ faces: making.faces, width: PAGE.width - 2 * MARGIN, styles }, input);
  return {
    columns: balanced(
      { x: MARGIN, blocks: pictureBlocks(left, input, picture, size.picture) },
      { x: MARGIN + LEFT_WIDTH + GUTTER, blocks: readingBlocks(right, input) },
      SECTIONS.map((section) => [section(left, input), section(right, input)]),
    ),
    foot,
    bottom: PAGE.height - MARGIN - heightOf(foot) - 8,
  };
}

/** What follows the picture and the readings, most important first. */
const SECTIONS: readonly ((setting: Setting, input: RecordPdfInput) => readonly Block[])[] = [
  limitBlocks,
  cautionBlocks,
  filmBlocks,
  answeredBlocks,
  openBlocks,
];

/** Puts each section under one of the two columns, in order, so that the longer one is as short as can be. */
function balanced(
  left: Column,
  right: Column,
  sections: readonly (readonly [forLeft: readonly Block[], forRight: readonly Block[]])[],
): readonly Column[] {
  const choices = Array.from({ length: 2 ** sections.length }, (_, choice) => {
    const goesRight = (index: number) => Math.floor(choice / 2 ** index) % 2 === 1;
    const chosen = (wanted: boolean) =>
      sections.flatMap(([forLeft, forRight], index) =>
        goesRight(index) === wanted ? (wanted ? forRight : forLeft) : [],
      );
    return [
      { ...left, blocks: [...left.blocks, ...chosen(false)] },
      { ...right, blocks: [...right.blocks, ...chosen(true)] },
    ] as const;
  });
  const longer = (columns: readonly Column[]) => Math.max(...columns.map(({ blocks }) => heightOf(blocks)));
  return choices.reduce((best, next) => (longer(next) < longer(best) ? next : best));
}

const TITLE: Style = { face: 'serifBold', size: 20, colour: INK.ink };
const PAGE_NUMBER: Style = { face: 'sans', size: 7.7, colour: INK.soft };
const NAME: Style = { face: 'serifBold', size: 10.5, colour: INK.accent };
const UNDER_TITLE: Style = { face: 'sans', size: 9.5, colour: INK.soft };

function drawHead(sheet: Sheet, { faces }: Making, { document, label, writtenOn }: RecordPdfInput): void {
  const injury = injuryOf(document);
  const atRight = (text: string, style: Style, y: number) =>
    sheet.text({ text, style }, PAGE.width - MARGIN - faces[style.face].width(text, style.size), y);
  sheet.rectangle(MARGIN, MARGIN - 8, 26, 2.2, INK.accent);
  sheet.text({ text: injuryTitle(injury), style: TITLE }, MARGIN, MARGIN + 18);
  const under = [
    ...(injuryDetail(injury) === '' ? [] : [injuryDetail(injury)]),
    ...(label === null ? [] : [label]),
  ].join('  ·  ');
  sheet.text({ text: under, style: UNDER_TITLE }, MARGIN, MARGIN + 34);
  atRight('Raybend', NAME, MARGIN + 18);
  atRight(
    ['Record of a measurement', ...(writtenOn === null ? [] : [writtenOn])].join(', '),
    UNDER_TITLE,
    MARGIN + 34,
  );
  sheet.line(MARGIN, MARGIN + 44, PAGE.width - MARGIN, MARGIN + 44, INK.ink, 0.8);
}

function drawFoot(sheet: Sheet, { faces }: Making, { foot }: Layout, page: string): void {
  let y = PAGE.height - MARGIN - heightOf(foot);
  sheet.line(MARGIN, y - 4, PAGE.width - MARGIN, y - 4, INK.edge, 0.5);
  for (const block of foot) {
    block.draw(sheet, MARGIN, y);
    y += block.height;
  }
  const wide = faces[PAGE_NUMBER.face].width(page, PAGE_NUMBER.size);
  sheet.text({ text: page, style: PAGE_NUMBER }, PAGE.width - MARGIN - wide, y - 3);
}

function footBlocks(setting: Setting, { assessment, softwareVersion }: RecordPdfInput): readonly Block[] {
  const { note } = setting.styles;
  const sets = new Map(assessment.comparisons.map(({ limitSet }) => [limitSet.id, limitSet]));
  const versions = [
    `Raybend ${softwareVersion}, measurement version ${assessment.measurementVersion}`,
    ...[...sets.values()].map(
      ({ title, revision, local }) => `${title}${local ? ' (local protocol)' : ''}, revision ${revision}`,
    ),
    '± is half of the 95 % interval',
  ].join('  ·  ');
  return [
    paragraph(setting, [
      {
        text: EDUCATION_LINE,
        style: { ...note, face: 'serifItalic', size: note.size * 1.12, colour: INK.ink },
      },
    ]),
    paragraph(setting, [{ text: versions, style: note }]),
  ];
}

function pictureBlocks(
  setting: Setting,
  { document, picture }: RecordPdfInput,
  image: PDFImage | null,
  tallest: number,
): readonly Block[] {
  if (picture === null || image === null) return [];
  const { caption, captionNumber } = setting.styles;
  const film = markedFilms(document)[picture.filmNumber - 1]?.film;
  const words = film === undefined ? '' : filmSentence(film, injuryOf(document));
  return [
    gap(8),
    figure(setting, image, tallest, [
      { text: `Film ${picture.filmNumber}. `, style: captionNumber },
      { text: words, style: caption },
    ]),
  ];
}

function filmBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
  const { body, note } = setting.styles;
  const injury = injuryOf(document);
  const films = markedFilms(document);
  if (films.length === 0) return [];
  return [
    heading(setting, 'Films', `${films.length}`),
    ...films.flatMap(({ film }, index) => [
      paragraph(setting, [{ text: `${index + 1}.  ${filmSentence(film, injury)}`, style: body }]),
      paragraph(setting, [{ text: scaleSentence(film.spacing), style: note }], 3),
    ]),
  ];
}

function answeredBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
  const { note } = setting.styles;
  const { answers } = examinationOf(document);
  const answered = checksFor(injuryOf(document)).filter(({ id }) => answers[id] !== undefined);
  if (answered.length === 0) return [];
  return [
    heading(setting, 'Examination', `${answered.length} answered`),
    gap(3),
    ...answered.map((check) => {
      const worrying = answers[check.id] === check.worrying;
      const style: Style = { ...note, face: 'sansBold', colour: worrying ? INK.warn : INK.ink };
      return answerRow(setting, check.question, { text: answers[check.id] === 'yes' ? 'Yes' : 'No', style });
    }),
  ];
}

function openBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
  const open = openChecks(document);
  if (open.length === 0) return [];
  return [
    heading(setting, 'Not checked', `${open.length} open`),
    gap(3),
    ...open.map((check) => answerRow(setting, check.question, 'open')),
  ];
}

function openChecks(document: CaseDocument) {
  const { answers } = examinationOf(document);
  return checksFor(injuryOf(document)).filter(({ id }) => answers[id] === undefined);
}

function readingBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
  const known = knownReadings(assessment);
  const films = markedFilms(document);
  const { note, strong } = setting.styles;
  if (known.length === 0) {
    return [
      heading(setting, 'Readings'),
      paragraph(setting, [{ text: 'Nothing was measured.', style: setting.styles.body }]),
    ];
  }
  const groups = films.flatMap(({ film }, index) => {
    const onFilm = known.filter(({ filmId }) => filmId === film.id);
    if (onFilm.length === 0) return [];
    return [
      ...(films.length > 1
        ? [gap(4), paragraph(setting, [{ text: `Film ${index + 1}`, style: strong }])]
        : []),
      ...onFilm.map((reading) => readingRow(setting, rowOf(reading))),
    ];
  });
  // Many readings leave out the same; each sentence is said once.
  const leftOut = [...new Set(known.flatMap(({ leavesOut }) => leavesOut.split(/(?<=\.) /)))].join(' ');
  return [
    heading(setting, 'Readings', '95 % interval'),
    ...groups,
    gap(3),
    paragraph(setting, [{ text: leftOut, style: note }]),
  ];
}

function rowOf(reading: KnownReading) {
  const { value, plusMinus } = formatReading(reading);
  return {
    label: QUANTITY_NAMES[reading.quantity],
    value,
    plusMinus,
    notes: [
      ...(reading.apex === null ? [] : [`${reading.apex.charAt(0).toUpperCase()}${reading.apex.slice(1)}.`]),
      reading.definition,
      ...(reading.basis === null ? [] : [withStop(reading.basis)]),
    ],
  };
}

const withStop = (sentence: string): string => (/[.!?]$/.test(sentence) ? sentence : `${sentence}.`);

function limitBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
  const { comparisons } = assessment;
  if (comparisons.length === 0) return [];
  const known = knownReadings(assessment);
  return [
    heading(setting, 'Against the limits'),
    ...comparisons.flatMap((comparison) => {
      const reading = known.find(({ id }) => id === comparison.readingId);
      return reading === undefined ? [] : comparisonBlocks(setting, document, comparison, reading);
    }),
  ];
}

function comparisonBlocks(
  setting: Setting,
  document: CaseDocument,
  { row, limitSet, outcome, words, methodMismatch }: Comparison,
  reading: KnownReading,
): readonly Block[] {
  const { body, strong, note } = setting.styles;
  const { ray, region } = injuryOf(document);
  const limit = row === null ? null : limitText(row);
  const said = `${QUANTITY_NAMES[reading.quantity]} against ${limitSet.title}${limit === null ? '' : `: ${limit}`}`;
  const ruler =
    row === null || row.band === null
      ? []
      : [
          rulerBlock(setting, {
            value: reading.value,
            expandedUncertainty: reading.expandedUncertainty,
            text: readingInWords(reading),
            band: row.band,
            ticks: ray === null || region === null ? [] : ticksFor(ray, region, row.quantity),
            unit: row.unit,
          }),
        ];
  // The sentence begins with the outcome, which is set apart by weight.
  const begins = words.toLowerCase().startsWith(outcome);
  return [
    gap(3),
    paragraph(setting, [{ text: said, style: note }]),
    ...ruler,
    paragraph(setting, [
      ...(begins ? [{ text: words.slice(0, outcome.length), style: strong }] : []),
      { text: begins ? words.slice(outcome.length) : words, style: body },
    ]),
    paragraph(
      setting,
      [
        { text: `Source: ${withStop(limitSet.source.citation)}`, style: note },
        ...(methodMismatch === null ? [] : [{ text: ` ${withStop(methodMismatch)}`, style: note }]),
      ],
      3,
    ),
  ];
}

/**
 * Worst first. What is cautioned against only because it was not checked is named together: the questions stand
 * under "Not checked".
 */
function cautionBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
  const { body, warn, strong } = setting.styles;
  const cautions = assessment.cautions.filter(({ about }) => about !== 'use');
  if (cautions.length === 0) return [];
  const unanswered = new Set(openChecks(document).map(({ whenUnanswered }) => whenUnanswered?.title));
  const open = cautions.filter(({ title }) => unanswered.has(title)).map(({ title }) => withStop(title));
  const rest = cautions.filter(({ title }) => !unanswered.has(title));
  const barredOff = (grade: Caution['grade']) =>
    rest
      .filter((caution) => caution.grade === grade)
      .map(({ title, why }) =>
        barred(setting, [
          { text: `${withStop(title)} `, style: warn },
          { text: why, style: body },
        ]),
      );
  return [
    heading(setting, 'Cautions', 'worst first'),
    gap(4),
    ...barredOff('stop'),
    ...(open.length === 0 ? [] : [barred(setting, [{ text: open.join(' '), style: warn }])]),
    ...barredOff('warn'),
    ...rest
      .filter(({ grade }) => grade === 'note')
      .map(({ title, why }) =>
        paragraph(
          setting,
          [
            { text: `${withStop(title)} `, style: strong },
            { text: why, style: body },
          ],
          4,
        ),
      ),
  ];
}
