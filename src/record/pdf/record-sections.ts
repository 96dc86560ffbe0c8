import type { PDFImage } from 'pdf-lib';
import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument, FilmRecord } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { filmSentence } from '../words/case-words.ts';
import { openChecks } from '../words/cautions.ts';
import { listed } from '../words/outcomes.ts';
import { scaleSentence } from '../words/scale.ts';
import { answerRow, type Block, figure, gap, heading, paragraph, type Setting } from './blocks.ts';
import type { FaceFiles } from './faces.ts';
import { INK } from './ink.ts';
import type { Style } from './sheet.ts';

/** What a printed record is made from. */
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

/** A column of the record. */
export interface RecordSetting extends Setting {
  /** Tight: what is a list elsewhere is set as one paragraph. Least: outcomes without their reasons, too. */
  readonly room: 'ample' | 'tight' | 'least';
}

/* Each section of the record as blocks for a column; none where it has nothing to say. */

export function pictureBlocks(
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
    gap(6),
    figure(setting, image, tallest, [
      { text: `Film ${picture.filmNumber}. `, style: captionNumber },
      { text: words, style: caption },
    ]),
  ];
}

/** Each film; where its scale comes from is said once for all films that have it alike. */
export function filmBlocks(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  const { body } = setting.styles;
  const injury = injuryOf(document);
  const films = markedFilms(document).map(({ film }) => film);
  // In the least room they stand over their readings.
  if (films.length === 0 || setting.room === 'least') return [];
  return [
    heading(setting, 'Films', `${films.length}`),
    ...films.map((film, index) =>
      paragraph(setting, [{ text: `${index + 1}.  ${filmSentence(film, injury)}`, style: body }], 1.5),
    ),
    ...scaleBlocks(setting, films),
  ];
}

/** Where the scale of each film comes from. */
export function scaleBlocks(setting: Setting, films: readonly FilmRecord[]): readonly Block[] {
  const scales = new Map<string, number[]>();
  for (const [index, { spacing }] of films.entries()) {
    const scale = scaleSentence(spacing);
    scales.set(scale, [...(scales.get(scale) ?? []), index + 1]);
  }
  return [...scales].map(([scale, alike]) => {
    const which = scales.size === 1 ? '' : `${numberedFilms(alike)}: `;
    return paragraph(setting, [{ text: `${which}${scale}`, style: setting.styles.note }], 1.5);
  });
}

/** "Film 2", "Films 1 and 3". */
const numberedFilms = (numbers: readonly number[]): string =>
  `Film${numbers.length === 1 ? '' : 's'} ${listed(numbers.map(String))}`;

export function answeredBlocks(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  const answered = answersOf(setting, document);
  if (answered.length === 0 || setting.room === 'least') return [];
  return [
    heading(setting, 'Examination', `${answered.length} answered`),
    gap(3),
    ...answered.map(({ question, answer }) => answerRow(setting, question, answer)),
  ];
}

/** Each answered question with its answer, in the tone of a warning where it is a worrying one. */
function answersOf({ styles: { note } }: Setting, document: CaseDocument) {
  const { answers } = examinationOf(document);
  return checksFor(injuryOf(document)).flatMap(({ id, question, worrying }) => {
    const given = answers[id];
    if (given === undefined) return [];
    const style: Style = { ...note, face: 'sansBold', colour: given === worrying ? INK.warn : INK.ink };
    return [{ question, answer: { text: given === 'yes' ? 'Yes' : 'No', style } }];
  });
}

export function openBlocks(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  const open = openChecks(document);
  if (open.length === 0 || setting.room === 'least') return [];
  const { note } = setting.styles;
  return [
    heading(setting, 'Not checked', `${open.length} open`),
    gap(3),
    ...(setting.room === 'tight'
      ? [paragraph(setting, [{ text: open.map(({ question }) => question).join(' '), style: note }])]
      : open.map((check) => answerRow(setting, check.question, 'open'))),
  ];
}

/** The examination across the whole page, where the columns have no room for it. */
export function examinationAcross(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  if (setting.room !== 'least') return [];
  const { note } = setting.styles;
  const strong: Style = { ...note, face: 'sansBold', colour: INK.ink };
  const answered = answersOf(setting, document);
  const open = openChecks(document);
  return [
    ...(answered.length === 0
      ? []
      : [
          paragraph(setting, [
            { text: `Examination (${answered.length} answered): `, style: strong },
            ...answered.flatMap(({ question, answer }) => [
              { text: `${question} `, style: note },
              { ...answer, text: `${answer.text}. ` },
            ]),
          ]),
        ]),
    ...(open.length === 0
      ? []
      : [
          paragraph(setting, [
            { text: `Not checked (${open.length} open): `, style: { ...strong, colour: INK.warn } },
            { text: open.map(({ question }) => question).join(' '), style: note },
          ]),
        ]),
    ...(answered.length + open.length === 0 ? [] : [gap(5)]),
  ];
}
