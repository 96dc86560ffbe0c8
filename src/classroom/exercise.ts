import { emptyCase } from '../case/apply.ts';
import {
  type CaseDocument,
  caseId,
  type FilmRecord,
  INJURY_ID,
  type InjuryRecord,
  type RecordId,
  recordId,
} from '../case/document.ts';
import { injuryOf } from '../case/fixed-records.ts';
import type { Spacing } from '../geometry/spacing.ts';
import type { InventedFilmSpec, PhantomRay } from '../phantom/spec.ts';
import type { FilmTruth } from '../phantom/truth.ts';
import { type Asked, otherHandOf, type SetFilm } from './film-set.ts';

/** A film of an exercise, and whose hand it shows. */
export interface ExerciseFilm {
  readonly id: RecordId;
  readonly hand: FilmRecord['hand'];
  readonly spec: InventedFilmSpec;
  readonly filmSeed: number;
  /** Days since the injury; 0 unless films follow one another. */
  readonly day: number;
}

/** Something to measure, with a known answer. The first film is the one the answer is looked up on. */
export interface Exercise {
  readonly id: string;
  readonly title: string;
  /** What is to be done, in a few sentences. */
  readonly task: string;
  readonly ray: PhantomRay;
  readonly asked: Asked;
  readonly films: readonly [ExerciseFilm, ...ExerciseFilm[]];
}

/** What is known of a film once it is drawn, as the case keeps it. */
export interface DrawnFilm {
  readonly sha256: string;
  readonly spacing: Spacing;
  readonly truth: FilmTruth;
}

const RAY_WORDS: Readonly<Record<PhantomRay, string>> = {
  thumb: 'thumb',
  index: 'index finger',
  middle: 'middle finger',
  ring: 'ring finger',
  small: 'small finger',
};

export const rayWords = (ray: PhantomRay): string => RAY_WORDS[ray];

/** A film of a set as an exercise. */
export function exerciseOf(film: SetFilm): Exercise {
  const { id, title, spec, filmSeed, ray, asked, otherHand } = film;
  const injured: ExerciseFilm = { id: recordId(`${id}-injured`), hand: 'injured', spec, filmSeed, day: 0 };
  const other: ExerciseFilm = {
    ...injured,
    id: recordId(`${id}-other`),
    hand: 'other',
    spec: otherHandOf(spec),
  };
  return {
    id,
    title,
    task: taskWords(ray, asked, otherHand),
    ray,
    asked,
    films: otherHand ? [injured, other] : [injured],
  };
}

function taskWords(ray: PhantomRay, asked: Asked, otherHand: boolean): string {
  const bone = `the metacarpal of the ${RAY_WORDS[ray]}`;
  if (asked === 'angulation') return `Measure the angle between the two fragments of ${bone} on this film.`;
  return otherHand
    ? `Measure how far ${bone} is out of line: the angle on the injured hand, and the same lines on the other hand for its normal.`
    : `Measure how far ${bone} is out of line: the angle on this film, with a normal taken off.`;
}

/** The case in which an exercise is measured: everything said that is given, nothing placed. */
export function exerciseCase(exercise: Exercise, drawn: readonly DrawnFilm[]): CaseDocument {
  const empty = emptyCase(caseId(`exercise ${exercise.id}`));
  const [first] = drawn;
  const fracture = first?.truth.spec.fractures.find(({ ray }) => ray === exercise.ray);
  const injury: InjuryRecord = {
    ...injuryOf(empty),
    label: exercise.title,
    hand: first?.truth.side ?? null,
    ray: exercise.ray,
    region: fracture?.region ?? 'neck',
    pattern: fracture === undefined || fracture.fragments === 'two' ? null : 'comminuted',
    ageGroup: 'adult',
  };
  const films = exercise.films.flatMap((film, index): FilmRecord[] => {
    const known = drawn[index];
    return known === undefined ? [] : [filmRecord(film, known)];
  });
  return {
    ...empty,
    records: {
      ...empty.records,
      [INJURY_ID]: injury,
      ...Object.fromEntries(films.map((film) => [film.id, film])),
    },
  };
}

const filmRecord = ({ id, hand, day }: ExerciseFilm, { sha256, spacing, truth }: DrawnFilm): FilmRecord => ({
  kind: 'film',
  id,
  sha256,
  format: 'png',
  columns: truth.columns,
  rows: truth.rows,
  shows: 'bones',
  hand,
  view: truth.view,
  viewFrom: 'file',
  day,
  moment: null,
  spacing,
  invented: true,
  lossy: false,
  burnedIn: false,
  stated: { viewPosition: null, laterality: truth.side === 'left' ? 'L' : 'R' },
  mirrored: false,
});
