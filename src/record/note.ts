import type { Assessment } from '../case/assessment.ts';
import { MOMENT_WORDS } from '../case/course/order.ts';
import type { CaseDocument, FilmRecord } from '../case/document.ts';
import { markedFilms } from '../case/film-marks.ts';
import { injuryOf } from '../case/fixed-records.ts';
import { drawnBy, formatDay, quantityName, readingInWords } from '../case/format.ts';
import type { KnownReading } from '../case/reading.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import { checksFor } from '../tolerance/checks.ts';
import { VIEW_WORDS } from '../tolerance/limit-method.ts';
import { knownReadings } from './readings.ts';
import { basisOf } from './words/basis.ts';
import { EDUCATION_LINE, injuryDetail, injuryTitle } from './words/case-words.ts';
import { openChecks } from './words/cautions.ts';
import { comparedQuantities } from './words/outcomes.ts';
import { lowerFirst, withPlainSpaces, withStop } from './words/sentence.ts';

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
  const said = new Map<string, number>();
  const perFilm = markedFilms(document).flatMap(({ film }, index) =>
    filmClause(document, film, index + 1, readings, said),
  );
  const detail = injuryDetail(injury);
  const checks = checksFor(injury);
  const open = openChecks(document);
  const cautions = assessment.cautions.filter(({ about, grade }) => about !== 'use' && grade !== 'note');
  const sentences = [
    `${injuryTitle(injury)}${detail === '' ? '' : ` (${detail})`}.`,
    ...perFilm,
    ...outcomes(document, assessment, readings),
    ...(cautions.length === 0 ? [] : [`Cautions: ${cautions.map(({ title }) => title).join('; ')}.`]),
    ...(open.length === 0
      ? []
      : [`Of ${checks.length} questions of the examination ${open.length} are not answered.`]),
    `Intervals are 95 %. Raybend ${softwareVersion}, measurement version ${assessment.measurementVersion}.`,
    EDUCATION_LINE,
  ];
  return success(withPlainSpaces(sentences.join(' ')));
}

/** "Film 4, other hand, lateral": which film it is, so that no two angles read as if they were of one bone. */
function filmHead({ shows, hand, view, day, moment }: FilmRecord, number: number): string {
  const what = shows === 'fist' ? 'fist photograph' : view === null ? 'view not said' : VIEW_WORDS[view];
  return [
    `Film ${number}`,
    hand === 'other' ? 'other hand' : 'injured hand',
    what,
    ...(hand === 'other' ? [] : [formatDay(day)]),
    ...(moment === null || moment === 'follow-up' ? [] : [MOMENT_WORDS[moment]]),
  ].join(', ');
}

/** @param said - Which source was given on which film: it is given once. */
function filmClause(
  document: CaseDocument,
  film: FilmRecord,
  number: number,
  readings: readonly KnownReading[],
  said: Map<string, number>,
): readonly string[] {
  const onFilm = readings.filter(({ filmId }) => filmId === film.id);
  if (onFilm.length === 0) return [];
  const clauses = onFilm.map((reading) => readingClause(document, reading, number, said));
  return [`${filmHead(film, number)}: ${clauses.join('; ')}.`];
}

function readingClause(
  document: CaseDocument,
  reading: KnownReading,
  number: number,
  said: Map<string, number>,
): string {
  const { quantity, view, constructions, provenances } = reading;
  const name = lowerFirst(quantityName(quantity, view)).replace(/, measured$/, '');
  const apex = reading.apex === null ? '' : ` ${reading.apex}`;
  const drawn =
    quantity === 'angulation' && constructions.length > 0
      ? ` (axes by ${constructions.map((construction, index) => drawnBy(construction, provenances[index])).join(' and ')})`
      : '';
  const basis = basisOf(document, reading);
  const from =
    basis === null
      ? ''
      : basis.film === null
        ? sourceOnce(basis.words, number, said)
        : ` (from ${basis.film})`;
  return `${name} ${readingInWords(reading)}${apex}${drawn}${from}`;
}

/** " [Published normal 12° …]", and where it was said before, " [as on film 1]". */
function sourceOnce(words: string, number: number, said: Map<string, number>): string {
  const before = said.get(words);
  if (before !== undefined) return ` [as on film ${before}]`;
  said.set(words, number);
  return ` [${words}]`;
}

/** "Limits for angulation on film 1: …": each set by name with what it says, once. */
function outcomes(
  document: CaseDocument,
  { comparisons }: Assessment,
  readings: readonly KnownReading[],
): readonly string[] {
  const sentences = comparedQuantities(document, comparisons, readings).flatMap(
    ({ filmNumber, name, saying, silent }) => {
      const said = saying.map(
        ({ comparison: { limitSet, words } }) => `${limitSet.title}: ${lowerFirst(withStop(words))}`,
      );
      return [
        ...(said.length === 0
          ? []
          : [`Limits for ${bracketed(name)} on film ${filmNumber}: ${said.join(' ')}`]),
        ...(silent === null ? [] : [silent]),
      ];
    },
  );
  // Sets that say nothing say it of every film alike.
  return [...new Set(sentences)];
}

/** "shortening (by the other hand)": a comma would end the clause. */
const bracketed = (name: string): string => lowerFirst(name).replace(/, (.+)$/, ' ($1)');
