import type { PDFImage } from 'pdf-lib';
import { injuryOf } from '../../case/fixed-records.ts';
import type { Result } from '../../geometry/result.ts';
import { EDUCATION_LINE, injuryDetail, injuryTitle } from '../words/case-words.ts';
import { type Block, paragraph, type Setting, stylesAt } from './blocks.ts';
import { filmTable } from './film-table.ts';
import { type Column, fits, heightOf, pour } from './flow.ts';
import { INK } from './ink.ts';
import { cautionBlocks, limitBlocks, sourceBlocks } from './limit-sections.ts';
import { filmsOnPage, type OnPage } from './on-page.ts';
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
import { lineHeight, PAGE, Sheet, type Style, wrapped } from './sheet.ts';

/** Printers leave 12 mm blank at the most. */
const MARGIN = 34;
const GUTTER = 20;
const LEFT_WIDTH = 252;
const SECOND = MARGIN + LEFT_WIDTH + GUTTER;
const RIGHT_WIDTH = PAGE.width - 2 * MARGIN - GUTTER - LEFT_WIDTH;
const ALL = Number.POSITIVE_INFINITY;
/**
 * What is tried until the record fits on one page: first every film in full with smaller type and picture, lists
 * becoming paragraphs before the type gets small; then fewer films in full and the others on a line each, in type of a
 * good size again; then fewer lines. The smallest type is 6.1 points, and a reading is never below 7.
 */
const PLANS: readonly Plan[] = [
  ...[
    { type: 1, picture: 300, room: 'ample' },
    { type: 0.95, picture: 280, room: 'ample' },
    { type: 0.92, picture: 260, room: 'ample' },
    { type: 0.9, picture: 240, room: 'tight' },
    { type: 0.86, picture: 210, room: 'tight' },
    { type: 0.86, picture: 200, room: 'least' },
    { type: 0.83, picture: 160, room: 'least' },
    { type: 0.8, picture: 135, room: 'least' },
    { type: 0.8, picture: 100, room: 'least' },
  ].map((size) => ({ ...(size as Omit<Plan, 'inFull' | 'listed'>), inFull: ALL, listed: 0 })),
  ...[4, 3, 2].flatMap((inFull): readonly Plan[] => [
    { type: 0.92, picture: 240, room: 'tight', inFull, listed: ALL },
    { type: 0.9, picture: 200, room: 'least', inFull, listed: ALL },
    { type: 0.86, picture: 150, room: 'least', inFull, listed: ALL },
    { type: 0.83, picture: 125, room: 'least', inFull, listed: ALL },
  ]),
  { type: 0.92, picture: 240, room: 'tight', inFull: 1, listed: ALL },
  { type: 0.86, picture: 150, room: 'least', inFull: 1, listed: ALL },
  { type: 0.86, picture: 150, room: 'bare', inFull: 2, listed: ALL },
  ...[ALL, 40, 32, 24, 20, 16, 12, 8, 6, 4, 0].map(
    (listed): Plan => ({ type: 0.82, picture: 100, room: 'bare', inFull: 1, listed }),
  ),
  { type: 0.8, picture: 75, room: 'bare', inFull: 1, listed: 0 },
];
/** Where limit sets alone are more than a page: as much as a page and its continuation hold well. */
const RUNNING_ON: Plan = { type: 0.9, picture: 240, room: 'bare', inFull: 4, listed: 40 };
interface Plan {
  /** Against the size of a printed form. */
  readonly type: number;
  /** Points, the longest that the picture may be. */
  readonly picture: number;
  readonly room: RecordSetting['room'];
  /** Films in full, and on a line, at the most. */
  readonly inFull: number;
  readonly listed: number;
}

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
  const sheets: { readonly sheet: Sheet; readonly foot: readonly Block[] }[] = [];
  for (let rest = layout.columns; rest.some(({ blocks }) => blocks.length > 0); ) {
    const sheet = new Sheet(making);
    // Films on a line and the examination stand at the foot of the first page alone.
    const foot = sheets.length === 0 ? layout.foot : layout.lastFoot;
    sheets.push({ sheet, foot });
    drawHead(sheet, making, input);
    rest = pour(sheet, rest, topOf(making, input), bottomOver(foot));
  }
  for (const [index, { sheet, foot }] of sheets.entries())
    drawFoot(sheet, making, foot, pageLabel(index + 1, sheets.length));
}

function pageLabel(page: number, pages: number): string {
  if (pages === 1) return '';
  return `Page ${page} of ${pages}${page < pages ? ', continued' : ''}`;
}

interface Layout {
  readonly columns: readonly Column[];
  /** Of the first page. */
  readonly foot: readonly Block[];
  /** Of every page, below everything else. */
  readonly lastFoot: readonly Block[];
}

/** Where the columns of a page with that foot end. */
const bottomOver = (foot: readonly Block[]): number => PAGE.height - MARGIN - heightOf(foot) - 8;

/** The first plan that fits on one page, else the one that runs on. */
function bestLayout(making: Making, input: RecordPdfInput, picture: PDFImage | null): Layout {
  const top = topOf(making, input);
  for (const plan of PLANS) {
    const layout = layoutAt(making, input, picture, plan);
    if (fits(layout.columns, top, bottomOver(layout.foot))) return layout;
  }
  return layoutAt(making, input, picture, RUNNING_ON);
}

