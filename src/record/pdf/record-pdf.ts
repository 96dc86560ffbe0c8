import type { PDFImage } from 'pdf-lib';
import { injuryOf } from '../../case/fixed-records.ts';
import type { Result } from '../../geometry/result.ts';
import { EDUCATION_LINE, injuryDetail, injuryTitle } from '../words/case-words.ts';
import { type Block, paragraph, type Setting, stylesAt } from './blocks.ts';
import { type Column, fits, heightOf, pour } from './flow.ts';
import { INK } from './ink.ts';
import { cautionBlocks, limitBlocks } from './limit-sections.ts';
import { beginPdf, embedPicture, finishPdf, type Making, type PdfFile } from './page.ts';
import type { PdfFailure } from './pdf-failure.ts';
import { definitionBlocks, readingBlocks } from './reading-sections.ts';
import {
  answeredBlocks,
  examinationAcross,
  filmBlocks,
  openBlocks,
  pictureBlocks,
  type RecordPdfInput,
  type RecordSetting,
} from './record-sections.ts';
import { PAGE, Sheet, type Style } from './sheet.ts';

/** Printers leave 12 mm blank at the most. */
const MARGIN = 34;
const GUTTER = 20;
const LEFT_WIDTH = 252;
const RIGHT_WIDTH = PAGE.width - 2 * MARGIN - GUTTER - LEFT_WIDTH;
/**
 * Sizes of the type, and of the picture in points, that are tried until the record fits on one page; lists become
 * paragraphs before the type gets small. If none does, it runs on.
 */
const SIZES: readonly Size[] = [
  { type: 1, picture: 300, room: 'ample' },
  { type: 0.95, picture: 280, room: 'ample' },
  { type: 0.92, picture: 260, room: 'ample' },
  { type: 0.9, picture: 240, room: 'tight' },
  { type: 0.86, picture: 210, room: 'tight' },
  { type: 0.86, picture: 200, room: 'least' },
  { type: 0.83, picture: 160, room: 'least' },
  { type: 0.8, picture: 135, room: 'least' },
  { type: 0.8, picture: 100, room: 'least' },
];
interface Size {
  readonly type: number;
  readonly picture: number;
  readonly room: RecordSetting['room'];
}
const RUNNING_ON: Size = { type: 0.9, picture: 240, room: 'tight' };

/**
 * The record of a case as a page of paper: the injury, the films with their days, the annotated film, every
 * reading with its interval and definition, rulers, examination, cautions, what was not checked, and which
 * version of the measurement and of each limit set it rests on.
 */
export async function recordPdf(input: RecordPdfInput): Promise<Result<PdfFile, PdfFailure>> {
  const making = await beginPdf(input.faces, 'en-GB');
  if (!making.ok) return making;
  const picture = input.picture === null ? null : await embedPicture(making.value, input.picture.png);
  if (picture !== null && !picture.ok) return picture;
  drawRecord(making.value, input, picture?.value ?? null);
  return finishPdf(making.value);
}

function drawRecord(making: Making, input: RecordPdfInput, picture: PDFImage | null): void {
  const layout = bestLayout(making, input, picture);
  const sheets: Sheet[] = [];
  for (let rest = layout.columns; rest.some(({ blocks }) => blocks.length > 0); ) {
    const sheet = new Sheet(making);
    sheets.push(sheet);
    drawHead(sheet, making, input);
    rest = pour(sheet, rest, TOP, layout.bottom);
  }
  for (const [index, sheet] of sheets.entries()) {
    drawFoot(sheet, making, layout, sheets.length === 1 ? '' : `Page ${index + 1} of ${sheets.length}`);
  }
}

const TOP = MARGIN + 47;

interface Layout {
  readonly columns: readonly Column[];
  readonly foot: readonly Block[];
  readonly bottom: number;
}

/** The largest that fits on one page; what needs several has room for its reasons. */
function bestLayout(making: Making, input: RecordPdfInput, picture: PDFImage | null): Layout {
  for (const size of SIZES) {
    const layout = layoutAt(making, input, picture, size);
    if (fits(layout.columns, TOP, layout.bottom)) return layout;
  }
  return layoutAt(making, input, picture, RUNNING_ON);
}

function layoutAt(making: Making, input: RecordPdfInput, picture: PDFImage | null, size: Size): Layout {
  const styles = stylesAt(size.type);
  const { room } = size;
  const left: RecordSetting = { faces: making.faces, width: LEFT_WIDTH, styles, room };
  const right: RecordSetting = { faces: making.faces, width: RIGHT_WIDTH, styles, room };
  const across: RecordSetting = { faces: making.faces, width: PAGE.width - 2 * MARGIN, styles, room };
  const foot = [...examinationAcross(across, input), ...footBlocks(across, input)];
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
const SECTIONS: readonly ((setting: RecordSetting, input: RecordPdfInput) => readonly Block[])[] = [
  limitBlocks,
  cautionBlocks,
  definitionBlocks,
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
  const versions = [
    `Raybend ${softwareVersion}, measurement version ${assessment.measurementVersion}`,
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
