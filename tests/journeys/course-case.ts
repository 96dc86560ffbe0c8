import { createHash } from 'node:crypto';
import { emptyCase } from '../../src/case/apply.ts';
import { type CaseRecord, caseId, type FilmRecord, type Moment, recordId } from '../../src/case/document.ts';
import { freshState } from '../../src/case/history.ts';
import { inventedDicom } from '../../src/cli/invented-files.ts';
import { type FilmPoint, filmPoint } from '../../src/geometry/units.ts';
import { defaultSpec } from '../../src/phantom/default-specs.ts';
import { type InventedFilm, inventFilm } from '../../src/phantom/invent.ts';
import { seededRandom } from '../../src/phantom/random.ts';
import { type WholeCase, writtenArchive } from './archives.ts';

/** One lateral film of the course, with what is true of it. */
export interface CourseFilm {
  readonly id: string;
  readonly day: number;
  readonly moment: Moment;
  readonly apexDorsalDegrees: number;
  readonly bytes: Uint8Array;
  /** Angle between the fragments as projected, from the maker of the film. */
  readonly trueDegrees: number;
  readonly record: FilmRecord;
  readonly marks: readonly CaseRecord[];
}

/** A neck fracture that is reduced on the day of the injury and slips back within a week. */
const COURSE = [
  { id: 'film-before', day: 0, moment: 'before-reduction', apexDorsalDegrees: 55 },
  { id: 'film-after', day: 0, moment: 'after-reduction', apexDorsalDegrees: 18 },
  { id: 'film-week', day: 7, moment: 'follow-up', apexDorsalDegrees: 38 },
  { id: 'film-month', day: 28, moment: 'follow-up', apexDorsalDegrees: 40 },
] as const;

export const courseFilms = (): readonly CourseFilm[] =>
  COURSE.map((one, index) => {
    const spec = defaultSpec('small-neck-lateral');
    const film = inventFilm(
      {
        ...spec,
        fractures: spec.fractures.map((fracture) => ({
          ...fracture,
          apexDorsalDegrees: one.apexDorsalDegrees,
        })),
        film: { ...spec.film, columns: 780, rows: 1260, pitchMm: 0.19 },
      },
      seededRandom(11),
    );
    const bytes = inventedDicom(film, { name: one.id, study: 'COURSE', instanceNumber: index + 1 });
    return { ...one, bytes, ...placed(film, one, createHash('sha256').update(bytes).digest('hex')) };
  });

/** The film's record and its axes, placed on the truth. */
function placed(film: InventedFilm, about: (typeof COURSE)[number], sha256: string) {
  const ray = film.truth.rays.find((candidate) => candidate.ray === 'small')!;
  const broken = film.truth.fractures[0]!.distalBrokenEnd;
  const at = ({ column, row }: { readonly column: number; readonly row: number }): FilmPoint =>
    filmPoint(column, row);
  const onRim = (turnDegrees: number): FilmPoint => {
    const turn = (turnDegrees * Math.PI) / 180;
    return filmPoint(
      ray.headCentre.column + ray.headRadiusPixels * Math.cos(turn),
      ray.headCentre.row + ray.headRadiusPixels * Math.sin(turn),
    );
  };
  const filmId = recordId(about.id);
  const record: FilmRecord = {
    kind: 'film',
    id: filmId,
    sha256,
    format: 'dicom',
    columns: film.columns,
    rows: film.rows,
    shows: 'bones',
    hand: 'injured',
    view: 'lateral',
    viewFrom: 'user',
    day: about.day,
    moment: about.moment,
    spacing: {
      kind: 'millimetres',
      rowSpacingMm: 0.19,
      columnSpacingMm: 0.19,
      plane: 'detector',
      origin: 'invented-film',
      calibrationType: null,
      calibrationDescription: null,
      estimatedMagnification: null,
      relativeStandardUncertainty: 0,
      conflicts: [],
    },
    invented: true,
    lossy: false,
    burnedIn: false,
    stated: { viewPosition: null, laterality: 'R' },
    mirrored: false,
  };
  const mark = (role: 'proximal-axis' | 'distal-axis' | 'dorsal-side', shape: object): CaseRecord =>
    ({
      kind: 'mark',
      id: recordId(`${about.id}/${role}`),
      filmId,
      role,
      shape,
      provenance: 'placed',
    }) as CaseRecord;
  return {
    record,
    trueDegrees: ray.projectedAngleDegrees,
    marks: [
      mark('proximal-axis', {
        construction: 'free',
        from: at(ray.proximalAxis.from),
        to: at(ray.proximalAxis.to),
      }),
      mark('distal-axis', {
        construction: 'head',
        rim: [250, 340, 70].map(onRim),
        brokenEnd: at(broken),
      }),
      mark('dorsal-side', {
        construction: 'point',
        at: filmPoint(
          ray.headCentre.column + 120 * ray.dorsal.columns,
          ray.headCentre.row + 120 * ray.dorsal.rows,
        ),
      }),
    ],
  };
}

/** A case with some films of the course, and what is on them. */
export function courseCase(
  films: readonly CourseFilm[],
  { id = 'course-case', label = 'Boxer, invented' }: { id?: string; label?: string } = {},
): WholeCase {
  const start = emptyCase(caseId(id));
  const injury = start.records[recordId('injury')];
  const records: readonly CaseRecord[] = [
    { ...injury, label, hand: 'right', ray: 'small', region: 'neck', ageGroup: 'adult' } as CaseRecord,
    ...films.flatMap(({ record, marks }) => [record, ...marks]),
  ];
  return {
    state: freshState({
      ...start,
      records: { ...start.records, ...Object.fromEntries(records.map((record) => [record.id, record])) },
    }),
    unknownFields: {},
  };
}

/** An archive of cases with the films given. */
export const archiveOf = (cases: readonly WholeCase[], films: readonly CourseFilm[]) =>
  writtenArchive(cases, new Map(films.map(({ record, bytes }) => [record.sha256, bytes])));
