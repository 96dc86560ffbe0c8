import { z } from 'zod';
import { firstIssue } from '../case/first-issue.ts';
import { failure, type Result, success } from '../geometry/result.ts';
import type { RatedReading } from '../geometry/statistics/agreement-study.ts';
import { seededRandom } from '../phantom/random.ts';
import { CONSTRUCTIONS, type Construction } from '../tolerance/anatomy.ts';
import { type ClassroomFileError, headOf } from './file-head.ts';
import { type FilmSet, readFilmSet, type SetFilm, writeFilmSet } from './film-set.ts';

export const STUDY_FORMAT = 'raybend-study';
const STUDY_VERSION = 1;

/** Who or what measures: a person, or a way of drawing the axes. A label, never a name. */
export interface Rater {
  readonly label: string;
  /** How both axes have to be drawn where methods are compared; null: as the rater likes. */
  readonly axes: Construction | null;
}

/** One reading of a study. */
export interface StudyReading {
  readonly filmId: string;
  readonly rater: string;
  /** Counted from 1. */
  readonly round: number;
  readonly value: number;
  readonly standardUncertainty: number;
}

/** The same films measured by several raters, or again by one, blinded and in an order of each round's own. */
export interface Study {
  readonly id: string;
  readonly title: string;
  readonly films: readonly SetFilm[];
  readonly raters: readonly Rater[];
  readonly rounds: number;
  /** The orders are drawn from it. */
  readonly seed: number;
  readonly readings: readonly StudyReading[];
}

const studySchema = z.strictObject({
  format: z.literal(STUDY_FORMAT),
  version: z.literal(STUDY_VERSION),
  id: z.string().min(1).max(100),
  title: z.string().max(200),
  films: z.array(z.unknown()).min(1).max(200),
  raters: z
    .array(z.strictObject({ label: z.string().min(1).max(60), axes: z.enum(CONSTRUCTIONS).nullable() }))
    .min(1)
    .max(40),
  rounds: z.number().int().min(1).max(10),
  seed: z.number().int().min(0).max(4294967295),
  readings: z
    .array(
      z.strictObject({
        filmId: z.string(),
        rater: z.string(),
        round: z.number().int().min(1),
        value: z.number(),
        standardUncertainty: z.number().nonnegative(),
      }),
    )
    .max(80_000),
});

export const writeStudy = (study: Study): string =>
  `${JSON.stringify({ format: STUDY_FORMAT, version: STUDY_VERSION, ...study }, null, 1)}\n`;

/** Reads a study file; its films are checked as those of a set, its readings against its films and raters. */
export function readStudy(text: string): Result<Study, ClassroomFileError> {
  const head = headOf(text, STUDY_FORMAT, STUDY_VERSION);
  if (!head.ok) return head;
  const parsed = studySchema.safeParse(head.value);
  if (!parsed.success) {
    return failure({ kind: 'invalid', ...firstIssue(parsed.error) });
  }
  const { format: _format, version: _version, films, ...study } = parsed.data;
  const asSet: FilmSet = { id: study.id, title: '', note: '', truth: 'hidden', films: films as SetFilm[] };
  const set = readFilmSet(writeFilmSet(asSet));
  if (!set.ok) return set;
  const labels = new Set(study.raters.map(({ label }) => label));
  if (labels.size < study.raters.length) {
    return failure({ kind: 'invalid', path: 'raters', problem: 'two raters have the same label' });
  }
  const known = new Set(set.value.films.map(({ id }) => id));
  const stray = study.readings.findIndex(
    ({ filmId, rater, round }) => !known.has(filmId) || !labels.has(rater) || round > study.rounds,
  );
  if (stray >= 0) {
    const problem = 'belongs to no film, rater or round of the study';
    return failure({ kind: 'invalid', path: `readings.${stray}`, problem });
  }
  const first = new Map<string, number>();
  for (const [row, reading] of study.readings.entries()) {
    const before = first.get(placeOf(reading));
    if (before !== undefined) {
      const problem = `the same film, rater and round as readings.${before}`;
      return failure({ kind: 'invalid', path: `readings.${row}`, problem });
    }
    first.set(placeOf(reading), row);
  }
  return success({ ...study, films: set.value.films });
}

/**
 * The films in the order in which a rater sees them in a round: drawn anew for every rater and round, and always the
 * same for the same seed, so that a rater can stop and go on.
 */
export function orderFor(study: Study, rater: string, round: number): readonly SetFilm[] {
  const random = seededRandom(study.seed, `${rater} round ${round}`);
  const films = [...study.films];
  for (let last = films.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1));
    [films[last], films[other]] = [films[other]!, films[last]!];
  }
  return films;
}

/** How a rater has to draw both axes; null: as they like. */
export const axesOf = (study: Pick<Study, 'raters'>, rater: string): Construction | null =>
  study.raters.find(({ label }) => label === rater)?.axes ?? null;

/** What comes next for a rater, and how far they are; null when everything is measured. */
export interface Turn {
  readonly film: SetFilm;
  readonly round: number;
  /** Counted from 1 within all the rater's readings. */
  readonly number: number;
  readonly of: number;
}

/** The next film of a rater, round by round in the order drawn for them; null: all are done. */
export function nextTurn(study: Study, rater: string): Turn | null {
  const done = study.readings.filter((reading) => reading.rater === rater);
  for (let round = 1; round <= study.rounds; round += 1) {
    const film = orderFor(study, rater, round).find(
      ({ id }) => !done.some((reading) => reading.filmId === id && reading.round === round),
    );
    if (film !== undefined) {
      return { film, round, number: done.length + 1, of: study.films.length * study.rounds };
    }
  }
  return null;
}

/** What there is one reading of. */
const placeOf = ({ filmId, rater, round }: StudyReading): string => JSON.stringify([filmId, rater, round]);

/** The study with one reading more; a reading that is there already is not changed, since the rater is blinded. */
export function withReading(study: Study, reading: StudyReading): Study {
  const there = study.readings.some((other) => placeOf(other) === placeOf(reading));
  return there ? study : { ...study, readings: [...study.readings, reading] };
}

/**
 * Readings of two copies of a study put together, as when each rater measured on a computer of their own. Where both
 * hold the same one, the first copy's stands. Fails with `other-study` when they are not copies of one study.
 */
export function joinedStudies(one: Study, other: Study): Result<Study, { readonly kind: 'other-study' }> {
  if (one.id !== other.id || one.seed !== other.seed) return failure({ kind: 'other-study' });
  const there = new Set(one.readings.map(placeOf));
  const further = other.readings.filter((reading) => !there.has(placeOf(reading)));
  return success(further.length === 0 ? one : { ...one, readings: [...one.readings, ...further] });
}

/** The readings as the statistics take them: round by round, films by their place in the study. */
export const ratedReadings = (study: Study): readonly RatedReading[] =>
  study.readings
    .toSorted((one, other) => one.round - other.round)
    .map(({ filmId, rater, value }) => ({ subject: filmName(study, filmId), rater, value }));

/** "film 3": by its place in the study, which says nothing of what it shows. */
export const filmName = (study: Pick<Study, 'films'>, filmId: string): string =>
  `film ${study.films.findIndex(({ id }) => id === filmId) + 1}`;
