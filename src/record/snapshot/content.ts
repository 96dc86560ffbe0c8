import type { Assessment } from '../../case/assessment.ts';
import type { Comparison } from '../../case/comparison.ts';
import type { CaseDocument, Provenance, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { examinationOf, injuryOf } from '../../case/fixed-records.ts';
import { formatReading, PROVENANCE_WORDS, quantityName } from '../../case/format.ts';
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
  /** What the other chosen sets say of the film, one sentence for each kind of reading. */
  readonly others: readonly string[];
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
    note: [reading.apex, reading.basis, tracedAxes(reading)].filter((part) => part !== null).join(', '),
  };
}

/** "axes traced", "proximal axis placed, distal axis traced"; null where a hand placed both. */
function tracedAxes({ provenances: [proximal = 'placed', distal = 'placed'] }: KnownReading): string | null {
  const how = (provenance: Provenance) =>
    provenance === 'placed' ? 'placed' : PROVENANCE_WORDS[provenance].replace(', ', '');
  if (proximal !== distal) return `proximal axis ${how(proximal)}, distal axis ${how(distal)}`;
  return proximal === 'placed' ? null : `axes ${how(proximal)}`;
}

function outcomeOf(
  comparisons: readonly Comparison[],
  known: readonly KnownReading[],
): SnapshotOutcome | null {
  const onFilm = comparisons.flatMap((comparison) => {
    const reading = known.find(({ id }) => id === comparison.readingId);
    return reading === undefined ? [] : [{ comparison, reading }];
  });
  const [first, ...others] = onFilm;
  if (first === undefined) return null;
  const { comparison, reading } = first;
  return {
    words: comparison.words,
    limitSet: comparison.limitSet.title,
    source: comparison.limitSet.source.citation,
    reading: { value: reading.value, expandedUncertainty: reading.expandedUncertainty },
    band: comparison.row?.band ?? null,
    unit: comparison.row?.unit ?? 'degrees',
    others: othersInWords(first, others),
  };
}

interface Compared {
  readonly comparison: Comparison;
  readonly reading: KnownReading;
}

/** "Other sets: cannot tell by Textbook chapter; no limit on file in 3." Nothing for one set alone. */
function othersInWords(first: Compared, others: readonly Compared[]): readonly string[] {
  const alike = others.filter(({ reading }) => reading.unit === first.reading.unit);
  const unlike = others.filter(({ reading }) => reading.unit !== first.reading.unit);
  const named = new Set(unlike.map(({ reading }) => quantityName(reading.quantity, reading.view)));
  return [
    ...(alike.length === 0 ? [] : [`Other sets: ${byOutcome(alike)}.`]),
    ...[...named].map((name) => {
      const same = unlike.filter(({ reading }) => quantityName(reading.quantity, reading.view) === name);
      return `${name}: ${byOutcome(same)}.`;
    }),
  ];
}

/** Sets by what they say, the worst first; those without a limit are counted. */
function byOutcome(compared: readonly Compared[]): string {
  const saying = (outcome: Comparison['outcome']) =>
    compared.filter(({ comparison }) => comparison.outcome === outcome);
  const said = (['past the limit', 'cannot tell', 'inside the limit'] as const).flatMap((outcome) => {
    const titles = saying(outcome).map(({ comparison }) => comparison.limitSet.title);
    return titles.length === 0 ? [] : [`${outcome} by ${titles.join(', ')}`];
  });
  const without = saying('no limit on file').length;
  return [
    ...said,
    ...(without === 0 ? [] : [`no limit on file in ${without} ${without === 1 ? 'set' : 'sets'}`]),
  ].join('; ');
}
