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
import { type OnPage, readingsOnPage } from './on-page.ts';
import {
  isShort,
  namedOverReadings,
  type RecordPdfInput,
  type RecordSetting,
  scaleBlocks,
} from './record-sections.ts';
import type { Piece } from './sheet.ts';

/** Readings by film, of the films that stand in full. */
export function readingBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
  onPage: OnPage,
): readonly Block[] {
  const known = knownReadings(assessment);
  const { inFull } = onPage;
  const { note, strong } = setting.styles;
  const named = namedOverReadings(setting, onPage);
  if (known.length === 0) {
    return [
      heading(setting, 'Readings'),
      paragraph(setting, [{ text: 'Nothing was measured.', style: setting.styles.body }]),
    ];
  }
  const groups = inFull.flatMap(({ film, number }) => {
    const onFilm = known.filter(({ filmId }) => filmId === film.id);
    if (onFilm.length === 0 && !named) return [];
    const name = paragraph(setting, [
      { text: `Film ${number}${named ? '. ' : ''}`, style: strong },
      ...(named ? [{ text: filmSentence(film, injuryOf(document)), style: note }] : []),
    ]);
    return [
      ...(inFull.length > 1 || named
        ? [gap(isShort(setting) ? 2 : 4), { ...name, keepWithNext: onFilm.length > 0 }]
        : []),
      ...onFilm.map((reading) => readingRow(setting, rowOf(document, reading))),
    ];
  });
  return [heading(setting, 'Readings', '95 % interval'), ...groups];
}

/** What each reading is, what the intervals leave out, and in the least room the scales: each said once. */
export function definitionBlocks(
  setting: RecordSetting,
  { document, assessment }: RecordPdfInput,
  onPage: OnPage,
): readonly Block[] {
  const known = readingsOnPage(onPage, knownReadings(assessment));
  if (known.length === 0) return [];
  const { note } = setting.styles;
  const leftOut = [...new Set(known.flatMap(({ leavesOut }) => leavesOut.split(/(?<=\.) /)))].join(' ');
  return [
    heading(setting, 'Definitions'),
    gap(2),
    // A page that has room for nothing more breaks its columns between any two of them.
    ...(setting.room === 'bare'
      ? definitions(setting, document, known).map((pieces) => paragraph(setting, pieces))
      : [paragraph(setting, definitions(setting, document, known).flat(), 2)]),
    paragraph(setting, [{ text: leftOut, style: note }], 2),
    ...(namedOverReadings(setting, onPage) ? scaleBlocks(setting, onPage) : []),
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
): readonly (readonly Piece[])[] {
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
  return [...said].map(([whole, name]) => [name, { text: whole.slice(name.text.length - 1), style: note }]);
}

/** A definition as it holds on every film: its own film is said by where it stands. */
const withoutFilm = (definition: string, name: string): string =>
  definition.replace(` on the ${name}`, '').replace(`, for the ${name}`, '');