function layoutAt(making: Making, input: RecordPdfInput, picture: PDFImage | null, plan: Plan): Layout {
  const styles = stylesAt(plan.type);
  const { room } = plan;
  const left: RecordSetting = { faces: making.faces, width: LEFT_WIDTH, styles, room };
  const right: RecordSetting = { faces: making.faces, width: RIGHT_WIDTH, styles, room };
  const across: RecordSetting = { faces: making.faces, width: PAGE.width - 2 * MARGIN, styles, room };
  const onPage = filmsOnPage(input.document, input.picture?.filmNumbers ?? [], plan);
  const lastFoot = footBlocks(across, input);
  return {
    columns:
      room === 'bare'
        ? halved([
            ...pictureBlocks(left, input, picture, plan.picture),
            ...readingBlocks(left, input, onPage),
            ...SECTIONS.flatMap((section) => section(left, input, onPage)),
          ])
        : balanced(
            { x: MARGIN, blocks: pictureBlocks(left, input, picture, plan.picture) },
            { x: SECOND, blocks: readingBlocks(right, input, onPage) },
            SECTIONS.map((section) => [section(left, input, onPage), section(right, input, onPage)]),
          ),
    foot: [...filmTable(across, input, onPage), ...examinationAcross(across, input), ...lastFoot],
    lastFoot,
  };
}

/** What follows the picture and the readings, most important first. */
const SECTIONS: readonly ((
  setting: RecordSetting,
  input: RecordPdfInput,
  onPage: OnPage,
) => readonly Block[])[] = [
  limitBlocks,
  cautionBlocks,
  definitionBlocks,
  filmBlocks,
  answeredBlocks,
  openBlocks,
  sourceBlocks,
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

/** One column after the other, broken where the longer one is as short as can be; a heading stays with what follows. */
function halved(blocks: readonly Block[]): readonly Column[] {
  const total = heightOf(blocks);
  const breaks = blocks.flatMap((_, index) => (blocks[index - 1]?.keepWithNext === true ? [] : [index]));
  const longer = (at: number) => {
    const first = heightOf(blocks.slice(0, at));
    return Math.max(first, total - first);
  };
  const at = breaks.reduce((best, next) => (longer(next) < longer(best) ? next : best), blocks.length);
  return [
    { x: MARGIN, blocks: blocks.slice(0, at) },
    { x: SECOND, blocks: blocks.slice(at) },
  ];
}

const TITLE: Style = { face: 'serifBold', size: 20, colour: INK.ink };
const PAGE_NUMBER: Style = { face: 'sans', size: 7.7, colour: INK.soft };
const NAME: Style = { face: 'serifBold', size: 10.5, colour: INK.accent };
const UNDER_TITLE: Style = { face: 'sans', size: 9.5, colour: INK.soft };
/** The app takes 200 characters for a name, which are two lines; a case file from elsewhere may hold more. */
const MOST_NAME_LINES = 2;

/** Lines under the title: what else is known of the injury, and the name of the case, on lines of its own if long. */
function linesUnderTitle(
  { faces }: Making,
  { document, label, writtenOn }: RecordPdfInput,
): readonly string[] {
  const detail = injuryDetail(injuryOf(document));
  const face = faces[UNDER_TITLE.face];
  const widthOf = (text: string) => face.width(text, UNDER_TITLE.size);
  const room = PAGE.width - 2 * MARGIN - GUTTER - widthOf(whatItIs(writtenOn));
  const together = [detail, label ?? ''].filter((part) => part !== '').join('  ·  ');
  if (label === null || widthOf(together) <= room) return [together];
  const lines = wrapped([{ text: label, style: UNDER_TITLE }], PAGE.width - 2 * MARGIN, faces).map((line) =>
    line.map(({ text }) => text).join(''),
  );
  const kept = lines.slice(0, MOST_NAME_LINES);
  const last = `${kept.at(-1) ?? ''}${lines.length > kept.length ? '…' : ''}`;
  return [
    detail,
    ...[...kept.slice(0, -1), last].map((text) => cutTo(text, PAGE.width - 2 * MARGIN, widthOf)),
  ];
}

const whatItIs = (writtenOn: string | null): string =>
  ['Record of a measurement', ...(writtenOn === null ? [] : [writtenOn])].join(', ');

function drawHead(sheet: Sheet, making: Making, input: RecordPdfInput): void {
  const { faces } = making;
  const atRight = (text: string, style: Style, y: number) =>
    sheet.text({ text, style }, PAGE.width - MARGIN - faces[style.face].width(text, style.size), y);
  sheet.rectangle(MARGIN, MARGIN - 8, 26, 2.2, INK.accent);
  sheet.text({ text: injuryTitle(injuryOf(input.document)), style: TITLE }, MARGIN, MARGIN + 18);
  const under = linesUnderTitle(making, input);
  for (const [index, text] of under.entries())
    sheet.text({ text, style: UNDER_TITLE }, MARGIN, MARGIN + 34 + index * lineHeight(UNDER_TITLE));
  atRight('Raybend', NAME, MARGIN + 18);
  atRight(whatItIs(input.writtenOn), UNDER_TITLE, MARGIN + 34);
  const rule = topOf(making, input) - 3;
  sheet.line(MARGIN, rule, PAGE.width - MARGIN, rule, INK.ink, 0.8);
}

/** Where the columns begin. */
const topOf = (making: Making, input: RecordPdfInput): number =>
  MARGIN + 47 + (linesUnderTitle(making, input).length - 1) * lineHeight(UNDER_TITLE);

/** A text as it is, or its beginning and “…” where it is wider than the room for it. */
function cutTo(text: string, room: number, widthOf: (text: string) => number): string {
  if (widthOf(text) <= room) return text;
  let kept = [...text];
  while (kept.length > 0 && widthOf(`${kept.join('').trimEnd()}…`) > room) kept = kept.slice(0, -1);
  return `${kept.join('').trimEnd()}…`;
}

function drawFoot(sheet: Sheet, { faces }: Making, foot: readonly Block[], page: string): void {
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
