import type { Comparison } from '../case/comparison.ts';
import type { FilmRecord, InjuryRecord } from '../case/document.ts';
import type { Reading } from '../case/reading.ts';
import { scaleSentence } from './words/scale.ts';

/** What one row of the table of readings is made from. */
export interface ReadingRow {
  readonly caseKey: string;
  readonly filmKey: string;
  /** From 1, in the order in which the films were added. */
  readonly filmNumber: number;
  readonly injury: InjuryRecord;
  readonly film: FilmRecord;
  readonly reading: Reading;
  readonly measurementVersion: number;
  readonly softwareVersion: string;
}

/** What one row of the table of comparisons is made from. */
export interface ComparisonRow extends Pick<ReadingRow, 'caseKey' | 'filmNumber'> {
  readonly quantity: string;
  readonly comparison: Comparison;
}

export type Cell = string | number | boolean | null;

/** A column: its name, its unit ('' where there is none), what it means, and how it comes from a row. */
export interface Column<Row> {
  readonly name: string;
  readonly unit: string;
  readonly meaning: string;
  readonly of: (row: Row) => Cell;
}

const column = <Row>(name: string, unit: string, meaning: string, of: (row: Row) => Cell): Column<Row> => ({
  name,
  unit,
  meaning,
  of,
});

const known = <Value extends Cell>({ reading }: ReadingRow, value: (of: Known) => Value): Value | null =>
  reading.state === 'known' ? value(reading) : null;
type Known = Extract<Reading, { state: 'known' }>;

const spacing = ({ film }: ReadingRow) => (film.spacing.kind === 'millimetres' ? film.spacing : null);

const of = column<ReadingRow>;

/** The table of readings: one row for each reading, the missing ones too. */
export const READING_COLUMNS: readonly Column<ReadingRow>[] = [
  of(
    'case_key',
    '',
    'Keyed hash of the case; the same at every export from this computer.',
    (r) => r.caseKey,
  ),
  of('hand', '', 'Injured hand: left or right.', (r) => r.injury.hand),
  of('ray', '', 'Finger: thumb, index, middle, ring, small.', (r) => r.injury.ray),
  of('region', '', 'Broken part of the metacarpal: head, neck, shaft, base.', (r) => r.injury.region),
  of(
    'pattern',
    '',
    'Fracture pattern: transverse, oblique, spiral, comminuted, articular.',
    (r) => r.injury.pattern,
  ),
  of('age_group', '', 'adult or child.', (r) => r.injury.ageGroup),
  of('film', '', 'Number of the film within the case, from 1.', (r) => r.filmNumber),
  of(
    'film_key',
    '',
    'Keyed hash of the film’s content; the same film has the same key on this computer.',
    (r) => r.filmKey,
  ),
  of('film_hand', '', 'Which hand the film shows: injured or other.', (r) => r.film.hand),
  of('view', '', 'pa, oblique or lateral.', (r) => r.film.view),
  of('day', 'days', 'Whole days from the injury to the film.', (r) => r.film.day),
  of('invented', '', 'Whether the film is invented.', (r) => r.film.invented),
  of('quantity', '', 'What was measured; docs/measurements defines each.', (r) => r.reading.quantity),
  of('value', 'column unit', 'The reading; empty where it is missing.', (r) => known(r, (k) => k.value)),
  of('unit', '', 'Unit of value and of its uncertainties.', (r) => known(r, (k) => k.unit)),
  of('standard_uncertainty', 'column unit', 'Combined standard uncertainty, k = 1.', (r) =>
    known(r, (k) => k.standardUncertainty),
  ),
  of(
    'degrees_of_freedom',
    '',
    'Effective degrees of freedom (Welch–Satterthwaite); Inf where every source is of known variance.',
    (r) => known(r, (k) => k.degreesOfFreedom),
  ),
  of('expanded_uncertainty', 'column unit', 'Half-width of the 95 % interval.', (r) =>
    known(r, (k) => k.expandedUncertainty),
  ),
  of('lower_95', 'column unit', 'Lower end of the 95 % interval.', (r) =>
    known(r, (k) => k.value - k.expandedUncertainty),
  ),
  of('upper_95', 'column unit', 'Upper end of the 95 % interval.', (r) =>
    known(r, (k) => k.value + k.expandedUncertainty),
  ),
  of(
    'signed',
    '',
    'Whether the dorsal or radial side was tapped, so that the sign of an angle means something.',
    (r) => known(r, (k) => k.signed),
  ),
  of('apex', '', 'Apex direction in words; empty where it is not said.', (r) => known(r, (k) => k.apex)),
  of('proximal_construction', '', 'How the proximal axis was drawn.', (r) =>
    known(r, (k) => k.constructions[0] ?? null),
  ),
  of('distal_construction', '', 'How the distal axis was drawn.', (r) =>
    known(r, (k) => k.constructions[1] ?? null),
  ),
  of(
    'proximal_provenance',
    '',
    'How the mark of the proximal axis came about: placed, traced, traced-and-corrected.',
    (r) => known(r, (k) => k.provenances[0] ?? null),
  ),
  of(
    'distal_provenance',
    '',
    'How the mark of the distal axis came about: placed, traced, traced-and-corrected.',
    (r) => known(r, (k) => k.provenances[1] ?? null),
  ),
  of('definition', '', 'What was measured, as a sentence.', (r) => known(r, (k) => k.definition)),
  of('leaves_out', '', 'What the interval leaves out, as a sentence.', (r) => known(r, (k) => k.leavesOut)),
  of('basis', '', 'Where the value comes from when it is not measured on this film.', (r) =>
    known(r, (k) => k.basis),
  ),
  of('missing_because', '', 'What a missing reading lacks; empty where there is a value.', ({ reading }) =>
    reading.state === 'missing' ? reading.lacks : null,
  ),
  of(
    'row_spacing',
    'mm',
    'Distance of neighbouring rows; empty without a scale.',
    (r) => spacing(r)?.rowSpacingMm ?? null,
  ),
  of(
    'column_spacing',
    'mm',
    'Distance of neighbouring columns; empty without a scale.',
    (r) => spacing(r)?.columnSpacingMm ?? null,
  ),
  of('scale', '', 'Where the scale comes from and where it holds, as a sentence.', (r) =>
    scaleSentence(r.film.spacing),
  ),
  of(
    'measurement_version',
    '',
    'Raised whenever a formula, a default or a definition changes.',
    (r) => r.measurementVersion,
  ),
  of('software_version', '', 'Version of Raybend.', (r) => r.softwareVersion),
];

