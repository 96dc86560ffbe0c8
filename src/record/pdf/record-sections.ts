import type { PDFImage } from 'pdf-lib';
import type { Assessment } from '../../case/assessment.ts';
import type { Comparison } from '../../case/comparison.ts';
import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { formatReading, quantityName, readingInWords } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import type { Caution } from '../../tolerance/caution.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { limitText } from '../../tolerance/limit-words.ts';
import { ticksFor } from '../../tolerance/ticks.ts';
import { knownReadings } from '../readings.ts';
import { filmSentence } from '../words/case-words.ts';
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
} from './blocks.ts';
import type { FaceFiles } from './faces.ts';
import { INK } from './ink.ts';
import { rulerBlock } from './ruler.ts';
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
    gap(8),
    figure(setting, image, tallest, [
      { text: `Film ${picture.filmNumber}. `, style: captionNumber },
      { text: words, style: caption },
    ]),
  ];
}

export function filmBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
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

export function answeredBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
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

export function openBlocks(setting: Setting, { document }: RecordPdfInput): readonly Block[] {
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

export function readingBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
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
    label: quantityName(reading.quantity, reading.view),
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

export function limitBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
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
  const said = `${quantityName(reading.quantity, reading.view)} against ${limitSet.title}${limit === null ? '' : `: ${limit}`}`;
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
export function cautionBlocks(setting: Setting, { document, assessment }: RecordPdfInput): readonly Block[] {
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
