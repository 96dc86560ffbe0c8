import type { Assessment } from '../../case/assessment.ts';
import type { Comparison } from '../../case/comparison.ts';
import type { CaseDocument, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { formatReading, quantityName } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import { checksFor } from '../../tolerance/checks.ts';
import { EDUCATION_LINE, filmSentence, injuryTitle } from '../words/case-words.ts';

/** All that is written beside the film. Nothing of it comes from the film's own header or file name. */
export interface SnapshotContent {
  readonly title: string;
  readonly caption: string;
  readonly readings: readonly SnapshotReading[];
  readonly outcome: SnapshotOutcome | null;
  readonly cautions: readonly { readonly title: string; readonly why: string }[];
  readonly notChecked: readonly string[];
  readonly foot: readonly string[];
}

export interface SnapshotReading {
  readonly name: string;
  readonly value: string;
  readonly plusMinus: string;
  readonly note: string;
}

export interface SnapshotOutcome {
  readonly words: string;
  readonly limitSet: string;
  readonly source: string;
  readonly reading: { readonly value: number; readonly expandedUncertainty: number };
  readonly band: { readonly lo: number; readonly hi: number } | null;
  readonly unit: 'degrees' | 'millimetres';
}

/** Gathers what a snapshot of one film says. Null when the case has no such film. */
export function snapshotContent(
  document: CaseDocument,
  assessment: Assessment,
  filmId: RecordId,
): SnapshotContent | null {
  const films = markedFilms(document).map(({ film }) => film);
  const film = films.find(({ id }) => id === filmId);
  if (film === undefined) return null;
  const injury = injuryOf(document);
  const known = assessment.readings.filter(
    (reading): reading is KnownReading => reading.state === 'known' && reading.filmId === filmId,
  );
  const { answers } = examinationOf(document);
  return {
    title: injuryTitle(injury),
    caption: `Film ${films.indexOf(film) + 1}. ${filmSentence(film, injury)}`,
    readings: known.map(readingLine),
    outcome: outcomeOf(assessment.comparisons, known),
    cautions: assessment.cautions
      .filter(({ about }) => about !== 'use')
      .map(({ title, why }) => ({ title, why })),
    notChecked: checksFor(injury)
      .filter((check) => answers[check.id] === undefined)
      .map((check) => check.question),
    foot: [
      EDUCATION_LINE,
      `± is the half-width of the 95 % interval. Measurement version ${assessment.measurementVersion}.`,
    ],
  };
}

function readingLine(reading: KnownReading): SnapshotReading {
  const { value, plusMinus } = formatReading(reading);
  return {
    name: quantityName(reading.quantity, reading.view),
    value,
    plusMinus,
    note: [reading.apex, reading.basis].filter((part) => part !== null).join(', '),
  };
}

function outcomeOf(
  comparisons: readonly Comparison[],
  known: readonly KnownReading[],
): SnapshotOutcome | null {
  for (const comparison of comparisons) {
    const reading = known.find(({ id }) => id === comparison.readingId);
    if (reading === undefined) continue;
    return {
      words: comparison.words,
      limitSet: comparison.limitSet.title,
      source: comparison.limitSet.source.citation,
      reading: { value: reading.value, expandedUncertainty: reading.expandedUncertainty },
      band: comparison.row?.band ?? null,
      unit: comparison.row?.unit ?? 'degrees',
    };
  }
  return null;
}