const compared = column<ComparisonRow>;

/** The table of comparisons: one row for each reading and limit set. */
export const COMPARISON_COLUMNS: readonly Column<ComparisonRow>[] = [
  compared('case_key', '', 'As in the table of readings.', (r) => r.caseKey),
  compared('film', '', 'As in the table of readings.', (r) => r.filmNumber),
  compared('quantity', '', 'The reading that was compared.', (r) => r.quantity),
  compared('limit_set', '', 'Id of the limit set.', (r) => r.comparison.limitSet.id),
  compared(
    'limit_set_revision',
    '',
    'Raised at each change of a number in the set.',
    (r) => r.comparison.limitSet.revision,
  ),
  compared('limit_set_source', '', 'Where the set comes from.', (r) => r.comparison.limitSet.source.citation),
  compared(
    'compared_with',
    '',
    'measured, deformity, both or value: what the set is meant for.',
    (r) => r.comparison.comparedWith,
  ),
  compared(
    'band_low',
    'column limit_unit',
    'Lower end of the limit band; empty without one.',
    (r) => r.comparison.row?.band?.lo ?? null,
  ),
  compared(
    'band_high',
    'column limit_unit',
    'Upper end of the limit band; empty without one.',
    (r) => r.comparison.row?.band?.hi ?? null,
  ),
  compared('limit_unit', '', 'Unit of the limit.', (r) => r.comparison.row?.unit ?? null),
  compared(
    'outcome',
    '',
    'inside the limit, cannot tell, past the limit, or no limit on file.',
    (r) => r.comparison.outcome,
  ),
  compared('reason', '', 'Why the outcome is what it is.', (r) => r.comparison.reason),
  compared(
    'probability_past',
    'share from 0 to 1',
    'Probability that the value lies past the upper end of the band.',
    (r) => r.comparison.probabilityPast,
  ),
  compared(
    'method_mismatch',
    '',
    'How the source measures otherwise; empty where alike.',
    (r) => r.comparison.methodMismatch,
  ),
];
