import type { Assessment } from '../../case/assessment.ts';
import { type Comparison, valueAgainstLimit } from '../../case/comparison.ts';
import type { CaseDocument, Provenance, RecordId } from '../../case/document.ts';
import { markedFilms } from '../../case/film-marks.ts';
import { injuryOf } from '../../case/fixed-records.ts';
import { formatReading, PROVENANCE_WORDS, quantityName } from '../../case/format.ts';
import type { KnownReading } from '../../case/reading.ts';
import { knownReadings } from '../readings.ts';
import { basisOf } from '../words/basis.ts';
import { EDUCATION_LINE, filmSentence, injuryTitle } from '../words/case-words.ts';
import { openChecks, sortedCautions } from '../words/cautions.ts';
import { comparedQuantities, listed, type SetSaying } from '../words/outcomes.ts';
import { lowerFirst, upperFirst } from '../words/sentence.ts';

/** All that is written beside the film. Nothing of it comes from the film's own header or file name. */
export interface SnapshotContent {
  readonly title: string;
  readonly caption: string;
  readonly readings: readonly SnapshotReading[];
  readonly outcomes: readonly SnapshotOutcome[];
  /** The gravest: each decides before any angle. */
  readonly stops: readonly SnapshotCaution[];
  /** What is cautioned against because it was not checked, by title. */
  readonly unchecked: readonly string[];
  /** All others, worst first. */
  readonly cautions: readonly SnapshotCaution[];
  readonly notChecked: readonly string[];
  readonly foot: readonly string[];
}

export interface SnapshotCaution {
  readonly title: string;
  readonly why: string;
}

export interface SnapshotReading {
  readonly name: string;
  readonly value: string;
  readonly plusMinus: string;
  readonly note: string;
}

/** What the chosen sets say of one quantity of the film. */
export interface SnapshotOutcome {
  /** "Angulation", "Shortening, by the other hand". */
  readonly name: string;
  /** The first chosen set that speaks of it, in full; null where none does. */
  readonly chosen: ChosenSet | null;
  /** What the other chosen sets say, each by its name, one sentence for each kind of answer. */
  readonly others: readonly string[];
}

export interface ChosenSet {
  readonly words: string;
  readonly limitSet: string;
  readonly source: string;
  /** As it stands against the limit, in `unit`. */
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
  const known = knownReadings(assessment).filter((reading) => reading.filmId === filmId);
  const { open, rest } = sortedCautions(document, assessment);
  return {
    title: injuryTitle(injury),
    caption: `Film ${films.indexOf(film) + 1}. ${filmSentence(film, injury)}`,
    readings: known.map((reading) => readingLine(document, reading)),
    outcomes: outcomesOf(document, assessment.comparisons, known),
    stops: rest.filter(({ grade }) => grade === 'stop'),
    unchecked: open,
    cautions: rest.filter(({ grade }) => grade !== 'stop'),
    notChecked: openChecks(document).map(({ question }) => question),
    foot: [
      EDUCATION_LINE,
      `± is the half-width of the 95 % interval. Measurement version ${assessment.measurementVersion}.`,
    ],
  };
}

function readingLine(document: CaseDocument, reading: KnownReading): SnapshotReading {
  const { value, plusMinus } = formatReading(reading);
  const parts = [reading.apex, basisOf(document, reading)?.words ?? null, tracedAxes(reading)].filter(
    (part) => part !== null,
  );
  return {
    name: quantityName(reading.quantity, reading.view),
    value,
    plusMinus,
    note: upperFirst(parts.map((part, index) => (index === 0 ? part : lowerFirst(part))).join(', ')),
  };
}

/** "axes traced", "proximal axis placed, distal axis traced"; null where a hand placed both. */
function tracedAxes({ provenances: [proximal = 'placed', distal = 'placed'] }: KnownReading): string | null {
  const how = (provenance: Provenance) =>
    provenance === 'placed' ? 'placed' : PROVENANCE_WORDS[provenance].replace(', ', '');
  if (proximal !== distal) return `proximal axis ${how(proximal)}, distal axis ${how(distal)}`;
  return proximal === 'placed' ? null : `axes ${how(proximal)}`;
}

function outcomesOf(
  document: CaseDocument,
  comparisons: readonly Comparison[],
  known: readonly KnownReading[],
): readonly SnapshotOutcome[] {
  return comparedQuantities(document, comparisons, known).map(({ name, saying, silent }) => {
    const [first, ...others] = saying;
    return {
      name,
      chosen: first === undefined ? null : chosenSet(first),
      others: [
        ...(others.length === 0 ? [] : [`Other sets: ${byOutcome(others)}.`]),
        ...(silent === null ? [] : [silent]),
      ],
    };
  });
}

function chosenSet({ comparison, reading }: SetSaying): ChosenSet {
  return {
    words: comparison.words,
    limitSet: comparison.limitSet.title,
    source: comparison.limitSet.source.citation,
    reading: { value: valueAgainstLimit(reading), expandedUncertainty: reading.expandedUncertainty },
    band: comparison.row?.band ?? null,
    unit: comparison.row?.unit ?? 'degrees',
  };
}

/** Sets by what they say, the worst first. */
const byOutcome = (sets: readonly SetSaying[]): string =>
  OUTCOMES.flatMap(([outcome, words]) => {
    const titles = sets
      .filter(({ comparison }) => comparison.outcome === outcome)
      .map(({ comparison }) => comparison.limitSet.title);
    return titles.length === 0 ? [] : [`${words} ${listed(titles)}`];
  }).join('; ');

const OUTCOMES: readonly (readonly [Comparison['outcome'], string])[] = [
  ['past the limit', 'past the limit by'],
  ['cannot tell', 'cannot tell by'],
  ['inside the limit', 'inside the limit by'],
  // The set speaks of it, but not in a number that this reading can be held against.
  ['no limit on file', 'no number in'],
];
