import type { Assessment } from '../case/assessment.ts';
import type { Comparison } from '../case/comparison.ts';
import type { CaseDocument, FilmRecord } from '../case/document.ts';
import { markedFilms } from '../case/film-marks.ts';
import { examinationOf, injuryOf } from '../case/fixed-records.ts';
import { quantityName, readingInWords } from '../case/format.ts';
import type { KnownReading } from '../case/reading.ts';
import { filmNames } from '../case/readings/names.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { checksFor } from '../tolerance/checks.ts';
import { CONSTRUCTION_WORDS } from '../tolerance/limit-method.ts';
import { knownReadings } from './readings.ts';
import { EDUCATION_LINE, injuryDetail, injuryTitle } from './words/case-words.ts';

export interface NothingRead {
  readonly kind: 'no-readings';
}

/**
 * One paragraph for the patient's notes: the injury, each reading with its interval and how it was drawn, the
 * outcome against each chosen set, the cautions that change what a number is worth, and how much of the
 * examination is open. Plain characters, one line, nothing that the user typed as a name for the case.
 *
 * Fails when there is no reading to write down.
 */
export function noteText(
  document: CaseDocument,
  assessment: Assessment,
  softwareVersion: string,
): Result<string, NothingRead> {
  const readings = knownReadings(assessment);
  if (readings.length === 0) return failure({ kind: 'no-readings' });
  const injury = injuryOf(document);
  const films = markedFilms(document).map(({ film }) => film);
  const names = filmNames(films);
  const perFilm = films.flatMap((film) => filmClause(film, names.get(film.id) ?? '', readings));
  const detail = injuryDetail(injury);
  const { answers } = examinationOf(document);
  const checks = checksFor(injury);
  const open = checks.filter(({ id }) => answers[id] === undefined);
  const cautions = assessment.cautions.filter(({ about, grade }) => about !== 'use' && grade !== 'note');
  const sentences = [
    `${injuryTitle(injury)}${detail === '' ? '' : ` (${detail})`}.`,
    ...perFilm,
    ...outcomes(assessment.comparisons),
    ...(cautions.length === 0 ? [] : [`Cautions: ${cautions.map(({ title }) => title).join('; ')}.`]),
    ...(open.length === 0
      ? []
      : [`Of ${checks.length} questions of the examination ${open.length} are not answered.`]),
    `Intervals are 95 %. Raybend ${softwareVersion}, measurement version ${assessment.measurementVersion}.`,
    EDUCATION_LINE,
  ];
  return success(sentences.join(' ').replaceAll('\u2009', ' '));
}

function filmClause(film: FilmRecord, name: string, readings: readonly KnownReading[]): readonly string[] {
  const onFilm = readings.filter(({ filmId }) => filmId === film.id);
  if (onFilm.length === 0) return [];
  const said = onFilm.map((reading) => {
    const apex = reading.apex === null ? '' : ` ${reading.apex}`;
    const drawn =
      reading.quantity === 'angulation' && reading.constructions.length > 0
        ? ` (axes by ${reading.constructions.map((construction) => CONSTRUCTION_WORDS[construction]).join(' and ')})`
        : '';
    const basis = reading.basis === null ? '' : ` [${reading.basis.replace(/\.$/, '')}]`;
    return `${lowerFirst(quantityName(reading.quantity, reading.view))} ${readingInWords(reading)}${apex}${drawn}${basis}`;
  });
  return [`${upperFirst(name)}: ${said.join('; ')}.`];
}

const outcomes = (comparisons: readonly Comparison[]): readonly string[] =>
  comparisons.map(({ words, limitSet }) => `${limitSet.title}: ${lowerFirst(withStop(words))}`);

const withStop = (sentence: string): string => (sentence.endsWith('.') ? sentence : `${sentence}.`);

const upperFirst = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
const lowerFirst = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
