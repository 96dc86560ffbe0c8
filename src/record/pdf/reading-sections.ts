import type { CaseDocument } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { formatReading, quantityName } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import { filmNames } from '../../case/readings/names.ts';
import { knownReadings } from '../readings.ts';
import { basisOf } from '../words/basis.ts';
import { filmSentence } from '../words/case-words.ts';
import { lowerFirst, withStop } from '../words/sentence.ts';
import { type Block, gap, heading, paragraph, readingRow, type Setting } from './blocks.ts';
import { type RecordPdfInput, type RecordSetting, scaleBlocks } from './record-sections.ts';
import type { Piece } from './sheet.ts';

/** Readings by film. */
export function readingBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
): readonly Block[] {
  const known = knownReadings(assessment);
  const films = markedFilms(document);
  const { note, strong } = setting.styles;
  const least = setting.room === 'least';
  if (known.length === 0) {
    return [
      heading(setting, 'Readings'),
      paragraph(setting, [{ text: 'Nothing was measured.', style: setting.styles.body }]),
    ];
  }
  const groups = films.flatMap(({ film }, index) => {
    const onFilm = known.filter(({ filmId }) => filmId === film.id);
    if (onFilm.length === 0 && !least) return [];
    const name = paragraph(setting, [
      { text: `Film ${index + 1}${least ? '. ' : ''}`, style: strong },
      ...(least ? [{ text: filmSentence(film, injuryOf(document)), style: note }] : []),
    ]);
    return [
      ...(films.length > 1 || least ? [gap(4), { ...name, keepWithNext: onFilm.length > 0 }] : []),
      ...onFilm.map((reading) => readingRow(setting, rowOf(document, reading))),
    ];
  });
  return [heading(setting, 'Readings', '95 % interval'), ...groups];
}

/** What each reading is, what the intervals leave out, and in the least room the scales: each said once. */
export function definitionBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
): readonly Block[] {
  const known = knownReadings(assessment);
  if (known.length === 0) return [];
  const { note } = setting.styles;
  const films = markedFilms(document).map(({ film }) => film);
  const leftOut = [...new Set(known.flatMap(({ leavesOut }) => leavesOut.split(/(?<=\.) /)))].join(' ');
  return [
    heading(setting, 'Definitions'),
    gap(2),
    paragraph(setting, definitions(setting, document, known), 2),
    paragraph(setting, [{ text: leftOut, style: note }], 2),
    ...(setting.room === 'least' ? scaleBlocks(setting, films) : []),
  ];
}

function rowOf(document: CaseDocument, reading: KnownReading) {
  const { value, plusMinus } = formatReading(reading);
  const from = basisOf(document, reading)?.film ?? null;
  return {
    label: quantityName(reading.quantity, reading.view),
    value,
    plusMinus,
    aside: [reading.apex, from === null ? null : `from ${from}`].filter((part) => part !== null).join(', '),
  };
}

/** "Deformity: the measured angulation, less the normal. …": each once, whichever films it is read on. */
function definitions(
  setting: Setting,
  document: CaseDocument,
  known: readonly KnownReading[],
): readonly Piece[] {
  const { note } = setting.styles;
  const label = { ...note, face: 'sansBold' } as const;
  const names = filmNames(markedFilms(document).map(({ film }) => film));
  const said = new Map<string, Piece>();
  for (const reading of known) {
    const basis = basisOf(document, reading);
    const definition = withoutFilm(reading.definition, names.get(reading.filmId) ?? '');
    const from = basis === null || basis.film !== null ? '' : ` ${withStop(basis.words)}`;
    const name = quantityName(reading.quantity, reading.view);
    const text = `${lowerFirst(definition)}${from} `;
    said.set(`${name} ${text}`, { text: `${name}: `, style: label });
  }
  return [...said].flatMap(([whole, name]) => [
    name,
    { text: whole.slice(name.text.length - 1), style: note },
  ]);
}

/** A definition as it holds on every film: its own film is said by where it stands. */
const withoutFilm = (definition: string, name: string): string =>
  definition.replace(` on the ${name}`, '').replace(`, for the ${name}`, '');
