import type { PDFImage } from 'pdf-lib';
import type { Assessment } from '../../case/assessment.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { filmSentence } from '../words/case-words.ts';
import { openChecks } from '../words/cautions.ts';
import { scaleSentence } from '../words/scale.ts';
import { upperFirst } from '../words/sentence.ts';
import { answerRow, type Block, figure, gap, heading, paragraph, type Setting } from './blocks.ts';
import type { FaceFiles } from './faces.ts';
import { INK } from './ink.ts';
import { filmsInWords, type NumberedFilm, type OnPage } from './on-page.ts';
import type { Style } from './sheet.ts';

/** What a printed record is made from. */
export interface RecordPdfInput {
  readonly document: CaseDocument;
  readonly assessment: Assessment;
  readonly faces: FaceFiles;
  /** The annotated film as PNG, or two side by side, with their numbers from the left; null: no picture. */
  readonly picture: { readonly png: Uint8Array; readonly filmNumbers: readonly number[] } | null;
  /** The user's own name for the case, where it is wanted on paper. */
  readonly label: string | null;
  /** The day of writing, as it is to be read; null: none. */
  readonly writtenOn: string | null;
  readonly softwareVersion: string;
}

/** A column of the record. */
export interface RecordSetting extends Setting {
  /**
   * Tight: what is a list elsewhere is set as one paragraph. Least: outcomes without their reasons, too. Bare: no
   * strips, no reasons of cautions that are not a stop, and sources only of the sets that speak.
   */
  readonly room: 'ample' | 'tight' | 'least' | 'bare';
}

export const isShort = ({ room }: RecordSetting): boolean => room === 'least' || room === 'bare';

/** Whether a film is named over its readings: there is no room for a list of films, or not all stand in full. */
export const namedOverReadings = (setting: RecordSetting, { listed, leftOut }: OnPage): boolean =>
  isShort(setting) || listed.length + leftOut.length > 0;

/* Each section of the record as blocks for a column; none where it has nothing to say. */

export function pictureBlocks(
  setting: Setting,
  { document, picture }: RecordPdfInput,
  image: PDFImage | null,
  tallest: number,
): readonly Block[] {
  if (picture === null || image === null) return [];
  const { caption, captionNumber } = setting.styles;
  const films = markedFilms(document);
  const { filmNumbers } = picture;
  const others = films.length - filmNumbers.length;
  const alone =
    others < 1 ? '' : `The other ${others === 1 ? 'film is' : `${others} films are`} not pictured.`;
  const named = filmNumbers.flatMap((number, index) => {
    const film = films[number - 1]?.film;
    const side = filmNumbers.length < 2 ? '' : index === 0 ? ', left' : ', right';
    const words = film === undefined ? '' : filmSentence(film, injuryOf(document));
    return [
      { text: `Film ${number}${side}. `, style: captionNumber },
      { text: `${words} `, style: caption },
    ];
  });
  return [gap(6), figure(setting, image, tallest, [...named, { text: alone, style: caption }])];
}

/** Each film; where its scale comes from is said once for all films that have it alike. */
export function filmBlocks(
  setting: RecordSetting,
  { document }: RecordPdfInput,
  onPage: OnPage,
): readonly Block[] {
  const { body } = setting.styles;
  const injury = injuryOf(document);
  const { inFull } = onPage;
  if (inFull.length === 0 || namedOverReadings(setting, onPage)) return [];
  return [
    heading(setting, 'Films', `${inFull.length}`),
    ...inFull.map(({ film, number }) =>
      paragraph(setting, [{ text: `${number}.  ${filmSentence(film, injury)}`, style: body }], 1.5),
    ),
    ...scaleBlocks(setting, onPage),
  ];
}

/** Where the scale of each film comes from. */
export function scaleBlocks(setting: Setting, { inFull, listed }: OnPage): readonly Block[] {
  const scales = new Map<string, NumberedFilm[]>();
  for (const one of [...inFull, ...listed].toSorted((a, b) => a.number - b.number)) {
    const scale = scaleSentence(one.film.spacing);
    scales.set(scale, [...(scales.get(scale) ?? []), one]);
  }
  return [...scales].map(([scale, alike]) => {
    const which = scales.size === 1 ? '' : `${upperFirst(filmsInWords(alike))}: `;
    return paragraph(setting, [{ text: `${which}${scale}`, style: setting.styles.note }], 1.5);
  });
}

/** What was looked at in the examination; nothing where a page has to be short. */
export function answeredBlocks(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  const answered = answersOf(setting, document);
  if (answered.length === 0 || isShort(setting)) return [];
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

/** What was not looked at: as one paragraph where room is tight, nothing where a page has to be short. */
export function openBlocks(setting: RecordSetting, { document }: RecordPdfInput): readonly Block[] {
  const open = openChecks(document);
  if (open.length === 0 || isShort(setting)) return [];
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
  if (!isShort(setting)) return [];
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
